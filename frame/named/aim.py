"""What a change strengthens: limit states of parts, told by ids."""

from collections.abc import Iterable
from dataclasses import dataclass

from frame.named.limit_state import LimitState, Movement
from frame.named.part import Part, PartKind, Spot

Key = tuple[Part, LimitState]
"""A check: which limit state of which part."""
Short = Key | Movement
"""What may fall short: a check, or a movement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """Checks of a kind of part, only those told: `on` a pipe, `at` what meets it, of a `group`.

    `states` are the limit states meant, all where empty.
    """

    kind: PartKind
    states: tuple[LimitState, ...] = ()
    on: PartKind | None = None
    at: PartKind | Spot | None = None
    group: str = ""

    def meets(self, part: Part, state: LimitState) -> bool:
        """Whether a check is one of those."""
        return (
            part.kind is self.kind
            and (not self.states or state in self.states)
            and (self.on is None or part.on is self.on)
            and (self.at is None or part.met is self.at)
            and (not self.group or part.group == self.group)
        )


Helps = tuple[Aim | Movement, ...]
"""What a change is made for."""


def helped(helps: Helps, short: Short) -> bool:
    """Whether what falls short is something that a change helps."""
    if isinstance(short, Movement):
        return short in helps
    return any(isinstance(aim, Aim) and aim.meets(*short) for aim in helps)


def helps_any(helps: Helps, shorts: Iterable[Short]) -> bool:
    """Whether a change helps any of what falls short."""
    return any(helped(helps, short) for short in shorts)


def shortfall_words(short: Short) -> str:
    """Name what falls short: "post 1: buckling"."""
    return str(short) if isinstance(short, Movement) else "{}: {}".format(*short)
