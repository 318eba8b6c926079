"""Posts in the ground: pushed sideways, up and down, and turned.

In: what the post hands over at grade, its depth and the soil. Out: checks of the ground. Open
`post_lateral.py` first (the code's rule); `post_ultimate.py` is where the ground gives way.
"""
