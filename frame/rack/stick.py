"""Odd lengths of pipe that the builder has, to be cut from."""

from dataclasses import dataclass

from frame.rack.pipe import Pipe


@dataclass(frozen=True, slots=True, kw_only=True)
class OddLength:
    """`count` equal sticks of `pipe`, each of `length` [m], at `cost` in the file's currency.

    `bad`: stretches from one end that are not to be used [m]; `entry` of the file, from 0.
    """

    pipe: Pipe
    length: float
    count: int
    cost: float
    bad: tuple[tuple[float, float], ...]
    entry: int
