"""A second process, where that is worth it: with two cores, and where forking is safe."""

import multiprocessing
import os
import sys
import threading
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
    forked = multiprocessing.get_context("fork")
    with ProcessPoolExecutor(1, mp_context=forked, initializer=_watch) as worker:
        yield worker


def _watch() -> None:
    """Have this process end with the one that it works for.

    Killed, that one tells nobody, and an idle worker would wait for more work for ever.
    """
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
