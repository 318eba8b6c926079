"""Which movement is it: what was read off a standing rack, and what that makes of it.

In comes the text of a rack file with readings under [measured]; out goes a `Diagnosis`: every
unknown fitted with its band, each movement in shares beside what is normal, pipe bent past yield,
readings that contradict, the reading to take next, values for the file, and what all that does to
the plan. Open first: `diagnosis` (the whole), then `forward` (what a rack of given stiffness would
read), `unknowns` (what may differ), `fit` (how it is found) and `movements` (shares and causes).
"""
