"""The first screen of `rack compare`: what to do, why, and when to run, in 40 lines at most.

In comes a `Decision` of `frame.plan`, out go lines of 80 letters. Open first: `first` (which
lines, in which order, and what is left out where room is short), then `lines` and `doubts`
(each paragraph), `steps` (the table of the plan) and `phrases` (words for what happens).
"""
