"""The engineering judgement: a rack becomes a frame model; the only place where both meet.

In: a `Rack`, its bracing, a tilt, a corner of the bands. Out: an `Idealized` with its `Model` and
unit loads. Open `build.py` first, then `posts.py`, `deck.py` and `lines.py`; loads stand in
`actions.py`, `drag.py` and `surcharge.py`, the plane elevations in `elevation.py`.
"""
