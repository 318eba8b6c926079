"""The engineering judgement: a rack becomes a frame model; the only place where both meet."""
