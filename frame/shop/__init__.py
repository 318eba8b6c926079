"""From the answer to the steel: pieces, marks and numbers for the shop, no pages.

In: a `Rack` with its bracing. Out: a `Job`. Open `job.py` first, then `steel` (pieces and their
joints), `yard` (setting out, guys), `cutting` (which stick gives which piece), `buying` (what it
takes). `words.py` and its neighbours put numbers in words.
"""
