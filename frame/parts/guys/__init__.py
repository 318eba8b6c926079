"""Guys and their anchors.

In: a `Situation` with guys fitted. Out: checks of each line and of its anchor. Open `guys.py`
first, then `anchors.py`; the median model has `anchors_expected.py`.
"""
