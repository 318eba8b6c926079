"""The same rack under another assumption: an unknown known, a part gone, built a little wrong.

In: a rack and its solved blocks. Out: the gusts it then has. Open `known_better.py` first.
"""
