"""A second process, where that is worth it: with two cores, and where forking is safe."""

import multiprocessing
import os
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager


def processes() -> int:
    """Return how many processes are worth it, one or two."""
    if not sys.platform.startswith("linux"):
        return 1
    return min(2, len(os.sched_getaffinity(0)))


@contextmanager
def second_process(count: int) -> Iterator[ProcessPoolExecutor | None]:
    """Work in another process, forked, where two are wanted; None else."""
    if count < 2:
        yield None
        return
    with ProcessPoolExecutor(1, mp_context=multiprocessing.get_context("fork")) as worker:
        yield worker
