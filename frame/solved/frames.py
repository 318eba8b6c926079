"""Frames solved once for everything that is asked of them."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from frame.fem.cases import Answer
from frame.fem.response import Response, respond
from frame.fem.second_order.like_frames import ritz_like
from frame.fem.second_order.ritz import Chosen, Ritz
from frame.fem.second_order.shapes import Statics
from frame.idealize.actions import wind_height
from frame.idealize.bands import guy_directions
from frame.idealize.build import Idealized, build, on_other_ground
from frame.idealize.deck import Slope
from frame.idealize.state import MIDDLE, SOFT, STIFF, State
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
from frame.loads.expected_winds import ExpectedTable, expected_table
from frame.loads.given import WindShare
from frame.loads.ice import ASD_ICE_AND_WIND, iced
from frame.loads.uneven import CODED, Unevenness
from frame.loads.wind import velocity_pressure
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.solved.swaying import Swaying
from frame.solved.winds import counted_share, leaning, winds

FloatArray = npt.NDArray[np.float64]
Bracing = tuple[str, ...]
SOILS = (SOFT, STIFF)
TYPICAL = ((WHOLE_WIND[0], 0.6, 3), (WHOLE_WIND[1], 3.0, 1))
"""Combination, share of the map gust's pressure, every which wind: where shapes are looked for."""


@dataclass(frozen=True, kw_only=True)
class Frame:
    """One geometry and ground, factorised: every guy described is in, fitted or not.

    `like`: a frame of as many nodes whose shapes to buckle in do for this one, see `ritz_like`.
    """

    ideal: Idealized
    response: Response
    like: "Frame | None" = None

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
        at_map = self.pressure(self.rack.site.map_gust)
        return winds(self.rack, self.ideal.tilt, at_map, uneven, expected=expected)

    @cached_property
    def wind_share(self) -> WindShare:
        """Share of the standard's winds that counts on it."""
        at_map = self.pressure(self.rack.site.map_gust)
        return counted_share(self.rack, self.ideal.tilt, at_map)

    @cached_property
    def free_sway(self) -> Swaying:
        """How it sways by itself."""
        return Swaying(ideal=self.ideal, response=self.response)

    @cached_property
    def statics(self) -> Statics:
        """Where the shapes it buckles in are looked for."""
        return Statics.of(self.response)

    @cached_property
    def _shapes(self) -> dict[tuple[str, ...], Ritz]:
        """Shapes it buckles in with each bracing, as far as asked for so far."""
        return {}

    def shapes_with(self, bracing: tuple[str, ...], cases: Callable[[], list[Answer]]) -> Ritz:
        """Return the shapes it buckles in with a bracing, looked for in `cases` only once."""
        if bracing not in self._shapes:
            known = self.like.shapes_chosen(bracing) if self.like else None
            own = ritz_like(self.response, known) if known else self.statics.ritz(*cases())
            self._shapes[bracing] = own
        return self._shapes[bracing]

    def shapes_chosen(self, bracing: tuple[str, ...]) -> Chosen | None:
        """Return the shapes it buckles in with a bracing; None where none were looked for."""
        return self._shapes[bracing].chosen if bracing in self._shapes else None

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

    @property
    def site_loads(self) -> bool:
        """Whether its site loads it with more than wind: with snow, ice or what else falls."""
        return any(action.kind.of_site for action in self._actions)

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
