"""A case file solved at one tilt in one corner of the bands, for the checks of parts."""

from collections.abc import Iterable
from functools import cache
from pathlib import Path

import numpy as np

from frame.casefile.read import parse_rack
from frame.checks.check import Check
from frame.loads.combinations import ASD
from frame.parts.checker import Checker
from frame.rack.rack import Rack
from frame.solved.blocks import blocks, median_blocks
from frame.solved.frames import solve_frames
from frame.solved.situation import Situation, at_gusts, situation, whole_table
from frame.tables.expected import variants
from tests.step_check import assert_steps
from tests.unit.parts.racks import first_order

CASES = Path(__file__).parents[2] / "racks"
FACE_B = "D + 0.6W, front, B"
GUST_LEFT = "D + 0.6W, front, B, gust left"
INCH, POUND = 0.0254, 4.4482216152605  # NIST SP 811, appendix B
IN_LB = INCH * POUND
ONE_POST_30 = (("tilts", 'tilts = ["30 deg"]'),)


@cache
def solved(
    name: str, bracing: tuple[str, ...] = (), changes: tuple[tuple[str, str], ...] = ()
) -> Situation:
    """Solve a case at its map gust; each change puts a line in place of the one that starts so.

    At first order, for statics by hand.
    A change for a key that the file does not hold reads "[section] key" and adds the line.
    """
    rack = changed(name, changes)
    tilts = rack.tilts[:1]
    block = blocks(solve_frames(rack, [bracing], tilts), bracing, tilts)[0]
    return first_order(situation(block, block.frame.cases(ASD), [rack.site.map_gust]))


@cache
def expected(
    name: str, bracing: tuple[str, ...] = (), changes: tuple[tuple[str, str], ...] = ()
) -> Situation:
    """Every whole wind at the map gust in the median model, in each variant of the inputs."""
    rack = changed(name, changes)
    tilts = rack.tilts[:1]
    block = median_blocks(solve_frames(rack, [bracing], tilts), bracing, tilts)[0]
    table = whole_table(block)
    winds, count = len(table.labels), len(variants())
    case, variant = np.tile(np.arange(winds), count), np.repeat(np.arange(count), winds)
    gust = np.full(winds * count, rack.site.map_gust)
    return at_gusts(block, table, case, gust, variant)


def changed(name: str, changes: tuple[tuple[str, str], ...]) -> Rack:
    """Read a case with a line in place of each that starts so, see `solved`."""
    lines = (CASES / f"{name}.toml").read_text(encoding="utf-8").splitlines()
    for start, line in changes:
        section = start.partition("]")[0] + "]"
        if start.startswith("[") and section in lines:
            lines.insert(lines.index(section) + 1, line)
        elif start.startswith("["):
            lines += [section, line]
        else:
            lines = [line if old.startswith(start) else old for old in lines]
    return parse_rack("\n".join(lines), f"{name}.toml")


def found(checker, now: Situation) -> dict[tuple[str, str], Check]:
    """Every check by part and name."""
    return {(part, check.name): check for part, check in checker(now)}


def value(now: Situation, check: Check, symbol: str, label: str = FACE_B) -> np.ndarray:
    """Value of a step in one case, at every place of the part."""
    step = next(s for s in check.steps if s.symbol == symbol)
    return np.atleast_1d(np.asarray(step.value)[now.table.labels.index(label)])


def worst(check: Check) -> float:
    """Largest use over all cases and places."""
    return float(np.nanmax(check.utilisation))


def assert_one_strength(now: Situation, checkers: Iterable[Checker]) -> None:
    """What is expected is allowable and nominal at once, and its steps give it, case by case."""
    for checker in checkers:
        for part, check in checker(now):
            shape = np.shape(check.utilisation)
            assert shape[0] == len(now.case), part
            assert np.array_equal(check.utilisation, check.let_go, equal_nan=True), part
            last = tuple(n - 1 for n in shape[1:])
            for case in (3, len(now.case) // 2, len(now.case) - 2):
                if np.broadcast_to(check.covered, shape)[(case, *last)]:
                    assert_steps(check, (case, *last))
