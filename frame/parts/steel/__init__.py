"""Posts, beam, braces and the sleeve between post and beam, with what locks it.

In: a `Situation`. Out: checks of pipes, splices, walls and locks. Open `pipes.py` first; how much
the lock holds stands in `grip.py`.
"""
