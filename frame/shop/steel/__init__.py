"""Pieces of steel as they are cut and joined: lengths, ends, marks, welds, templates.

In: a `Rack` with its bracing at a tilt. Out: `Piece`s and joints between them, from real pipe
surfaces. Open `pieces.py` first, then `cut_list.py`; which place comes to which stands in
`assembly.py`, every weld and bolt in `welds.py`.
"""
