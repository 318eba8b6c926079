"""Plane frames and the plane solver: anastruct, as a second opinion on the space frame.

In: a `PlaneFrame` and factors over its loads. Out: a `PlaneAnswer`. Open `model.py` first, then
`planar.py`; the other program's habits are undone in `system.py`.
"""
