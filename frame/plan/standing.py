"""A rack file with some bracing fitted, solved in full or where it is weakest."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from frame.bracing.movement import worst_sag, worst_sway
from frame.casefile.read import parse_rack
from frame.changes.cost import bought_steel, cost
from frame.changes.tried import Place, Tried, code_places, place_of
from frame.fem.cases import Answer
from frame.fem.element import Array
from frame.named.aim import Key
from frame.rack.rack import Rack, bracing_title
from frame.records.going import Going
from frame.records.motion import Sag, Sway
from frame.search.laden import Laden, laden
from frame.search.survived import Learned, still_counts
from frame.search.weakest import Limit, Weakest, weakest
from frame.sizing.bench import passed, worst_uses
from frame.solved.blocks import Block, both_models, split
from frame.solved.frames import Bracing, solve_frames


@dataclass(frozen=True, kw_only=True)
class Standing:
    """What the rack of a file's `text` stands with a `bracing`.

    `steel`: weight of pipe, rails and rod [N]; `cost` in the file's currency, None without
    prices. `laden`: what it uses under loads that no gust changes; not looked at where the
    site has none of its own, as snow, and the code's margin ends below its gust.
    """

    text: str
    rack: Rack
    bracing: Bracing
    weakest: Weakest
    sag: Sag
    sway: Sway
    steel: float
    cost: float | None
    laden: Laden
    blocks: tuple[Block, ...]

    def __repr__(self) -> str:
        """Name the rack and its bracing."""
        return f"Standing({self.rack.name!r}, {bracing_title(self.bracing)!r})"

    @property
    def first_slip(self) -> Going | None:
        """What turns, tilts or leans first; None where nothing does."""
        return self.weakest.first_slip

    @property
    def first_break(self) -> Going | None:
        """What breaks first; None where nothing does."""
        return self.weakest.first_break

    @property
    def limit_gust(self) -> float:
        """Gust up to which the code's margin is kept [m/s], infinite beyond the highest."""
        return self.weakest.limit_gust

    @property
    def held_back(self) -> tuple[Limit | Laden, ...]:
        """Return what the code's margin ends by: in wind, and under other loads if not carried."""
        limit = self.weakest.limit
        return (limit,) if self.laden.carried else (limit, self.laden)

    @property
    def uncovered(self) -> frozenset[Key]:
        """Checks that no rule covers: of them the code's margin is not known."""
        return self.weakest.limit.uncovered

    @property
    def passes(self) -> bool:
        """Whether all that is checked has the code's margin, in wind and under other loads."""
        return self.limit_gust >= self.rack.site.map_gust and self.laden.carried

    @property
    def holds(self) -> bool:
        """Whether it has the code's margin at the site's gust and under every other load."""
        return self.passes and not self.uncovered

    @property
    def moves_too_far(self) -> bool:
        """Whether it sags or sways over its limits."""
        return max(self.sag.use, self.sway.use) > 1.0


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What is asked of every rack tried.

    The file's `name` in messages, what is `learned` of what the rack `read` has stood, whether
    what goes first is `ranged` or only its middle is told, and whether bracing may be `fitted`.
    """

    name: str
    learned: Learned = field(default_factory=dict)
    read: Rack | None = None
    ranged: bool = True
    fitted: bool = True

    def still_learned(self, rack: Rack) -> Learned:
        """Return what is learned of the parts that a rack shares with the one read."""
        return still_counts(self.learned, self.read, rack) if self.read else self.learned


def light(at: Standing) -> Standing:
    """Return a standing without the blocks it was solved on, which are large."""
    limit, load = replace(at.weakest.limit, block=None), replace(at.laden, block=None)
    return replace(at, blocks=(), weakest=replace(at.weakest, limit=limit), laden=load)


FURTHER = 1.3
"""Limit gust looked for first over that of the rack before the change [1]: seldom exceeded."""
FAILED = 1.1
"""Use at first order beyond which second order does not bring it back to 1 (judgement)."""


def stand_like(
    at: Standing, text: str, bracing: Bracing, asked: Asked, *, near: float | None = None
) -> Standing:
    """Solve in full, as `stand`, a rack that differs little from one that was.

    `near`: see there; where it is not given, a little beyond the limit gust of the one before.
    """
    near = FURTHER * at.limit_gust if near is None else near
    return stand(text, bracing, asked, at.blocks, near=near)


def stand(
    text: str,
    bracing: Bracing,
    asked: Asked,
    like: Sequence[Block] = (),
    *,
    near: float = 0.0,
) -> Standing:
    """Solve the file's rack with a bracing in full; frames equal to those of `like` are not.

    `near` what gust [m/s] the code's margin is thought to end, or before.

    Raises
    ------
    FrameError
        Where such a rack cannot be built or stood up.
    """
    rack = parse_rack(text, asked.name)
    same = [b for b in like if b.bracing == bracing]
    places = [place_of(b) for b in same]
    if tuple(dict.fromkeys(p.tilt for p in places)) == rack.tilts:
        solved = at_places(rack, bracing, places, same)
    else:
        solved = both_models(solve_frames(rack, [bracing], rack.tilts), bracing, rack.tilts)
    code, _ = split(solved)
    found = weakest(solved, asked.still_learned(rack), ranged=asked.ranged, near=near)
    asks = found.limit_gust >= rack.site.map_gust or code[0].frame.site_loads
    return Standing(
        text=text,
        rack=rack,
        bracing=bracing,
        weakest=found,
        sag=worst_sag(code),
        sway=worst_sway(code),
        steel=bought_steel(rack, bracing),
        cost=cost(rack, bracing),
        laden=laden(code) if asks else Laden(),
        blocks=solved,
    )


class Upright:
    """Tells of cases that they are far from buckling."""

    def factors(self, factors: Array, tensions: Array, slackness: Array) -> Array:
        """Return infinite factors (n,)."""
        return np.full(len(factors), np.inf)


@dataclass(frozen=True, kw_only=True)
class FirstOrder(Block):
    """A block whose rack is not let sway or twist further by the forces in it."""

    def grown(self, first: Answer, alpha: float | None = None) -> Answer:
        """Return cases as solved at `first` order, as if nothing could buckle."""
        most = self.alpha if alpha is None else alpha
        upright = np.zeros(len(first.factors), dtype=bool)
        return replace(first, topples=upright, told=Upright(), alpha=most)


def at_places(
    rack: Rack,
    bracing: Bracing,
    places: Sequence[Place],
    like: Sequence[Block],
    kind: type[Block] = Block,
) -> tuple[Block, ...]:
    """Blocks of a rack at some places, on the frames of others where the models are the same.

    The others are of a `kind`.
    """
    tried = Tried(bracing=bracing, kind=kind)
    for block in like:
        if block.bracing == bracing:
            tried.kept[place_of(block)].append(block)
    return tried.on(rack).blocks(places)


def holds(rack: Rack, bracing: Bracing) -> bool:
    """Whether a rack has the code's margin at the site's gust and in every case without wind.

    Corner after corner, the steep tilts and the soft ground first, and only as far as the first
    where it has not. What fails by far at first order is not solved at second.
    """
    tried = Tried(bracing=bracing, kind=FirstOrder).on(rack)
    firm = []
    for place in sorted(code_places(bracing, rack.tilts), key=lambda place: -place.tilt):
        (block,) = tried.blocks([place])
        if not _carries([block], FAILED):
            return False
        firm.append(Block(frame=block.frame, bracing=bracing, state=block.state))
    return all(_carries([block]) for block in firm)


def _carries(code: Sequence[Block], most: float = 1.0) -> bool:
    """Whether all is covered and uses no more than `most` [1] in any case of the code here."""
    return passed(worst_uses(code), most)
