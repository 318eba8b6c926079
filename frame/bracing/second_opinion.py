"""The plane solver's word on the governing case of a bracing, beside the space solver's."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from frame.errors import DisagreementError
from frame.fem.model import Model
from frame.records.results import Agreement, Row
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation

if TYPE_CHECKING:
    from frame.fem.plane.model import PlaneAnswer
    from frame.idealize.elevation import ReducedAnswer

VIEWS = ("front", "side")
WORST = 0.005
"""Largest difference between the two solvers at which a verdict is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SolverCase:
    """One case for both solvers: `model` with the guys' give of its corner.

    `factors` (loads,), `pretension` (guys,) [N], `fitted` (guys,), `gust` [m/s], `tilt` [rad].
    """

    label: str
    words: str
    gust: float
    tilt: float
    model: Model
    factors: FloatArray
    pretension: FloatArray
    fitted: npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Opinion:
    """One elevation of one case, solved by both."""

    view: str
    label: str
    words: str
    gust: float
    tilt: float
    worst: float
    plane: "PlaneAnswer"
    space: "ReducedAnswer"


def governing_case(nows: Sequence[Situation], row: Row) -> tuple[Situation, int]:
    """Find the situation and case of a row."""
    for now in nows:
        here = now.block.frame.ideal.tilt == row.tilt and now.block.state == row.state
        if here and row.case in now.table.labels:
            return now, now.table.labels.index(row.case)
    raise ValueError(f"{row.part}: its case is not among those solved")


def solver_case(now: Situation, case: int) -> SolverCase:
    """Return everything needed to solve one case of a situation apart from it.

    Loads that have no part in it are left out.
    """
    block = now.block
    stiffness, pretension = block.band
    model = block.with_band(stiffness)
    factors = now.factors[case]
    acting = np.flatnonzero(factors)
    return SolverCase(
        label=now.table.labels[now.case[case]],
        words=now.table.words[now.case[case]],
        gust=float(now.gust[case]),
        tilt=block.frame.ideal.tilt,
        model=replace(model, unit_loads=tuple(model.unit_loads[i] for i in acting)),
        factors=factors[acting],
        pretension=pretension,
        fitted=block.fitted,
    )


def opinion(asked: SolverCase, view: str) -> Opinion:
    """Solve one elevation with both solvers."""
    # Loaded here: the plane solver takes long to load, and who solves frames never needs it.
    from frame.idealize import elevation as reduced

    elev = reduced.elevation(asked.model, view)
    both = reduced.solve_twice(elev, view, asked.factors, asked.pretension, asked.fitted)
    return Opinion(
        view=view,
        label=asked.label,
        words=asked.words,
        gust=asked.gust,
        tilt=asked.tilt,
        worst=both.worst,
        plane=both.plane,
        space=both.space,
    )


def opinions(asked: SolverCase, refused: str) -> tuple[Opinion, Opinion]:
    """Solve both elevations of one case, front and side, with both solvers.

    Raises
    ------
    DisagreementError
        Where they differ by more than 0.5 %; `refused` says what is then not given.
    """
    front, side = (opinion(asked, view) for view in VIEWS)
    worst = max(front.worst, side.worst)
    if not worst <= WORST:
        raise DisagreementError(
            f"the space frame and the plane solver differ by {100 * worst:.2g} % on "
            f"{front.words}; {refused}"
        )
    return front, side


def agreement(asked: SolverCase) -> Agreement:
    """Compare both solvers on both elevations of the case that governs a bracing."""
    front, side = opinions(asked, "no verdict is given")
    return Agreement(front=front.worst, side=side.worst)
