"""A quick look at a changed rack: its weakest gusts where the rack before it was weakest.

Uses are worked out at a few gusts round those of the rack before, at the tilts and corners where
that went first, and interpolated. What another tilt or corner would say is left out, and second
order where the frame changed, so a glance can only flatter; what is chosen is solved in full.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain

import numpy as np

from frame.bracing.movement import worst_sag, worst_sway
from frame.changes.tried import Place, place_of
from frame.checks.check import Kind
from frame.idealize.state import MIDDLE, State
from frame.named.aim import Helps, Key, helped
from frame.plan.standing import FirstOrder, Standing, at_places
from frame.rack.rack import Rack
from frame.records.motion import Sag, Sway
from frame.search.crossings import FloatArray
from frame.search.grid import TOP
from frame.search.laden import Laden, laden_uses
from frame.search.searched import Search, without_rule
from frame.search.stack import stacked
from frame.solved.blocks import Block, corners
from frame.solved.frames import Bracing
from frame.solved.situation import situation, whole_table, whole_wind

ROUND = (0.8, 1.03, 1.1, 1.25, 1.6)
"""Gusts looked at, over that of the rack before [1]."""
LEAST = 5.0
"""Least gust that is looked round [m/s]."""
MOST_OVER = 3.0
"""Part over a limit of movement from which on more is not worse [1]."""
FAR = 1e3
"""Use above which more is not worse where gusts are interpolated [1]."""


@dataclass(frozen=True, slots=True)
class Glance:
    """Gusts [m/s] of the first break, the first slip and the code's limit, as far as looked at.

    `over`: how far it sags and sways over its limits [1]; `short`: see `Laden`. What was not
    looked at stays as it was.
    `serves`: whether what the change strengthens is good for the site's gust, False where that is
    not known; `relieved`: gust at which the first check that it strengthens is reached then, nil
    where none is looked at. `uncovered`: checks of the code's model that no rule covers.
    """

    first_break: float
    slip: float
    limit: float
    over: float
    short: float = 1.0
    serves: bool = False
    relieved: float = 0.0
    uncovered: frozenset[Key] = frozenset()


def before(at: Standing) -> Glance:
    """Gusts of a standing; infinite where nothing is reached."""
    gusts = [g.gust if g else np.inf for g in (at.first_break, at.first_slip)]
    first_break, slip = map(float, gusts)
    return Glance(
        first_break=first_break,
        slip=slip,
        limit=at.limit_gust,
        over=over(at.sag, at.sway),
        short=at.laden.short,
        uncovered=at.uncovered,
    )


def over(sag: Sag, sway: Sway) -> float:
    """How far a rack sags and sways over its limits, each counted to three times at most [1].

    The play of the sleeve is part of the sag: a beam end rests where it was last let go.
    """
    return sum(min(max(use - 1.0, 0.0), MOST_OVER) for use in (sag.use_with_play, sway.use))


def glance(
    at: Standing,
    rack: Rack,
    bracing: Bracing,
    helps: Helps = (),
    *,
    code: bool,
    least: Glance | None = None,
    everywhere: bool = False,
) -> Glance:
    """Look at a changed rack where a standing is weakest: by the code, or at what is expected.

    `helps`: the checks that the change strengthens. For a change that weakens: `least` the gusts
    that it has to stand, looked at alone, and `everywhere` at every tilt and corner.
    """
    was, most = before(at), rack.site.map_gust
    if everywhere:
        states = corners(bracing) if code else (State(),)
        places = tuple(Place(t, s, median=not code) for t in rack.tilts for s in states)
    else:
        places = _places(at, rack, bracing, code=code)
    blocks = at_places(rack, bracing, places, at.blocks, FirstOrder)
    if code:
        gusts = (
            [whole_wind(least.limit)]
            if least
            else _near([whole_wind(was.limit)], whole_wind(most))
        )
        uses = _uses(blocks, gusts)
        found = _gusts(uses)
        limit = min(found.values()) / whole_wind(1.0) if found else was.limit
        short, at_most = was.short, uses.at(whole_wind(most)) if helps else {}
        if not at.laden.carried:
            loaded = {key: float(use.max()) for key, use in laden_uses(blocks).items()}
            short = Laden(max(loaded.values(), default=0.0)).short
            at_most = {key: max(loaded.get(key, 0.0), use) for key, use in at_most.items()}
        return replace(
            was,
            limit=limit,
            short=short,
            serves=_serves(at_most, helps),
            relieved=_relieved(uses, helps) / whole_wind(1.0),
            uncovered=uses.uncovered,
        )
    gusts = (
        sorted({least.first_break, least.slip})
        if least
        else _near([was.first_break, was.slip], most)
    )
    uses = _uses(blocks, gusts)
    found = _gusts(uses)
    slips = [gust for kind, gust in found.items() if kind is not Kind.BREAKS]
    here = [b for b in at.blocks if place_of(b) in places]
    calmer = _over(blocks) - _over(here)
    return Glance(
        first_break=found.get(Kind.BREAKS, np.inf),
        slip=min(slips, default=np.inf),
        limit=was.limit,
        over=max(was.over + calmer, 0.0),
        short=was.short,
        serves=_serves(uses.at(most) if helps else {}, helps),
        relieved=_relieved(uses, helps),
        uncovered=was.uncovered,
    )


def _over(blocks: Sequence[Block]) -> float:
    return over(worst_sag(blocks), worst_sway(blocks))


def _places(at: Standing, rack: Rack, bracing: Bracing, *, code: bool) -> tuple[Place, ...]:
    """Where the changed rack answers to what is weakest of the one before it."""
    if not code:
        going = [g for g in (at.first_break, at.first_slip) if g]
        tilts = [g.tilt if g.tilt in rack.tilts else max(rack.tilts) for g in going]
        return tuple(Place(t, State(), median=True) for t in dict.fromkeys(tilts))
    worst = (_places_near(one.block, rack, bracing) for one in at.held_back if one.block)
    return tuple(dict.fromkeys(chain.from_iterable(worst)))


def _places_near(block: Block, rack: Rack, bracing: Bracing) -> Iterator[Place]:
    """Places of the code's model of the soil of a block, and of its guys where both have some."""
    tilt, state = block.frame.ideal.tilt, block.state
    for s in corners(bracing):
        if s.soil == state.soil and (s.guys == state.guys or MIDDLE in (s.guys, state.guys)):
            yield Place(tilt if tilt in rack.tilts else max(rack.tilts), s, median=False)


@dataclass(frozen=True)
class _Uses:
    """Largest uses (gusts,) `of` each check at ascending `gusts`.

    Their `kinds`; which are `uncovered` by any rule.
    """

    gusts: FloatArray
    of: dict[Key, FloatArray]
    kinds: dict[Key, Kind]
    uncovered: frozenset[Key]

    def at(self, gust: float) -> dict[Key, float]:
        """Largest use of each check at one of the gusts [m/s], endless of those uncovered."""
        i = int(np.abs(self.gusts - gust).argmin())
        found = {key: float(use[i]) for key, use in self.of.items()}
        return found | dict.fromkeys(self.uncovered, np.inf)


def _near(gusts: Iterable[float], most: float) -> list[float]:
    """Gusts [m/s] to look at round some others, and the most that is asked for, ascending."""
    round_them = np.outer([min(max(g, LEAST), TOP) for g in gusts], ROUND).ravel()
    return [float(g) for g in np.unique(np.round([*round_them, most], 3))]


def _uses(blocks: Sequence[Block], gusts: Sequence[float]) -> _Uses:
    """Look at every check at ascending gusts [m/s]."""
    found: dict[Key, FloatArray] = {}
    kinds: dict[Key, Kind] = {}
    nows = [situation(block, whole_table(block), gusts) for block in blocks]
    of = np.concatenate([now.gust for now in nows])
    used_by = Search.of(blocks).used(stacked(nows)) if nows else {}
    for key, used in used_by.items():
        found[key] = np.array([used.use[of == gust].max() for gust in gusts])
        kinds[key] = used.kind
    return _Uses(np.array(gusts), found, kinds, without_rule(used_by))


def _serves(at_most: Mapping[Key, float], helps: Helps) -> bool:
    """Whether the checks helped are all good for the most that is asked for; not where none is."""
    own = [use for key, use in at_most.items() if helped(helps, key)]
    return bool(helps and own) and max(own) <= 1.0


def _relieved(uses: _Uses, helps: Helps) -> float:
    """Gust [m/s] at which the first of the checks helped is reached; nil where there is none."""
    own = [use for key, use in uses.of.items() if helped(helps, key)]
    return _crossing(uses.gusts, np.max(own, axis=0)) if helps and own else 0.0


def _gusts(uses: _Uses) -> dict[Kind, float]:
    """First gust [m/s] at which something of each kind is reached."""
    worst: dict[Kind, FloatArray] = {}
    for key, use in uses.of.items():
        kind = uses.kinds[key]
        worst[kind] = np.maximum(worst.get(kind, 0.0), use)
    return {kind: _crossing(uses.gusts, use) for kind, use in worst.items()}


def _crossing(gusts: FloatArray, use: FloatArray) -> float:
    """Return the gust at which a use reaches 1, straight in logarithms between those looked at."""
    over = use >= 1.0
    if not over.any():
        return float(gusts[-1] / max(use[-1], 0.25) ** 0.5)
    i = int(np.argmax(over))
    if i == 0:
        return float(gusts[0] / min(use[0], FAR) ** 0.5)
    low, high = (np.log(np.clip(u, 1 / FAR, FAR)) for u in (use[i - 1], use[i]))
    share = -low / max(high - low, 1e-12)
    return float(gusts[i - 1] * (gusts[i] / gusts[i - 1]) ** share)
