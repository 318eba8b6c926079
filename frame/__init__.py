"""Decide the bracing of a welded pipe rack: rack file in, bracing decision out."""
