"""Readings of a standing rack: the card to fill in, and what they tell.

In: a rack with its readings, a `Diagnosis`. Out: lines of text. Open `screen.py` first.
"""
