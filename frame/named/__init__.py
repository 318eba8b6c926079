"""What things are called: ids of parts, limit states, movements, loads, backfill; their words.

In: what a part is (kind, post, side). Out: an id that the program decides by, whose words are for
print alone. Open `part.py` first; `limit_state.py` lists everything that is checked.
"""
