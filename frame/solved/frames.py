"""Frames solved once for everything that is asked of them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from frame.fem.cases import Answer, solve
from frame.fem.model import Model
from frame.fem.response import Response, respond
from frame.fem.second_order.ritz import Ritz
from frame.fem.second_order.shapes import Statics
from frame.idealize.actions import wind_height
from frame.idealize.bands import guy_band, guy_directions, guy_groups, guy_lengths
from frame.idealize.build import Idealized, build, on_other_ground
from frame.idealize.deck import Slope
from frame.idealize.state import HIGH, LOW, MIDDLE, SOFT, STIFF, State
from frame.idealize.surcharge import least_pressure, speed_up, surcharges
from frame.loads.cases import ActionCase, CaseTable, WindCase, case_table
from frame.loads.combinations import (
    ASD_ICE,
    ASD_SNOW,
    ASD_WINDY,
    ASD_WORKER,
    LEANING,
    WHOLE_WIND,
    Combination,
)
from frame.loads.expected import ExpectedTable, expected_table
from frame.loads.ice import ASD_ICE_AND_WIND, iced
from frame.loads.uneven import CODED, Unevenness
from frame.loads.wind import velocity_pressure
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.solved.alpha import CODE_ALPHA, MEDIAN_ALPHA
from frame.solved.winds import leaning, winds

FloatArray = npt.NDArray[np.float64]
Bracing = tuple[str, ...]
SOILS = (SOFT, STIFF)
TYPICAL = ((WHOLE_WIND[0], 0.6, 3), (WHOLE_WIND[1], 3.0, 1))
"""Combination, share of the map gust's pressure, every which wind: where shapes are looked for."""


@dataclass(frozen=True, kw_only=True)
class Frame:
    """One geometry and ground, factorised: every guy described is in, fitted or not."""

    ideal: Idealized
    response: Response

    @property
    def rack(self) -> Rack:
        """The rack it came from."""
        return self.ideal.rack

    @cached_property
    def blows(self) -> tuple[WindCase, ...]:
        """Every wind on it, see `winds`."""
        return self._winds()

    @cached_property
    def expected(self) -> ExpectedTable:
        """Every wind with the real weight, at the medians and ends of how unevenly it strikes."""
        names = [load.name for load in self.ideal.model.unit_loads]
        return expected_table(lambda uneven: self._winds(uneven, expected=True), names)

    def _winds(
        self, uneven: Unevenness = CODED, *, expected: bool = False
    ) -> tuple[WindCase, ...]:
        most = self.pressure(self.rack.site.map_gust)
        return winds(self.rack, self.ideal.tilt, most, uneven, expected=expected)

    @cached_property
    def statics(self) -> Statics:
        """Where the shapes it buckles in are looked for."""
        return Statics.of(self.response)

    @cached_property
    def shapes(self) -> dict[tuple[str, ...], Ritz]:
        """Shapes it buckles in with each bracing, as far as found so far."""
        return {}

    @cached_property
    def typical(self) -> FloatArray:
        """Cases that span all others for that: what no gust changes, winds weak to strong."""
        some = [self.fixed_cases().steady]
        for combination, share, step in TYPICAL:
            table = self.cases((combination,))
            some.append(table.at(share * self.pressure(self.rack.site.map_gust))[::step])
        return np.vstack(some)

    @cached_property
    def out(self) -> FloatArray:
        """Direction square to the panels, away from the ground, global axes, (3,)."""
        return Slope(self.ideal.tilt).out

    @cached_property
    def guy_directions(self) -> FloatArray:
        """Way of every guy from its attachment to its anchor, global axes, (guys, 3)."""
        return guy_directions(self.ideal)

    @cached_property
    def _unit_pressure(self) -> float:
        site, slope = self.rack.site, Slope(self.ideal.tilt)
        height, hill = wind_height(self.rack, slope), speed_up(self.rack, slope)
        return float(velocity_pressure(1.0, height, site.exposure, site.elevation, hill))

    @cached_property
    def _actions(self) -> tuple[ActionCase, ...]:
        return (*leaning(self.response), *surcharges(self.rack, Slope(self.ideal.tilt)))

    @cached_property
    def _tables(self) -> dict[tuple[str, tuple[Combination, ...]], CaseTable]:
        """Tables of cases made so far, by kind of wind and combinations."""
        return {}

    def pressure(self, gust: float) -> float:
        """Velocity pressure qh [Pa] at the panels for a `gust` [m/s]."""
        return self._unit_pressure * gust**2

    def cases(self, combinations: tuple[Combination, ...]) -> CaseTable:
        """Every wind of this tilt in the given combinations, over this frame's unit loads."""
        return self._table("wind", combinations, self.blows)

    def fixed_cases(self) -> CaseTable:
        """Every case that no gust changes: no wind, and the least pressure of the standard.

        Leaning, snow, ice, a worker, and 16 psf level on what the wind sees in the code's
        combinations (ASCE/SEI 7-22 27.1.5).
        """
        still = (c for c in (LEANING, *ASD_SNOW, *ASD_WORKER, *ASD_ICE) if not c.wind)
        return self._table("least", (*still, *ASD_WINDY), least_pressure())

    def icy_cases(self) -> CaseTable:
        """Every wind on the iced rack in the combinations of ASCE/SEI 7-22 2.4.3."""
        return self._table("iced", ASD_ICE_AND_WIND, iced(self.blows))

    def _table(
        self, kind: str, combinations: tuple[Combination, ...], blows: tuple[WindCase, ...]
    ) -> CaseTable:
        key = kind, combinations
        if key not in self._tables:
            names = [load.name for load in self.ideal.model.unit_loads]
            self._tables[key] = case_table(combinations, blows, names, self._actions)
        return self._tables[key]


@dataclass(frozen=True, kw_only=True)
class Block:
    """A frame with some of its guys fitted, at one corner of the bands.

    `median`: median loads meet median strengths on it, not the code's.
    """

    frame: Frame
    bracing: tuple[str, ...]
    state: State
    median: bool = False

    @property
    def rack(self) -> Rack:
        """The rack whose strength counts."""
        return self.frame.rack

    @cached_property
    def fitted(self) -> npt.NDArray[np.bool_]:
        """Which guys of the model are fitted, (guys,)."""
        return np.array([g in self.bracing for g in guy_groups(self.frame.ideal)], dtype=bool)

    @cached_property
    def band(self) -> tuple[FloatArray, FloatArray]:
        """Effective EA [N] and pretension [N] of every guy at this corner, (guys,) each."""
        return guy_band(self.frame.ideal, self.state)

    @cached_property
    def response(self) -> Response:
        """The frame's unit answers with the guys' give of this corner."""
        response = self.frame.response
        return replace(response, slackness=guy_lengths(self.frame.ideal) / self.band[0])

    @cached_property
    def shapes(self) -> Ritz:
        """Shapes it buckles in, one set for all corners of its guys' band."""
        known = self.frame.shapes
        if self.bracing not in known:
            ends = [s for s in corners(self.bracing) if s.soil == self.state.soil]
            ends = ends or [self.state]
            some = [replace(self, state=s).answer(self.frame.typical) for s in ends]
            known[self.bracing] = self.frame.statics.ritz(*some)
        return known[self.bracing]

    @cached_property
    def growth(self) -> dict[tuple[str, float], Answer]:
        """Second-order answers to every case of some states, as far as worked out so far."""
        return {}

    @property
    def alpha(self) -> float:
        """How many times the forces count against the stiffness in second order."""
        return MEDIAN_ALPHA if self.median else CODE_ALPHA

    def with_band(self, stiffness: FloatArray) -> Model:
        """Return the frame's model with the guys' effective `stiffness` EA [N] (guys,)."""
        model = self.frame.ideal.model
        guys = (replace(g, EA=float(k)) for g, k in zip(model.guys, stiffness, strict=True))
        return replace(model, guys=tuple(guys))

    def answer(self, factors: FloatArray) -> Answer:
        """Solve cases given as `factors` (cases, unit loads)."""
        return solve(self.response, factors, self.band[1], fitted=self.fitted)

    def grown(self, first: Answer, alpha: float | None = None) -> Answer:
        """Second order of cases solved at `first` order, at the model's alpha unless given."""
        return self.shapes.grown(first, self.alpha if alpha is None else alpha)


def stiff_part(bracing: tuple[str, ...]) -> tuple[str, ...]:
    """Bracing that changes the stiffness of the frame: everything but guys."""
    return tuple(b for b in bracing if b in (KNEES, TIES, STAYS))


def solve_frames(
    rack: Rack, bracings: Iterable[tuple[str, ...]], tilts: Iterable[float]
) -> dict[tuple[tuple[str, ...], float, str], Frame]:
    """Factorise every frame that the bracings need, keyed by (stiff bracing, tilt, soil)."""
    frames = {}
    guys = tuple(g.name for g in rack.guys)
    for stiff in dict.fromkeys(stiff_part(b) for b in bracings):
        for tilt in tilts:
            soft = build(rack, tilt, (*stiff, *guys), State(soil=SOFT))
            for ideal in (soft, *(on_other_ground(soft, other) for other in (STIFF, MIDDLE))):
                key = stiff, tilt, ideal.state.soil
                frames[key] = Frame(ideal=ideal, response=respond(ideal.model))
    return frames


def corners(bracing: tuple[str, ...]) -> tuple[State, ...]:
    """Corners of the bands that matter: soil, and where there are guys, their give and pull.

    Guys are either giving and slack, which leaves most to the rack, or stiff and tight, which
    pulls most; the mixed corners lie between.
    """
    guyed = len(stiff_part(bracing)) < len(bracing)
    ends = [(SOFT, LOW), (STIFF, HIGH)] if guyed else [(MIDDLE, MIDDLE)]
    return tuple(State(soil=s, guys=g, pretension=p) for s in SOILS for g, p in ends)


def median_blocks(
    frames: dict[tuple[tuple[str, ...], float, str], Frame],
    bracing: tuple[str, ...],
    tilts: Iterable[float],
) -> tuple[Block, ...]:
    """Every tilt of one bracing at the middle of every band, for what is expected."""
    return tuple(
        Block(
            frame=frames[stiff_part(bracing), tilt, MIDDLE],
            bracing=bracing,
            state=State(),
            median=True,
        )
        for tilt in tilts
    )


def blocks(
    frames: dict[tuple[tuple[str, ...], float, str], Frame],
    bracing: tuple[str, ...],
    tilts: Iterable[float],
) -> tuple[Block, ...]:
    """Every tilt and corner of one bracing."""
    return tuple(
        Block(frame=frames[stiff_part(bracing), tilt, state.soil], bracing=bracing, state=state)
        for tilt in tilts
        for state in corners(bracing)
    )


def both_models(
    frames: dict[tuple[tuple[str, ...], float, str], Frame],
    bracing: tuple[str, ...],
    tilts: Iterable[float],
) -> tuple[Block, ...]:
    """Every tilt of one bracing: every corner for the code, the middle for what is expected."""
    tilts = tuple(tilts)
    return (*blocks(frames, bracing, tilts), *median_blocks(frames, bracing, tilts))


def split(found: Sequence[Block]) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """Return the blocks of the code's model, and those of the median model."""
    return tuple(b for b in found if not b.median), tuple(b for b in found if b.median)


def solved_blocks(
    rack: Rack, bracing: tuple[str, ...], tilts: Iterable[float] = ()
) -> tuple[Block, ...]:
    """Every tilt and corner of one bracing, solved afresh; all the rack's `tilts` unless given."""
    tilts = tuple(tilts) or rack.tilts
    return blocks(solve_frames(rack, [bracing], tilts), bracing, tilts)


def solved_models(
    rack: Rack, bracing: tuple[str, ...], tilts: Iterable[float] = ()
) -> tuple[Block, ...]:
    """As `solved_blocks`, with those of the median model."""
    tilts = tuple(tilts) or rack.tilts
    return both_models(solve_frames(rack, [bracing], tilts), bracing, tilts)
