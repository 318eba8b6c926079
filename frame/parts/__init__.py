"""Which checks a part needs and with which forces; one kind of part a file.

In: a `Situation`. Out: pairs of part name and `Check`, over all its cases, by either model.
`checkers.py` lists every adaptor, `checker.py` says what one is; open them first, then
`steel/pipes.py`. Folders from the bottom up: `steel` (posts, beam, braces, sleeve), `ground`,
`guys`, `welds`, `rails` (and all that stands on them). `forces.py` is what several kinds need.
"""
