"""Where steel is welded to post and beam: welds, walls beside them, lugs and their bolts.

In: a `Situation`. Out: checks of each weld and wall. Open `welds.py` first, then `joints.py`.
"""
