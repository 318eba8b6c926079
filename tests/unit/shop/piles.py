"""What is wrong with a cut plan, told without the program that made it; and random piles."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from frame.shop.cutting.pile import CutPlan, Need, Pile, Stick

CLOSE = 1e-6


def faults(pile: Pile, plan: CutPlan) -> list[str]:
    """Say what is wrong: every need made, no stick, bad stretch or zone overstepped, kerf left."""
    return [*_needs(pile, plan), *_sticks(pile, plan)]


def _needs(pile: Pile, plan: CutPlan) -> Iterator[str]:
    for i, need in enumerate(pile.needs):
        mine = sorted((c for c in plan.cuts if c.need == i), key=lambda c: c.start)
        starts, stops = [c.start for c in mine], [c.stop for c in mine]
        if not np.allclose(starts, [0.0, *stops[:-1]], atol=CLOSE):
            yield f"{need.name} has gaps"
        if abs(stops[-1] - need.length) > CLOSE:
            yield f"{need.name} is not made"
        good = need.fits if len(mine) == 1 or need.joins is None else need.joins
        if any(c.stick not in good for c in mine):
            yield f"{need.name} is cut from the wrong pipe"
        if len(mine) > 1 and min(c.stop - c.start for c in mine) < pile.least - CLOSE:
            yield f"{need.name} has too short a part"
        for at in starts[1:]:
            if not any(a - CLOSE <= at <= b + CLOSE for a, b in need.zones):
                yield f"{need.name} is spliced at {at}"


def _sticks(pile: Pile, plan: CutPlan) -> Iterator[str]:
    for s, stick in enumerate(pile.sticks):
        cuts = sorted((c for c in plan.cuts if c.stick == s), key=lambda c: c.at)
        for a, b in pairwise(cuts):
            if b.at - (a.at + a.stop - a.start) < pile.kerf - CLOSE and not _between(stick, a, b):
                yield f"{stick.name} has no kerf"
        for cut in cuts:
            stop = cut.at + cut.stop - cut.start
            if cut.at < -CLOSE or stop > stick.length + CLOSE:
                yield f"{stick.name} is overstepped"
            if any(cut.at < b - CLOSE and stop > a + CLOSE for a, b in stick.bad):
                yield f"{stick.name} is cut from a bad stretch"


def _between(stick: Stick, a, b) -> bool:
    """Whether a bad stretch lies between two cuts, which takes the kerf."""
    return any(
        a.at + a.stop - a.start <= low + CLOSE and high <= b.at + CLOSE for low, high in stick.bad
    )


def random_pile(seed: int, needs: int, sticks: int, new: int, most: int = 1) -> Pile:
    """Return a pile of random lengths, some with bad stretches, some pieces to be spliced."""
    draw = np.random.default_rng(seed)
    made = []
    for k in range(sticks):
        length = float(draw.uniform(1.0, 5.0))
        at = float(draw.uniform(0.1, 0.7)) * length
        bad = ((at, at + 0.2),) if draw.random() < 0.25 else ()
        cost = float(draw.integers(0, 40))
        made.append(Stick(name=f"stick {k}", length=length, cost=cost, bad=bad))
    made += [Stick(name="new", length=6.4, cost=70.0, at_hand=False) for _ in range(new)]
    some = []
    for k in range(needs):
        length = float(draw.uniform(0.6, 4.5))
        zones = ((0.25 * length, 0.4 * length), (0.7 * length, 0.75 * length))
        good = {s for s in range(sticks) if draw.random() < 0.8} | set(range(sticks, len(made)))
        some.append(
            Need(
                name=f"piece {k}",
                length=length,
                fits=frozenset(good),
                zones=zones if length > 1.5 and draw.random() < 0.7 else (),
                joins=frozenset(good - {0}) if draw.random() < 0.5 else None,
            )
        )
    return Pile(needs=tuple(some), sticks=tuple(made), kerf=0.003, least=0.3, most=most)
