"""Which stick gives which piece: cuts with their kerf, splices only where they may be.

In: pieces wanted and sticks at hand. Out: a pile of cuts. Open `best.py` first.
"""
