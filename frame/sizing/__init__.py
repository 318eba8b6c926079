"""The lightest rack that holds: every arrangement looked at, the best grown and trimmed.

In: a rack file and what may change in it. Out: a changed file, what it costs, and what stops it
where nothing holds. Open `size.py` first.
"""
