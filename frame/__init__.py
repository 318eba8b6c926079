"""Decide the bracing of a welded pipe rack: rack file in, bracing decision out."""

import os

# Matrices here are small: threads would wait for each other longer than they work.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
