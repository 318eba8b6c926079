"""Ranges by plain Monte Carlo: every uncertain input drawn at once, the gusts solved anew.

Nothing of the search for shifts is used: each draw is put through every case at a row of gusts,
and the lowest gust at which a use reaches 1 is read off between two of them.
"""

from collections.abc import Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from unittest import mock

import numpy as np
from scipy.stats import norm, qmc

from frame.loads.cases import WHOLE_WIND, case_table
from frame.loads.uneven import Unevenness
from frame.study.checkers import CHECKERS
from frame.study.expected import expect
from frame.study.search import Search
from frame.study.stack import whole
from frame.study.winds import winds
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


@dataclass
class Drawn:
    """In place of a frame's expected winds: each draw by how unevenly its gusts strike.

    Loads are linear in either unevenness, the other held: four tables give all.
    """

    frame: object
    drawn: dict[str, np.ndarray]

    def __post_init__(self):
        self.table = self._table(0.12, 0.7)
        at = {(i, j): self._table(i, j).per_pressure for i in (0.0, 1.0) for j in (0.0, 1.0)}
        none = at[0, 0]
        self.parts = none, at[1, 0] - none, at[0, 1] - none, at[1, 1] - at[1, 0] - at[0, 1] + none
        near = self._mixed(slice(None), np.array(0.17), np.array(0.61))
        np.testing.assert_allclose(near, self._table(0.17, 0.61).per_pressure, atol=1e-9)

    def _table(self, one_sided, across):
        frame = self.frame
        names = [load.name for load in frame.ideal.model.unit_loads]
        most = frame.pressure(frame.rack.site.map_gust)
        uneven = Unevenness(one_sided=one_sided, across=across)
        some = winds(frame.rack, frame.ideal.tilt, most, uneven, expected=True)
        return case_table(WHOLE_WIND[:1], some, names)

    def _mixed(self, case, a, b):
        none, one, other, both = (part[case] for part in self.parts)
        return none + a[..., None] * one + b[..., None] * other + (a * b)[..., None] * both

    def per_pressure(self, case, variant):
        return self._mixed(case, self.drawn["one_sided"][variant], self.drawn["across"][variant])


@contextmanager
def drawing(blocks, drawn):
    """Let the median model take its inputs from draws: each variant is one."""
    value = drawn.__getitem__
    with (
        mock.patch("frame.study.situation.values", value),
        mock.patch("frame.loads.expected.values", value),
    ):
        kept = [dict(b.frame.__dict__) for b in blocks]
        for block in blocks:
            block.frame.__dict__["expected"] = Drawn(block.frame, drawn)
        yield
        for block, before in zip(blocks, kept, strict=True):
            block.frame.__dict__.pop("expected")
            block.frame.__dict__.update(before)


def by_draws(blocks: Sequence, keys, count: int, seed: int = 7) -> dict:
    """Return low, middle and high gust [m/s] of the checks `keys` by draws; inf over the last."""
    drawn = draws(count, seed)
    curve = {key: np.zeros((count, len(GUSTS))) for key in keys}
    with drawing(blocks, drawn):
        work = Search.of(blocks, CHECKERS)
        owners = {key: used.owner for key, used in _at_once(work, 0, GUSTS[:1]).items()}
        some = sorted({owners[key] for key in keys})
        work = Search(work.blocks, work.tables, [CHECKERS[i] for i in some])
        for n in range(count):
            for key, used in _at_once(work, n, GUSTS).items():
                if key in curve:
                    curve[key][n] = used.use.reshape(len(GUSTS), -1).max(axis=1)
    return {key: np.quantile(_first(c), SHARES, method="lower") for key, c in curve.items()}


def _at_once(work, draw, gusts):
    """Every case of every block at every gust, gust by gust, with the inputs of one draw."""
    counts = [len(t.labels) for t in work.tables]
    block = np.tile(np.repeat(np.arange(len(counts)), counts), len(gusts))
    case = np.tile(np.concatenate([np.arange(n) for n in counts]), len(gusts))
    gust = np.repeat(gusts, sum(counts))
    return work.used(whole(work.blocks, work.tables, block, case, gust, np.full(len(case), draw)))


def _first(use: np.ndarray) -> np.ndarray:
    """Gust at which each row of uses (n, gusts) first reaches 1, straight between logarithms."""
    grown, at = np.log(np.clip(use, 1e-9, 1e9)), np.log(GUSTS)
    over = use >= 1
    k = over.argmax(axis=1)
    i, before = np.arange(len(use)), np.maximum(k - 1, 0)
    rise = np.where(k > 0, grown[i, k] - grown[i, before], 1.0)
    part = np.where(k > 0, -grown[i, before] / rise, 0.0)
    gust = np.exp(at[before] + part * (at[k] - at[before]))
    return np.where(over.any(axis=1), gust, np.inf)


def compared(blocks, count: int, below: float = 120 * MPH, seed: int = 7) -> dict:
    """Compare each check expected to go below a gust: its own (low, middle, high), by draws."""
    going = next(iter(expect(blocks, CHECKERS).values()))
    keys = [key for key, one in going.items() if 0 < one.gust < below]
    found = by_draws(blocks, keys, count, seed)
    return {
        key: (np.array([going[key].low, going[key].gust, going[key].high]), found[key])
        for key in keys
    }
