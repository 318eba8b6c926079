"""Numbers only: nodes, members, springs, guys and the answers; knows no post and no panel.

In: a `Model` (`model.py`, open it first) and factors over its unit loads. Out: a `Response`
(`response.py`), and from it an `Answer` for each case (`cases.py`), guys by `cables.py`.
`second_order` makes answers grow by the frame's buckling shapes; `plane` is the second solver.
"""
