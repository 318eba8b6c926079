"""Which stick gives which piece: cuts with their kerf, splices only where they may be.

In: pieces wanted and sticks at hand. Out: a pile of cuts. Open `cut_plan.py` first, then
`best.py`; where a pipe may be spliced stands in `splice_zones.py`, which will do in `fitting.py`.
"""
