"""The shop's numbers in words, as JSON and as CSV."""
