"""What acts on the rack: weights, wind and how they are combined.

In: a `Rack` and its site. Out: pressures, forces, and factors over unit loads. Open `cases.py`
first, which names every combination, then `wind.py`.
"""
