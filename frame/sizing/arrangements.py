"""Arrangements a size search starts from: which bracing, where the guys start, how many posts."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from frame.casefile.read import parse_rack
from frame.casefile.write import Edits, Value, Where, edited
from frame.changes.cost import burden
from frame.changes.series import written_length
from frame.errors import FrameError
from frame.fem.response import respond
from frame.idealize.build import build
from frame.idealize.state import SOFT, State
from frame.named.aim import Key
from frame.rack.guy import ATTACHMENTS
from frame.rack.rack import Rack, bracing_title
from frame.sizing.bench import worst_uses
from frame.solved.blocks import Block, corners
from frame.solved.frames import Frame, stiff_part
from frame.units import INCH
from frame.verdict.verdict import in_frame

MOST_BRACINGS = 8
"""Bracings looked at, those of fewest kinds first."""
APART = {1: 0.55, 2: 0.36, 3: 0.27}
"""Distance of posts over the beam's length [1] with one more than so many: about where it is bent
least (judgement)."""
COUNTS = {2: "two", 3: "three", 4: "four"}
HOPELESS = 100.0
"""Use beyond which more is not worse [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """A bracing with `edits` of the file, `changes` in words; `rack` after them.

    `short`: how far it is from holding as described, 0 where it holds; `burden`: its weight or
    cost. Both are for ranking only.
    """

    bracing: tuple[str, ...]
    rack: Rack
    edits: Edits = field(default_factory=dict)
    changes: tuple[str, ...] = ()
    short: float = math.inf
    burden: float = math.inf

    @property
    def words(self) -> str:
        """Its bracing and what is changed."""
        return ", ".join((bracing_title(self.bracing), *self.changes))


def arrangements(
    rack: Rack, text: str, name: str, bracing: tuple[str, ...] | None
) -> Iterator[Arrangement]:
    """Every arrangement that can be built, those as described first; one `bracing`, or any.

    Guys are tried from other places where one group alone is described, one post against two.
    """
    kept = rack.bracings()[:MOST_BRACINGS] if bracing is None else (bracing,)
    ways: list[tuple[dict[Where, Value], tuple[str, ...]]] = [({}, ())]
    ways += [(e, (w,)) for e, w in _attachments(rack)]
    posts = list(_posts(rack))
    ways += [({**e, **pe}, (*w, pw)) for e, w in tuple(ways) for pe, pw in posts]
    for edits, changes in ways:
        try:
            made = parse_rack(edited(text, edits), name) if edits else rack
        except FrameError:
            continue
        for fitted in kept:
            if ("guys", "from") not in edits or rack.guys_in(fitted):
                yield Arrangement(bracing=fitted, rack=made, edits=edits, changes=changes)


def _attachments(rack: Rack) -> Iterator[tuple[dict[Where, Value], str]]:
    if len(rack.guys) == 1:
        for attach in ATTACHMENTS:
            if attach != rack.guys[0].attach:
                yield {("guys", "from"): attach}, f"guys from the {attach}"


def _posts(rack: Rack) -> Iterator[tuple[dict[Where, Value], str]]:
    many = len(rack.posts.positions)
    if many in APART:
        apart = written_length(round(APART[many] * rack.beam.length / INCH) * INCH, rack.units)
        edits: dict[Where, Value] = {("post", "count"): many + 1, ("post", "spacing"): apart}
        yield edits, f"{COUNTS[many + 1]} posts, {apart} apart"
    if many == 2:
        yield {("post", "count"): None, ("post", "spacing"): None}, "one post in the middle"


def screened(some: Sequence[Arrangement]) -> list[Arrangement]:
    """Look at every arrangement as described, in wet ground at its steepest tilt.

    Guys are taken as giving and slack, which leaves most to the rack. Frames are shared.
    """
    found: list[Arrangement] = []
    frames: dict[tuple[tuple[str, ...], tuple[str, ...]], Frame] = {}
    for one in some:
        key, state = (one.changes, stiff_part(one.bracing)), corners(one.bracing)[0]
        try:
            if key not in frames:
                frames[key] = _wet(one)
            block = Block(frame=frames[key], bracing=one.bracing, state=state)
            uses = worst_uses([block])
        except FrameError:
            continue
        found.append(
            replace(one, short=shortfall(uses.items()), burden=burden(one.rack, one.bracing))
        )
    return found


def _wet(one: Arrangement) -> Frame:
    names = (*stiff_part(one.bracing), *(g.name for g in one.rack.guys))
    ideal = build(one.rack, max(one.rack.tilts), names, State(soil=SOFT))
    return Frame(ideal=ideal, response=respond(ideal.model))


def shortfall(uses: Iterable[tuple[Key, float]]) -> float:
    """Tell how far posts, ground and beam are from holding: a sum of logarithms over kinds [1].

    Fastenings are mended alike in every bracing, and the bracing's own parts can be sized.
    """
    worst: dict[Key, float] = {}
    for (part, state), use in uses:
        if in_frame(part):
            kind = part.unnumbered, state
            worst[kind] = max(worst.get(kind, 0.0), short_of(use))
    return sum(worst.values())


def short_of(use: float) -> float:
    """Logarithm of a use over 1, nil under it; what is not covered is taken as hopeless [1]."""
    return math.log(HOPELESS if math.isnan(use) else min(max(use, 1.0), HOPELESS))


def picked(
    found: Sequence[Arrangement], *, open_bracing: bool
) -> tuple[list[Arrangement], list[Arrangement]]:
    """Choose up to three to grow: bare and the nearest as described, and the nearest changed.

    And the others, the nearest first, for where none of those holds.
    """
    own = [a for a in found if not a.edits]
    changed = [a for a in found if a.edits]

    def near(a: Arrangement) -> tuple[float, float]:
        return round(a.short, 6), a.burden

    wanted = own[:1] if open_bracing else []
    for some in (own, changed):
        wanted += [min(some, key=near)] if some else []
    first = list({(a.bracing, a.changes): a for a in wanted}.values())
    more = [a for a in found if a not in first]
    return first, sorted(more, key=near)
