"""Questions that make a rack file. Nothing here prints or waits for a key: `frame/cli` asks.

In: what a builder types. Out: the text of a rack file. Open `question.py` first (the rows of
`questions.toml`), then `judge.py` and `written.py`.
"""
