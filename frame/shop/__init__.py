"""From the answer to the steel: pieces, marks and numbers for the shop, no pages.

In: a `Rack` with its bracing. Out: a `Job`. Open `job.py` first, then `pieces.py` and
`cut_list.py`; `cutting` says which stick gives which piece, `buying` what is bought.
"""
