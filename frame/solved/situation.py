"""Cases solved on one block: what every check of a part is given."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from frame.checks.check import Numbers
from frame.fem.cases import Answer, Totals
from frame.fem.forces import Sections
from frame.loads.cases import CaseTable
from frame.loads.combinations import ASD_WINDY, SNOW_AND_WIND, WHOLE_WIND
from frame.loads.expected_winds import CASE_B, ONE_SIDED
from frame.loads.wind import GUST_EFFECT
from frame.named.part import Part
from frame.rack.pipe import ERW_DESIGN_WALL, SOUND_WALL, Pipe
from frame.rack.rack import Rack
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray
from frame.tables.expected import MEDIANS, Inputs, one_at_a_time
from frame.tables.steels import Steel

CODE_SHARE = 0.6
"""Share of the wind in the code's combinations, ASCE/SEI 7-22 2.4.1."""
WIND = "wind"
SECTION_SIGNS = np.array([[-1.0], [1.0]])
"""A section's forces are against those on a member's first end, as those on its second."""


@dataclass(frozen=True, kw_only=True)
class Situation:
    """Cases of one block at given gusts.

    `case` (n,) positions in `table`; `gust` (n,) [m/s]; `pressure` (n,) velocity pressure [Pa];
    `variant` (n,) in which variant of the uncertain `inputs` they are, in the median model: by
    default each is one of them at an end of its range.
    `read`: keys of the uncertain inputs that were asked for, so that no other need be varied.
    """

    block: Block
    table: CaseTable
    case: np.ndarray
    gust: FloatArray
    pressure: FloatArray
    variant: np.ndarray
    inputs: Inputs = field(default_factory=one_at_a_time, compare=False)
    read: set[str] = field(default_factory=set, compare=False)

    @property
    def median(self) -> bool:
        """Whether median loads meet median strengths; else the code's loads its strengths."""
        return self.block.median

    def expected(self, key: str, ndim: int = 1) -> FloatArray:
        """Value of an uncertain input in every case, (n, 1, ...) of `ndim` dimensions.

        Only in the median model. Keys are those of `frame.tables.expected`.
        """
        assert self.median, "the code's model knows no medians"
        self.read.add(key)
        found: FloatArray = self.inputs[key][self.variant].reshape(-1, *(1,) * (ndim - 1))
        return found

    def yield_of(self, steel: Steel, ndim: int = 1) -> FloatArray:
        """Yield stress expected of a steel [Pa], as `expected`."""
        key = "yield_papers" if steel.identified else "yield_unmarked"
        return steel.expected_fy * self.expected(key, ndim)

    def wall_of(self, pipe: Pipe, ndim: int = 1) -> FloatArray:
        """Wall expected of a pipe, less rust [m], as `expected`.

        A measured or weighed wall is as found; of one pitted to the eye as much less is counted
        as the code's model takes off beyond what it does for sound salvage; a fitted one is taken.
        """
        if pipe.fitted:
            fitted: FloatArray = np.full_like(self.inputs["wall"][self.variant], pipe.fitted)
            return (fitted - pipe.rust).reshape(-1, *(1,) * (ndim - 1))
        pitted = min(pipe.wall_factor / SOUND_WALL, 1.0)
        known = pipe.basis != "listed" and pipe.wall_factor == ERW_DESIGN_WALL
        share = np.ones_like(self.expected("wall", ndim)) if known else self.expected("wall", ndim)
        wall: FloatArray = pipe.wall * pitted * share - pipe.rust
        return wall

    @property
    def rack(self) -> Rack:
        """The rack."""
        return self.block.rack

    def only(self, rows: np.ndarray) -> "Situation":
        """Return some of the cases, by position."""
        return replace(
            self,
            case=self.case[rows],
            gust=self.gust[rows],
            pressure=self.pressure[rows],
            variant=self.variant[rows],
        )

    @cached_property
    def relieved(self) -> "Situation":
        """The same cases on the block relieved of what corner guys pull in still air."""
        block = self.block.relieved
        return self if block is self.block else replace(self, block=block)

    @property
    def per_pressure(self) -> FloatArray:
        """Factors of unit loads per velocity pressure, (n, loads).

        In the code's model with the gust effect factor of each case's block, whatever the gust.
        """
        if self.median:
            uneven = (self.inputs[key][self.variant] for key in (ONE_SIDED, CASE_B))
            return self.block.frame.expected.per_pressure(self.case, *uneven)
        slow = self.each(lambda block: block.gust_effect / GUST_EFFECT)
        coded: FloatArray = self.table.per_pressure[self.case] * slow[:, None]
        return coded

    @property
    def factors(self) -> FloatArray:
        """Factors of unit loads, (n, loads)."""
        found: FloatArray = self.table.steady[self.case]
        return found + self.pressure[:, None] * self.per_pressure

    @cached_property
    def solved(self) -> Answer:
        """Every case solved on the block."""
        return self.block.answer(self.factors)

    @cached_property
    def grown(self) -> Answer:
        """Every case of second order: how far the block's shapes grow in it, by `Ritz.grown`.

        Its `member_forces` are those of first order and of the shapes by their amplitudes.
        """
        return self.block.grown(self.solved)

    @property
    def answer(self) -> Totals:
        """Forces of every case, of second order."""
        return self.grown

    @property
    def lowest(self) -> FloatArray:
        """Lowest factor on the forces of every case at which the rack buckles, (n,)."""
        return self.grown.lowest

    @property
    def topples(self) -> np.ndarray:
        """Whether the rack sways over in a case, (n,): no force of it means anything there."""
        return self.grown.sways_over

    def each(self, value: Callable[[Block], Numbers]) -> FloatArray:
        """Return a value (...) of the block that each case belongs to, (n, ...)."""
        one = np.asarray(value(self.block), dtype=float)
        return np.broadcast_to(one, (len(self.case), *one.shape))

    def ends(self, members: Sequence[int]) -> Sections:
        """Section forces at both ends of some members, (n, members, 2).

        Between them a uniform load adds at most w l^2 / 8 to the moment: little where members are
        as short as those between the nodes of a rack; `inside` has it.
        """
        at = list(members)
        on_ends = self.answer.on_members(at).reshape(len(self.case), len(at), 2, 6)
        forces = on_ends * SECTION_SIGNS
        N, Vy, Vz, T, My, Mz = (forces[..., i] for i in range(6))
        return Sections(N=N, Vy=Vy, Vz=Vz, T=T, My=My, Mz=Mz)

    def along(self, part: Part) -> Sections:
        """Section forces at both ends of a part's members, (n, members, 2)."""
        return self.ends(self.block.frame.ideal.model.members_of(part))

    def inside(self, part: Part) -> Sections:
        """Section forces at both ends and the middle of a part's members, (n, members, 3)."""
        return self.answer.along(self.block.frame.ideal.model.members_of(part), 3)


@dataclass(frozen=True, kw_only=True)
class Sweep(Situation):
    """Every case of a table at one gust; the block remembers the answers of second order.

    `state`: a name for what the cases are loaded by, the same for tables of the same states.
    """

    state: tuple[str, float]

    @cached_property
    def grown(self) -> Answer:
        """Every case of second order."""
        return self.block.swept(self.state, lambda: self.solved)

    def only(self, rows: np.ndarray) -> Situation:
        """Return some of the cases, by position."""
        return at_gusts(
            self.block, self.table, self.case[rows], self.gust[rows], self.variant[rows]
        )


def at_gusts(
    block: Block,
    table: CaseTable,
    case: np.ndarray,
    gust: FloatArray,
    variant: np.ndarray | None = None,
    inputs: Inputs | None = None,
) -> Situation:
    """Cases at positions `case` (n,) of the table, each at its own `gust` (n,) [m/s].

    In the median model each may be in its own `variant` (n,) of the uncertain `inputs`.
    """
    which = np.full(len(case), MEDIANS) if variant is None else variant
    values = one_at_a_time() if inputs is None else inputs
    pressure = block.frame.pressure(1.0) * np.square(gust)
    if block.median:
        pressure = pressure * values[WIND][which]
    return Situation(
        block=block,
        table=table,
        case=case,
        gust=gust,
        pressure=pressure,
        variant=which,
        inputs=values,
    )


def situation(block: Block, table: CaseTable, gusts: Sequence[float]) -> Situation:
    """Every case of the table at every gust [m/s], gust by gust."""
    count = len(table.labels)
    case = np.tile(np.arange(count), len(gusts))
    return at_gusts(block, table, case, np.repeat(np.asarray(gusts, dtype=float), count))


def _sweep(block: Block, table: CaseTable, gust: float, state: tuple[str, float]) -> Situation:
    return Sweep(**vars(situation(block, table, [gust])), state=state)


def blown(block: Block, gust: float) -> Situation:
    """Every case of the whole wind at one gust [m/s], of the model of the block."""
    return _sweep(block, whole_table(block), gust, (WIND, gust))


def whole_table(block: Block) -> CaseTable:
    """Every case of the whole wind in the model of the block."""
    return block.frame.expected.table if block.median else block.frame.cases(WHOLE_WIND)


def windy(block: Block, gust: float) -> Situation:
    """Every case of the code's combinations with wind at one gust [m/s].

    The same states as those of the whole wind at `whole_wind(gust)`, case by case.
    """
    return _sweep(block, block.frame.cases(ASD_WINDY), gust, (WIND, whole_wind(gust)))


def whole_wind(gust: float) -> float:
    """Gust [m/s] whose whole wind is what the code's combinations take of that of `gust` [m/s]."""
    return gust * math.sqrt(CODE_SHARE)


def fixed(block: Block) -> Situation:
    """Every case that no gust changes."""
    return _sweep(block, block.frame.fixed_cases(), 0.0, ("fixed", 0.0))


def wintry(block: Block) -> tuple[Situation, ...]:
    """Every case of snow with wind at the map gust, and of ice with the gust that comes with it.

    None where there is neither snow nor ice.
    """
    frame, site, found = block.frame, block.frame.rack.site, []
    if site.snow > 0:
        snowy = frame.cases(SNOW_AND_WIND)
        found.append(_sweep(block, snowy, site.map_gust, ("snow", site.map_gust)))
    if site.ice > 0:
        found.append(_sweep(block, frame.icy_cases(), site.ice_gust, ("ice", site.ice_gust)))
    return tuple(found)


def gustless(block: Block) -> tuple[Situation, ...]:
    """Every case that is the same whatever gust is asked about: those of `fixed` and `wintry`."""
    return fixed(block), *wintry(block)


def coded(block: Block) -> tuple[Situation, ...]:
    """Every case of the code's combinations at the map gust, on one block, kind by kind."""
    return windy(block, block.frame.rack.site.map_gust), *gustless(block)


def situations(blocks: Iterable[Block]) -> tuple[Situation, ...]:
    """Every case of the code's combinations at the map gust, on every block."""
    return tuple(now for block in blocks for now in coded(block))
