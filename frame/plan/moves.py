"""The cheapest single changes that raise a bracing's gusts, each solved in full."""

from collections.abc import Sequence

from frame.plan.price import added_cost, added_steel
from frame.plan.standing import Asked, Standing, stand
from frame.plan.trials import Trial, full, trials
from frame.rack.rack import Rack
from frame.records.results import Move
from frame.search.survived import Learned
from frame.solved.blocks import Block
from frame.solved.frames import Bracing

GAIN = 1.1
"""Least rise of a gust that makes a change worth telling [1] (judgement)."""
MOST, MOST_SOLVED = 3, 8
"""Changes told, and solved in full, at most."""


def moves(
    text: str, rack: Rack, bracing: Bracing, learned: Learned, found: Sequence[Block] = ()
) -> tuple[Move, ...]:
    """Find the cheapest changes that raise the limit or the let-go gust and lower neither.

    Cheapest by the file's prices, else by steel added and work (judgement). Of everything that may
    be offered but more bracing, what gains where the rack goes first is solved in full, the
    cheapest first. None may be found where two parts go together: then change both. `found`: the
    blocks of the bracing at every tilt and corner, if at hand.
    """
    asked = Asked(name=rack.name, learned=learned, read=rack, ranged=False)
    at = stand(text, bracing, asked, found)
    tried = {
        t.do: t
        for code in (False, True)
        for t in trials(at, (), at, asked, code=code)
        if t.gain > 0 and not t.made[0].fits
    }
    kept: list[Move] = []
    for trial in sorted(tried.values(), key=lambda t: t.price)[:MOST_SOLVED]:
        after = full(trial, at, asked).after
        if after and _better(_gusts(at), _gusts(after)):
            kept.append(_move(trial, at, after))
        if len(kept) == MOST:
            break
    return tuple(kept)


def _gusts(at: Standing) -> tuple[float, float]:
    """Limit gust and let-go gust [m/s]."""
    return at.limit_gust, at.weakest.let_go_gust


def _better(before: tuple[float, float], after: tuple[float, float]) -> bool:
    """Whether one gust rises enough to matter and neither falls."""
    kept = all(b <= a * (1 + 1e-6) for b, a in zip(before, after, strict=True))
    raised = any(a > GAIN * b or (b == 0 < a) for b, a in zip(before, after, strict=True))
    return kept and raised


def _move(trial: Trial, at: Standing, after: Standing) -> Move:
    first = after.weakest.let_go
    return Move(
        words=trial.do[0],
        limit_gust=(at.limit_gust, after.limit_gust),
        let_go_gust=(at.weakest.let_go_gust, after.weakest.let_go_gust),
        next_part=first.part if first else "",
        next_words=f"{first.check}; {first.words}" if first else "",
        added_steel=added_steel(at, after.rack, after.steel),
        cost=added_cost(at, after.rack, after.cost),
        text=after.text,
    )
