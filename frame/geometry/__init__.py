"""Shapes and directions: no loads, no strengths.

In: sizes in metres. Out: section values and lines of cut. Open `tube.py` first.
"""
