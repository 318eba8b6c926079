"""What to weld and change, in which order, and what each step buys.

In comes the text of a rack file; out goes a `Decision`: the plan from the rack as it stands to
the best that its kind reaches, and what decides there.
Open first: `decision` (the whole), then `greedy` (how steps are chosen), `offers` (what may be
changed, each as an edit of the file), `standing` (a rack solved as far as a step needs).
"""
