"""Everything of a rack that can be made stronger or different, with its rungs, stock and cost.

In: a rack. Out: changes, each able to make the rack anew, series of sizes as edits of the rack
file, and what each adds in money or steel. Open `offered.py` first.
"""
