"""From the keys of a file to a rack.

In: the models of its sections. Out: a `Rack`, with catalog rows looked up and defaults worked out.
Open `rack.py` first; each other file makes one part of it.
"""
