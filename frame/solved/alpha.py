"""How many times the forces count against the stiffness of the rack in second order."""

ASD_ALPHA = 1.6
"""From ASD to strength level, AISC 360-22 C2.1; the forces it gives are divided by it again."""
STIFFNESS_LEFT = 0.8
"""Part of the stiffness counted on, AISC 360-22 C2.3."""
CODE_ALPHA = ASD_ALPHA / STIFFNESS_LEFT
MEDIAN_ALPHA = 1.0
"""What is expected, and movement in service: the forces as they are, the whole stiffness."""
