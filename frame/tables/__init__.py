"""Published numbers: data files with a source on every row, read by one loader.

In: the CSV files of `data`. Out: typed rows. Open `reader.py` first, then the file of the thing.
"""
