"""Can it be built? What contradicts itself is an error, what is doubtful a warning.

In: an assembled `Rack`. Out: notes. Open `rack.py` first, then `bracing.py` and `panels.py`.
"""
