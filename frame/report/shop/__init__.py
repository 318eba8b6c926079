"""The shop's numbers in words, as JSON and as CSV.

In: a `Job`. Out: a document and tables. Open `data.py` first.
"""
