"""What one bracing does to a rack: how it moves and shakes, the forces in knees and guys.

In: solved blocks. Out: records of movement, shaking, forces, and how far the second solver
agrees. Open `movement.py` first.
"""
