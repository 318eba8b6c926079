"""Results put in words and tables; nothing is computed here.

In: a `Study`, a `Decision`, a `Diagnosis`, gusts, sizes. Out: lines and tables, and plain data.
Open `screen/first.py` first (what `rack compare` prints), then `compare_page.py`, `check_page.py`
and `gusts.py`. `data` is the JSON, `readings` the standing rack, `shop` the shop's papers.
"""
