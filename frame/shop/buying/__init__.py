"""What to buy: everything a rack takes, counted and priced.

In: a `Rack`, its pieces, lines, welds and cut plan. Out: a `Shopping`. Open `shopping.py` first;
`bolts.py` counts what holds the pieces together.
"""
