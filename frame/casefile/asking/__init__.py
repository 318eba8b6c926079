"""Questions that make a rack file. Nothing here prints or waits for a key: `frame/cli` asks."""
