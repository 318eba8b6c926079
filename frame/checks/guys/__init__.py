"""Guys and what they are tied to: wire, terminations, hardware, anchors.

In: the pull of a line and what it is made of. Out: checks of the line and of its anchor. Open
`guy.py` first; anchors stand in `anchor.py` (driven and screwed), `anchor_block.py`, `deadman.py`.
"""
