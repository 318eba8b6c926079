"""Pages for the shop wall: black on white, large type, nothing that a copier loses.

In: a `Job`. Out: pages as PDF. Open `book.py` first, then `paper.py`, which all pages are made of.
"""
