"""Where steel is welded to steel: the weld itself, and the wall of the pipe beside it.

In: forces on a joint and its sizes. Out: checks of weld metal and of walls. Open `weld.py` first
for welds as lines, `chord_wall.py` for a pipe on a pipe, `lug_wall.py` for a flat plate on one.
"""
