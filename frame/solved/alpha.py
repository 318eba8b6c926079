"""How many times the forces count against the stiffness of the rack in second order."""

ASD_ALPHA = 1.6
"""From ASD to strength level, AISC 360-22 C2.1: how far forces make each other grow.

C2.1 solves for 1.6 times the loads and divides what it finds by 1.6. Here the growth at 1.6 times
the loads is put on the loads as they are (see `frame.fem.second_order.ritz`): the same, but that
guys are taut or slack as the loads themselves leave them.
"""
STIFFNESS_LEFT = 0.8
"""Part of the stiffness counted on, AISC 360-22 C2.3."""
CODE_ALPHA = ASD_ALPHA / STIFFNESS_LEFT
MEDIAN_ALPHA = 1.0
"""What is expected, and movement in service: the forces as they are, the whole stiffness."""
