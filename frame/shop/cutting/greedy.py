"""A quick plan without splices: the longest piece first, into the stretch it fills best."""

from frame.shop.cutting.pile import NEARLY, CutPlan, Pile, laid


def greedy(pile: Pile) -> CutPlan | None:
    """Return a plan without splices, None where a need finds no room."""
    bins = pile.bins()
    left = [stop - start + pile.kerf for _, (start, stop) in bins]
    opened: set[int] = set()
    parts: list[tuple[int, float, float, int]] = []
    for i in sorted(range(len(pile.needs)), key=lambda n: -pile.needs[n].length):
        need = pile.needs[i]
        takes = need.length + pile.kerf
        room = [
            b
            for b, (stick, _) in enumerate(bins)
            if stick in need.fits and left[b] >= takes - NEARLY
        ]
        if not room:
            return None
        best = min(room, key=lambda b: _rank(pile, bins[b][0], opened, left[b] - takes))
        left[best] -= takes
        opened.add(bins[best][0])
        parts.append((i, 0.0, need.length, best))
    return laid(pile, parts)


def _rank(pile: Pile, stick: int, opened: set[int], rest: float) -> tuple[object, ...]:
    """Rank a stretch: at hand before bought, opened before whole, cheap, then the tightest."""
    one = pile.sticks[stick]
    return (not one.at_hand, stick not in opened, one.cost if stick not in opened else 0.0, rest)
