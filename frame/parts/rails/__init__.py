"""Rails and what holds them to the beam and the panels to them.

In: a `Situation`. Out: checks of rails, U-bolts, stops, clamps and panels. Open `rails.py` first;
gusts stronger than the rack's average stand in `local_wind.py`.
"""
