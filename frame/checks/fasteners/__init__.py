"""What is bolted, clamped or pinned: U-bolts, set bolts, pins, lugs, clamps, stops, the sleeve.

In: forces on the fitting, its torque and friction. Out: checks of grip and of strength. Open
`set_bolt.py` first for what holds by friction, `pin.py` for what holds by its own section.
"""
