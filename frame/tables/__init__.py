"""Published numbers: data files with a source on every row, read by one loader."""
