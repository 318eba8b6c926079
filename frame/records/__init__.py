"""What is found, as plain frozen records: rows, results, movements, ranges. SI units.

In: numbers worked out above. Out: what screens, JSON and pictures read. Open `results.py` first.
"""
