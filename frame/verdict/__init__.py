"""All bracings of a rack file compared, and what the code's margin says of them.

In: a rack. Out: a `Study` with a result for every bracing, and one bracing `Inspection`s in
depth. Open `compare.py` first.
"""
