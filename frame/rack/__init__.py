"""What the builder owns: frozen parts in SI units, no arrays, no solving.

In: what `frame/casefile` read. Out: a `Rack`. Open `rack.py` first; each part has a file.
"""
