"""Steel along its length: pipes, braces, rails.

In: section forces, a section and its steel. Out: checks of yielding and buckling. Open `pipe.py`
first; its strengths stand in `pipe_strength.py`.
"""
