"""Pictures of the rack and its answers.

In: what `frame/pictured` found. Out: figures. Open `whats.py` first (what can be drawn),
then `picture.py`. `shop` draws the shop's pages.
"""
