"""What acts on the rack: weights, wind and how they are combined.

In: a `Rack` and its site. Out: pressures, forces, and factors over unit loads. Open
`combinations.py` first, then `cases.py` (winds as factors) and `wind.py`.
"""
