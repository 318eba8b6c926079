"""The keys of a rack file: sections, types, defaults, a description of each.

In: plain tables of a file. Out: models of its sections, SI inside. Open `rack.py` first; a single
value is read by `fields.py`. Keys of guys and hill stand in `lines.py`, of pipes in `pipes.py`, of
readings in `measured.py`, of prices and stock in `store.py`.
"""
