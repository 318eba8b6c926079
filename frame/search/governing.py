"""The worst case of every check of every part, over tilts, corners and winds."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from frame.checks.check import Check, Numbers
from frame.named.aim import Key
from frame.parts.checker import Checker
from frame.records.results import Row
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.solved.worst import worst_case

MATTERS = 0.05
"""Smallest share of a use that an unknown must change to be named as deciding it (judgement)."""
STATE_WORDS = {
    ("soil", "soft"): "wet or loose ground",
    ("soil", "stiff"): "firm, dry ground",
    ("guys", "soft"): "guys that give and have lost their pull",
    ("guys", "stiff"): "guys that hardly give, tight in cold",
}
FLOW_WORDS = {
    "obstructed": "air blocked under the panels",
    "clear": "air passing freely under the panels",
}


@dataclass(frozen=True, slots=True)
class Seen:
    """A check of one part on one block: its use case by case, (n,), and whether all are covered.

    `check` may be left out where many were looked at; it is then worked out again for the case
    that governs.
    """

    now: Situation
    use: FloatArray
    covered: bool
    check: Check | None = None


def by_case(values: FloatArray, count: int) -> FloatArray:
    """Largest value of each case, (count,); what is not covered (nan) counts as nil."""
    if values.ndim == 1:
        worst = np.fmax(values, 0.0)
    else:
        worst = np.fmax.reduce(values.reshape(len(values), -1), axis=1, initial=0.0)
    return worst if len(worst) == count else np.broadcast_to(worst, (count,))


def pick(check: Check, case: int, count: int) -> Check:
    """Reduce a check over cases to its worst place in one case, every step a plain number."""
    use = np.atleast_1d(check.utilisation)
    shape = use.shape if len(use) == count else (count, *use.shape[1:])
    flat = np.nan_to_num(np.broadcast_to(use, shape)[case], nan=-1.0)
    worst = np.unravel_index(int(np.argmax(flat)), flat.shape) if flat.ndim else ()
    index = (case, *(int(i) for i in worst))

    def at(value: Numbers) -> float:
        array = np.asarray(value)
        return float(array if array.ndim == 0 else np.broadcast_to(array, shape)[index])

    return replace(
        check,
        demand=at(check.demand),
        allowable=at(check.allowable),
        nominal=at(check.nominal),
        covered=bool(at(np.asarray(check.covered, dtype=float))),
        steps=tuple(s._replace(value=at(s.value)) for s in check.steps),
        extra={k: at(v) for k, v in check.extra.items()},
    )


def run_checks(nows: Iterable[Situation], checkers: Iterable[Checker]) -> dict[Key, list[Seen]]:
    """Run every check on every situation."""
    seen: dict[Key, list[Seen]] = defaultdict(list)
    for now in nows:
        for checker in checkers:
            for part, check in checker(now):
                use = by_case(np.atleast_1d(check.utilisation), len(now.case))
                seen[part, check.name].append(Seen(now, use, bool(np.all(check.covered)), check))
    return seen


def governing(
    seen: Mapping[Key, Sequence[Seen]], makers: Mapping[Key, Checker] | None = None
) -> tuple[Row, ...]:
    """Return one row for each check of each part, the worst first.

    Where checks were left out of `seen`, those that make them are needed, the `makers`.
    """
    worst = {key: max(found, key=lambda s: s.use.max()) for key, found in seen.items()}
    hands = _hands(worst, makers or {})
    rows = [_row(key, found, worst[key], hands[key]) for key, found in seen.items()]
    return tuple(sorted(rows, key=lambda r: -r.utilisation))


def _hands(worst: dict[Key, Seen], makers: Mapping[Key, Checker]) -> dict[Key, Check]:
    """Each check reduced to its worst case, those left out worked out block by block."""
    hands = {}
    groups: dict[int, list[Key]] = defaultdict(list)
    for key, found in worst.items():
        if found.check is None:
            groups[id(found.now)].append(key)
        else:
            hands[key] = pick(found.check, worst_case(found.use), len(found.use))
    for keys in groups.values():
        cases = sorted({worst_case(worst[key].use) for key in keys})
        now = worst[keys[0]].now.only(np.array(cases))
        some = dict.fromkeys(makers[key] for key in keys)
        checks = {(part, c.name): c for checker in some for part, c in checker(now)}
        for key in keys:
            hands[key] = pick(checks[key], cases.index(worst_case(worst[key].use)), len(cases))
    return hands


def _row(key: Key, found: Sequence[Seen], worst: Seen, hand: Check) -> Row:
    case = worst_case(worst.use)
    return Row(
        part=key[0],
        check=key[1],
        utilisation=float(worst.use[case]),
        demand=float(hand.demand),
        allowable=float(hand.allowable),
        nominal=float(hand.nominal),
        unit=hand.unit,
        case=worst.now.table.labels[case],
        words=worst.now.table.words[case],
        combination=worst.now.table.combinations[case],
        tilt=worst.now.block.frame.ideal.tilt,
        state=worst.now.block.state,
        decided_by=_decider(found, worst, case),
        source=hand.source,
        covered=all(s.covered for s in found),
        hand=hand,
        buckles=float(worst.now.lowest[case]),
    )


def _decider(found: Sequence[Seen], worst: Seen, case: int) -> str:
    """Name the unknown whose other end would lower the worst use most."""
    state = worst.now.block.state
    tilt = worst.now.block.frame.ideal.tilt
    best = (MATTERS * float(worst.use[case]), "")
    for field in ("soil", "guys"):
        others = [
            float(s.use.max())
            for s in found
            if s.now.block.frame.ideal.tilt == tilt
            and _differs_only(s.now.block.state, state, field)
        ]
        if others:
            drop = float(worst.use[case]) - max(others)
            best = max(best, (drop, STATE_WORDS[field, getattr(state, field)]))
    winds = worst.now.table.winds
    flow = getattr(winds[case], "flow", None)
    other = [float(u) for u, w in zip(worst.use, winds, strict=False) if w and w.flow != flow]
    if flow and other:
        best = max(best, (float(worst.use[case]) - max(other), FLOW_WORDS[flow]))
    return best[1]


def _differs_only(one: object, other: object, field: str) -> bool:
    names = ("soil", "guys")
    return all((getattr(one, n) == getattr(other, n)) != (n == field) for n in names)
