"""Work on something held in another process, forked from this one where the system can do that.

Frames are large and are needed again, so that whoever solved them keeps them: what is asked and
answered goes through pipes, what is worked on stays where it is.
"""

import os
import pickle
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from typing import IO, Concatenate, Generic, ParamSpec, TypeVar

from frame.errors import FrameError

Held = TypeVar("Held")
Told = TypeVar("Told")
P = ParamSpec("P")


def processes() -> int:
    """Return how many processes are worth it: two with two cores, where forking is safe."""
    if not sys.platform.startswith("linux"):
        return 1
    return min(2, len(os.sched_getaffinity(0)))


@dataclass(frozen=True)
class Here(Generic[Held]):
    """Something held in this process."""

    held: Held

    def ask(
        self, work: Callable[Concatenate[Held, P], Told], *args: P.args, **more: P.kwargs
    ) -> Callable[[], Told]:
        """Return a function that does the work on it and returns the answer."""
        return lambda: work(self.held, *args, **more)


@dataclass(frozen=True)
class There(Here[Held]):
    """Something held in a forked process too; should that die, the work is done here."""

    to: IO[bytes]
    back: IO[bytes]

    def ask(
        self, work: Callable[Concatenate[Held, P], Told], *args: P.args, **more: P.kwargs
    ) -> Callable[[], Told]:
        """Have the work begun there; the function returned waits for the answer."""
        with suppress(BrokenPipeError):
            pickle.dump((work, args, more), self.to)
            self.to.flush()

        def answer() -> Told:
            try:
                done, told = pickle.load(self.back)
            except (EOFError, pickle.UnpicklingError):
                return work(self.held, *args, **more)
            if not done:
                raise told
            result: Told = told
            return result

        return answer


@contextmanager
def beside(held: Held, count: int) -> Iterator[Here[Held]]:
    """Hold something in a second process if `count` is 2 or more, else in this one."""
    if count < 2:
        yield Here(held)
        return
    asked, to = os.pipe()
    back, told = os.pipe()
    child = os.fork()
    if not child:
        os.close(to)
        os.close(back)
        _serve(held, os.fdopen(asked, "rb"), os.fdopen(told, "wb"))
    os.close(asked)
    os.close(told)
    with os.fdopen(to, "wb") as line, os.fdopen(back, "rb") as answers:
        try:
            yield There(held, line, answers)
        finally:
            with suppress(BrokenPipeError):
                line.close()
            os.waitpid(child, 0)


def _serve(held: Held, asked: IO[bytes], told: IO[bytes]) -> None:
    """Do what is asked until nobody asks any more, then end the process."""
    try:
        while True:
            work, args, more = pickle.load(asked)
            try:
                answer = True, work(held, *args, **more)
            except FrameError as error:
                answer = False, error
            pickle.dump(answer, told)
            told.flush()
    except (EOFError, BrokenPipeError):
        pass
    finally:
        os._exit(0)
