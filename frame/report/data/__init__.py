"""Answers as plain data for JSON: SI values under keys that stay.

In: what was found. Out: dictionaries and lists. Open `document.py` first (a study), then
`bracing.py`; what all of them begin and end with stands in `plain.py`.
"""
