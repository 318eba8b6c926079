"""Ranges by plain Monte Carlo: every uncertain input drawn at once, the gusts solved anew.

Nothing of the search for shifts is used: each draw is put through every case at a row of gusts,
and the lowest gust at which a use reaches 1 is read off between two of them.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq
from scipy.stats import norm, qmc

from frame.parts.checkers import CHECKERS
from frame.search.expected_going import expect
from frame.search.searched import Search
from frame.search.stack import whole
from frame.solved.situation import whole_table
from frame.tables.expected import spreads
from tests.builders import MPH

TENTH = norm.ppf(0.9)
GUSTS = np.geomspace(9, 170, 26) * MPH
SHARES = (0.1, 0.5, 0.9)


def draws(count: int, seed: int) -> dict[str, np.ndarray]:
    """Draw every input: lognormal about its median, a spread for either side; spread evenly.

    Scrambled Sobol points, so that few draws do for many.
    """
    points = qmc.Sobol(len(spreads()), seed=seed).random(count)
    found = {}
    for spread, score in zip(spreads().values(), norm.ppf(points).T, strict=True):
        below = np.log(spread.median / spread.low) / TENTH
        above = np.log(spread.high / spread.median) / TENTH
        found[spread.key] = spread.median * np.exp(score * np.where(score < 0, below, above))
    return found


def by_draws(blocks: Sequence, keys, count: int, seed: int = 7) -> dict:
    """Return low, middle and high gust [m/s] of the checks `keys` by draws; inf over the last."""
    drawn = draws(count, seed)
    curve = {key: np.zeros((count, len(GUSTS))) for key in keys}
    work = Search(blocks, [whole_table(b) for b in blocks], CHECKERS, inputs=drawn)
    owners = {key: used.owner for key, used in _at_once(work, 0, GUSTS[:1]).items()}
    some = sorted({owners[key] for key in keys})
    work = replace(work, checkers=[CHECKERS[i] for i in some])
    for n in range(count):
        for key, used in _at_once(work, n, GUSTS).items():
            if key in curve:
                curve[key][n] = used.use.reshape(len(GUSTS), -1).max(axis=1)
    return {key: np.quantile(_first(c), SHARES) for key, c in curve.items()}


def _at_once(work, draw, gusts):
    """Every case of every block at every gust, gust by gust, with the inputs of one draw."""
    counts = [len(t.labels) for t in work.tables]
    block = np.tile(np.repeat(np.arange(len(counts)), counts), len(gusts))
    case = np.tile(np.concatenate([np.arange(n) for n in counts]), len(gusts))
    gust = np.repeat(gusts, sum(counts))
    each = np.full(len(case), draw)
    return work.used(whole(work.blocks, work.tables, block, case, gust, each, work.inputs))


def _first(use: np.ndarray) -> np.ndarray:
    """Gust at which each row of uses (n, gusts) first reaches 1, a smooth curve in logarithms.

    Beyond the last gust as if it were twice that, which no quantile looked at comes near.
    """
    grown, at = np.log(np.clip(use, 1e-3, 1e3)), np.log(GUSTS)
    found = np.full(len(use), 2 * GUSTS[-1])
    for i in np.flatnonzero((use >= 1).any(axis=1)):
        k = int(np.argmax(use[i] >= 1))
        if k == 0:
            found[i] = GUSTS[0]
            continue
        curve = PchipInterpolator(at, grown[i])
        found[i] = np.exp(brentq(curve, at[k - 1], at[k]))
    return found


def compared(blocks, count: int, below: float = 120 * MPH, seed: int = 7) -> dict:
    """Compare each check expected to go below a gust: its own (low, middle, high), by draws."""
    going = next(iter(expect(blocks).values()))
    keys = [key for key, one in going.items() if 0 < one.gust < below]
    found = by_draws(blocks, keys, count, seed)
    return {
        key: (np.array([going[key].low, going[key].gust, going[key].high]), found[key])
        for key in keys
    }
