"""A rack at its tilts and corners of the bands, solved for its load cases.

In: a `Rack` with one bracing, and which of the two models is asked. Out: `Block`s, each a
factorised frame with its table of cases, and `Situation`s, a block at given gusts, from which
every check reads forces, displacements and what is expected of an uncertain input. `swaying.py`
says how slowly a frame sways and which gust factor the code then asks for. Open `frames.py` first,
then `blocks.py` and `situation.py`.
"""
