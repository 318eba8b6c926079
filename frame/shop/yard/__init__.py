"""Setting out and what hangs on the ground: stakes, guys, room to turn, neighbours, pulls.

In: a `Rack` with its bracing and the ground round it. Out: places, lengths and pulls. Open
`stakes.py` first, then `lines.py`.
"""
