"""Second order: how near a frame is to buckling, and how its answers grow on the way there.

In: a solved `Response` and cases. Out: buckling factors lambda and what is added to movements and
forces. Open `ritz.py` first, then `shapes.py`, which chooses the few shapes it all is looked for
in; `buckling.py` solves the whole frame without them.
"""
