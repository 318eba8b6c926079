"""Posts in the ground, by the code and by what is expected.

In: a `Situation`. Out: checks of the ground at each post. Open `posts.py` first; the median model
has `posts_expected.py`, and what a post hands over at grade is worked out in `at_grade.py`.
"""
