"""What is cut from what: needs, sticks, and the plan that comes of them."""

from dataclasses import dataclass

NEARLY = 1e-7
"""By what a length may be over and still fit [m]."""
Stretch = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """A piece of `length` [m]; `zones` [m] along it where it may be spliced, none by default.

    `fits`: numbers of the sticks, and of the lengths to buy after them, that it may be cut from
    whole; `joins`: of those that may be spliced into it, all of them if None. `load`: how much of
    the strength described it uses [1].
    """

    name: str
    length: float
    fits: frozenset[int]
    zones: tuple[Stretch, ...] = ()
    joins: frozenset[int] | None = None
    load: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stick:
    """A length of pipe [m] at `cost`, with `bad` stretches from its first end [m].

    `at_hand` or to be bought. `strength` over that of the pipe described [1].
    """

    name: str
    length: float
    cost: float = 0.0
    bad: tuple[Stretch, ...] = ()
    at_hand: bool = True
    strength: float = 1.0

    def sound(self) -> tuple[Stretch, ...]:
        """Return the stretches that may be used [m]."""
        found, start = [], 0.0
        for low, high in sorted(self.bad):
            if low - start > NEARLY:
                found.append((start, low))
            start = max(start, high)
        if self.length - start > NEARLY:
            found.append((start, self.length))
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pile:
    """Needs and sticks; `kerf` of a cut and the `least` length of a spliced part [m].

    A piece is spliced at most `most` times.
    """

    needs: tuple[Need, ...]
    sticks: tuple[Stick, ...]
    kerf: float
    least: float
    most: int = 2

    def bins(self) -> tuple[tuple[int, Stretch], ...]:
        """Return every sound stretch with the number of its stick."""
        return tuple((i, s) for i, stick in enumerate(self.sticks) for s in stick.sound())


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A part of a need, `start` to `stop` along it [m], cut from a stick `at` along that [m]."""

    need: int
    start: float
    stop: float
    stick: int
    at: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """Cuts that make every need; `proved` that nothing is better.

    `bought` sticks, `splices`, `money`; `bound` of the last stage that was not proved: least
    (bought, splices, money) that any plan could have, as far as known.
    """

    cuts: tuple[Cut, ...]
    bought: int
    splices: int
    money: float
    proved: bool
    bound: tuple[float, float, float]

    def of_stick(self, stick: int) -> tuple[Cut, ...]:
        """Return what is cut from a stick, from its first end on."""
        return tuple(sorted((c for c in self.cuts if c.stick == stick), key=lambda c: c.at))

    def splices_of(self, need: int) -> tuple[float, ...]:
        """Return where a need is spliced [m]."""
        return tuple(sorted(c.start for c in self.cuts if c.need == need and c.start > NEARLY))


def laid(pile: Pile, parts: list[tuple[int, float, float, int]], **found: object) -> CutPlan:
    """Lay parts (need, start, stop, bin) one after another along their bins."""
    bins = pile.bins()
    ends = {b: stretch[0] for b, (_, stretch) in enumerate(bins)}
    cuts = []
    for need, start, stop, b in sorted(parts, key=lambda p: (p[3], p[0], p[1])):
        cuts.append(Cut(need=need, start=start, stop=stop, stick=bins[b][0], at=ends[b]))
        ends[b] += stop - start + pile.kerf
    used = {c.stick for c in cuts}
    bought = sum(not pile.sticks[s].at_hand for s in used)
    splices = len(cuts) - len(pile.needs)
    money = sum(pile.sticks[s].cost for s in used)
    return CutPlan(
        cuts=tuple(cuts),
        bought=bought,
        splices=splices,
        money=money,
        proved=bool(found.get("proved", False)),
        bound=found.get("bound", (0.0, 0.0, 0.0)),  # type: ignore[arg-type]
    )
