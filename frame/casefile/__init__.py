"""The rack file: keys, units, defaults, every error at once.

In: the path or text of a rack file. Out: a `Rack` with what was assumed and warned of, or every
problem found. Open `read.py` first: it reads the text (`syntax.py`), checks it against `keys`, has
the rack put together by `assemble`, and asks `buildable` whether it can stand. `asking` is the
dialogue that writes a file, `write.py` changes values in one.
"""
