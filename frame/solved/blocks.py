"""Blocks: one bracing at one tilt at one corner of the bands, by either model."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, fields, replace
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from frame.fem.cases import Answer, solve
from frame.fem.model import Model
from frame.fem.response import Response
from frame.fem.second_order.ritz import Ritz
from frame.idealize.bands import guy_band, guy_groups, guy_lengths
from frame.idealize.state import HIGH, LOW, MIDDLE, SOFT, STIFF, State
from frame.loads.combinations import WHOLE_WIND
from frame.loads.wind import GUST_EFFECT
from frame.rack.guy import RAIL_CORNERS
from frame.rack.rack import Rack
from frame.solved.alpha import CODE_ALPHA, MEDIAN_ALPHA
from frame.solved.frames import SOILS, FloatArray, Frame, solve_frames, stiff_part


@dataclass(frozen=True, kw_only=True)
class Block:
    """A frame with some of its guys fitted, at one corner of the bands.

    `median`: median loads meet median strengths on it, not the code's. `corners_slack`: guys at
    rail corners do not pull in still air, see `relieved`.
    """

    frame: Frame
    bracing: tuple[str, ...]
    state: State
    median: bool = False
    corners_slack: bool = False

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
        stiffness, pull = guy_band(self.frame.ideal, self.state)
        return stiffness, np.where(self._at_corners, 0.0, pull) if self.corners_slack else pull

    @cached_property
    def _at_corners(self) -> npt.NDArray[np.bool_]:
        """Which guys of the model are fitted and pull on rail corners, (guys,)."""
        corner = {guys.name for guys in self.frame.ideal.rack.guys if guys.attach == RAIL_CORNERS}
        places = np.array([g in corner for g in guy_groups(self.frame.ideal)], dtype=bool)
        there: npt.NDArray[np.bool_] = self.fitted & places
        return there

    @cached_property
    def relieved(self) -> "Block":
        """The block with guys at rail corners as if they were left just slack; itself without.

        For what slips or yields a little and so lets go of their pull in still air: where a rail
        turns on the beam by a thousandth, its end goes a millimetre or two, and that much slack
        leaves a short wire and its anchor no pull. What pulls within a rack, against other parts
        of it, takes nothing off the load that brings it down where it can so be let go of (static
        theorem of plasticity, any text). Pull that the wind brings they have as ever.
        """
        if not self._at_corners.any():
            return self
        own = {f.name: getattr(self, f.name) for f in fields(self)}
        like: dict[str, Any] = {k: b.relieved for k, b in own.items() if isinstance(b, Block)}
        return replace(self, corners_slack=True, **like)

    @cached_property
    def response(self) -> Response:
        """The frame's unit answers with the guys' give of this corner."""
        response = self.frame.response
        return replace(response, slackness=guy_lengths(self.frame.ideal) / self.band[0])

    @cached_property
    def shapes(self) -> Ritz:
        """Shapes it buckles in, one set for all corners of its guys' band."""
        return self.frame.shapes_with(self.bracing, self._ends)

    def _ends(self) -> list[Answer]:
        """Return the frame's typical cases at every corner of the guys' band."""
        ends = [s for s in corners(self.bracing) if s.soil == self.state.soil]
        return [replace(self, state=s).answer(self.frame.typical) for s in ends or [self.state]]

    @cached_property
    def _sweeps(self) -> dict[tuple[str, float], Answer]:
        """Second-order answers to every case of some states, as far as asked for so far."""
        return {}

    def swept(self, state: tuple[str, float], first: Callable[[], Answer]) -> Answer:
        """Second order of every case of a `state` solved at `first` order, worked out once."""
        if state not in self._sweeps:
            self._sweeps[state] = self.grown(first())
        return self._sweeps[state]

    @cached_property
    def gust_effect(self) -> float:
        """Gust effect factor G [1] of the code's wind on the whole frame, see `Swaying`.

        The largest of those with the guys that some wind of the map gust leaves taut. A pressure
        given in the file has its own. The median model keeps the 0.85: its wind is a share of what
        that makes, for racks as they are, and the range of that share is wider than what a slow
        rack adds (`wind` in `frame/tables/data/expected.csv`).
        """
        sways = self.frame.free_sway
        if self.median or self.frame.rack.site.pressure > 0 or sways.quick:
            return GUST_EFFECT
        return max(sways.gust_effect(held) for held in self._held())

    def _held(self) -> FloatArray:
        """Stiffness [N/m] of the guys that winds of the map gust leave taut, (sets, guys)."""
        frame = self.frame
        if not self.fitted.any():
            return np.zeros((1, len(self.fitted)))
        gust = frame.pressure(frame.rack.site.map_gust)
        taut = self.answer(frame.cases(WHOLE_WIND[:1]).at(gust)).tensions > 0.0
        return np.where(np.unique(taut, axis=0), 1.0 / self.response.slackness, 0.0)

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
