"""The gust at which each check is reached, and what is first to go, by both models.

In: blocks. Out: rows with their limit gust (code) and their `Going` (expected, with a range).
Open `survey.py` first: it runs a search from the coarse `grid.py` over `crossings.py` to the rows
of `governing.py`; `weakest.py` finds only the lowest of a bracing, for whoever tries many. A
`Search` (`searched.py`) knows every checker: nobody hands them on.
"""
