"""Work on something held in another process, forked from this one where the system can do that.

Frames are large and are needed again, so that whoever solved them keeps them: what is asked and
answered goes through pipes, what is worked on stays where it is.
"""

import os
import pickle
import select
import sys
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from functools import partial
from typing import Any, Concatenate, Generic, ParamSpec, TypeVar

from frame.errors import FrameError

Held = TypeVar("Held")
Told = TypeVar("Told")
Item = TypeVar("Item")
P = ParamSpec("P")
SIZE = 8
"""Bytes that tell how long a message is."""


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

    def each(self, work: Callable[[Held, Item], Told], items: Sequence[Item]) -> tuple[Told, ...]:
        """Do work that needs nothing solved before on every item."""
        return tuple(work(self.held, item) for item in items)


@dataclass
class Asked:
    """Work asked of another process; `outcome`: once known, whether it went well, the answer."""

    work: Callable[[], Any]
    outcome: tuple[bool, Any] | None = None


@dataclass(frozen=True)
class There(Here[Held]):
    """Something held in a forked process too; should that die, the work is done here.

    `to`, `back`: ends of the pipes; `line`: what has been asked and not been answered yet. What is
    asked while an answer is due has to be short enough for a pipe, which holds 64 kB.
    """

    to: int
    back: int
    line: deque[Asked] = field(default_factory=deque)

    def ask(
        self, work: Callable[Concatenate[Held, P], Told], *args: P.args, **more: P.kwargs
    ) -> Callable[[], Told]:
        """Have the work begun there; the function returned waits for the answer."""
        asked = Asked(partial(work, self.held, *args, **more))
        self.line.append(asked)
        with suppress(BrokenPipeError):
            _send(self.to, (work, args, more))

        def answer() -> Told:
            while asked.outcome is None:
                self._next()
            done, told = asked.outcome
            if not done:
                raise told
            result: Told = told
            return result

        return answer

    def each(self, work: Callable[[Held, Item], Told], items: Sequence[Item]) -> tuple[Told, ...]:
        """Do work that needs nothing solved before on every item, in whichever process is free."""
        answers: list[Callable[[], Told]] = []
        for item in items:
            if self._free():
                answers.append(self.ask(work, item))
            else:
                answers.append(_known(work(self.held, item)))
        return tuple(answer() for answer in answers)

    def _free(self) -> bool:
        """Whether everything asked so far is answered."""
        while self.line and select.select([self.back], [], [], 0)[0]:
            self._next()
        return not self.line

    def _next(self) -> None:
        """Wait for the next answer."""
        asked = self.line.popleft()
        try:
            asked.outcome = _receive(self.back)
        except (EOFError, pickle.UnpicklingError):
            asked.outcome = _outcome(asked.work)


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
        _serve(held, asked, told)
    os.close(asked)
    os.close(told)
    try:
        yield There(held, to, back)
    finally:
        os.close(to)
        os.close(back)
        os.waitpid(child, 0)


def _serve(held: Held, asked: int, told: int) -> None:
    """Do what is asked until nobody asks any more, then end the process."""
    try:
        while True:
            work, args, more = _receive(asked)
            _send(told, _outcome(partial(work, held, *args, **more)))
    except (EOFError, BrokenPipeError):
        pass
    finally:
        os._exit(0)


def _known(told: Told) -> Callable[[], Told]:
    return lambda: told


def _outcome(work: Callable[[], Any]) -> tuple[bool, Any]:
    try:
        return True, work()
    except FrameError as error:
        return False, error


def _send(pipe: int, message: object) -> None:
    data = pickle.dumps(message)
    rest = memoryview(len(data).to_bytes(SIZE, "big") + data)
    while rest:
        rest = rest[os.write(pipe, rest) :]


def _receive(pipe: int) -> Any:
    return pickle.loads(_read(pipe, int.from_bytes(_read(pipe, SIZE), "big")))


def _read(pipe: int, count: int) -> bytes:
    found = bytearray()
    while len(found) < count:
        some = os.read(pipe, count - len(found))
        if not some:
            raise EOFError
        found += some
    return bytes(found)
