"""The rack file: keys, units, defaults, every error at once."""
