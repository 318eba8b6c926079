"""One command a file: parse, call, print.

In: words of the command line. Out: text, files and an exit code. Open `main.py` first, which lists
the commands, then `compare.py`.
"""
