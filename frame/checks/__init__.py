"""One limit state a function: pure, of numbers and arrays, with source and limits.

In: forces and what a part is made of, in SI. Out: a `Check`. Open `check.py` first, then the
folder of what gives way: `steel` (pipes, rails, braces), `welds` (weld metal and the walls beside
it), `fasteners` (whatever is bolted, clamped or pinned, the sleeve among them), `ground` (posts in
it), `guys` (lines and their anchors). `toppling.py` is the rack as a whole.
"""
