"""The cut plan from the pile: which stick gives which piece, and where it is spliced."""

import math
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np

from frame.named.part import PartKind
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.shop.cutting.best import SECONDS, best_plan
from frame.shop.cutting.fitting import as_strong, by_diameter, fits, load_of, pipe_of, strength
from frame.shop.cutting.greedy import greedy
from frame.shop.cutting.pile import NEARLY, CutPlan, Need, Pile, Stick, Stretch
from frame.shop.cutting.splice_zones import SHARE, Bent, splice_use, zones
from frame.shop.steel.pieces import Piece
from frame.units import FT, INCH, METRIC

KERF = INCH / 8
"""Lost in a cut [m]: saw or grinder 1/16 to 1/8 in (common practice, no source)."""
LEAST = FT
"""Shortest part of a spliced piece [m] (judgement)."""
NEW = 21 * FT
"""Length that new pipe is sold in [m] (common practice, no source)."""
CUT = {"us": FT, METRIC: 0.5}
"""Step to which a yard cuts short lengths of thick pipe [m] (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """How it is cut: `kerf` [m], `share` of a splice's strength that may be used.

    `seconds` to look for the best plan, of all groups together.
    """

    kerf: float = KERF
    share: float = SHARE
    seconds: float = SECONDS


@dataclass(frozen=True, kw_only=True)
class Group:
    """Pieces of one diameter, what they may be cut from, and the plan; None where there is none.

    `letters` and `numbers` of the needs; `pipes` of the sticks.
    """

    name: str
    pile: Pile
    letters: tuple[str, ...]
    numbers: tuple[int, ...]
    pipes: tuple[Pipe | None, ...]
    plan: CutPlan | None

    def label(self, need: int) -> str:
        """Name a need as it is marked on the pipe: "A2"."""
        return f"{self.letters[need]}{self.numbers[need]}"


@dataclass(frozen=True, kw_only=True)
class PilePlan:
    """The cut plan of all racks; `zones` by letter where splices may be [m].

    `uses` by letter: how much of a splice's strength those chosen use at the site's gust [1].
    Posts that differ in length are not spliced.

    `again`: the rack solved with the splices chosen and the weakest pipe used, None where it has
    neither.
    """

    groups: tuple[Group, ...]
    zones: dict[str, tuple[Stretch, ...]]
    cutting: Cutting
    again: Rack | None = None
    beam_splices: tuple[float, ...] = field(default=())
    uses: dict[str, float] = field(default_factory=dict)


def sticks_of(rack: Rack) -> tuple[tuple[Pipe, Stick], ...]:
    """Return every stick of the file; where it lists none, its stock of pipe."""
    found = [
        (s.pipe, Stick(name=f"stick {s.entry + 1}", length=s.length, cost=s.cost, bad=s.bad))
        for s in rack.sticks
        for _ in range(s.count)
    ]
    if not found and rack.stock:
        found = [
            (p.pipe, Stick(name=f"stock {p.entry + 1}", length=p.length))
            for p in rack.stock.pieces
            for _ in range(p.count)
        ]
    return tuple(
        (pipe, replace(stick, name=f"{stick.name}, no {i}"))
        for i, (pipe, stick) in enumerate(found, 1)
    )


def pile_plan(
    rack: Rack,
    pieces: tuple[Piece, ...],
    racks: int,
    result: BracingResult,
    cutting: Cutting,
    tell: Callable[[str], None] = lambda _: None,
) -> PilePlan | None:
    """Plan the cuts of all racks; None where the file lists no pipe to cut from."""
    pile = sticks_of(rack)
    if not pile:
        return None
    along = splice_use(rack, result.bracing, rack.beam.splice_efficiency)
    alone = [p for p in pieces if p.of in along and sum(q.of is p.of for q in pieces) == 1]
    where = {p.letter: zones(p, along[p.of], cutting.share) for p in alone}
    asked = _Asked(rack=rack, racks=racks, result=result, pile=pile, zones=where)
    end, found = time.monotonic() + cutting.seconds, []
    kinds = by_diameter(pieces)
    for left, some in zip(range(len(kinds), 0, -1), kinds, strict=True):
        share = (end - time.monotonic()) / left
        found.append(_group(asked, some, replace(cutting, seconds=share), tell))
    groups = tuple(found)
    uses = {p.letter: use for p in alone if (use := _used(groups, p, along[p.of])) is not None}
    made = PilePlan(groups=groups, zones=where, cutting=cutting, uses=uses)
    return _again(rack, pieces, made)


def _used(groups: tuple[Group, ...], piece: Piece, along: Bent) -> float | None:
    """Return the largest use of the splices chosen of a piece [1], None where there are none."""
    places = [
        at
        for group in groups
        if group.plan is not None
        for need, letter in enumerate(group.letters)
        if letter == piece.letter
        for at in group.plan.splices_of(need)
    ]
    order = np.argsort(along.at, kind="stable")
    found = np.interp(places, along.at[order], along.use[order]) if places else np.zeros(0)
    return float(found.max()) if places else None


@dataclass(frozen=True, kw_only=True)
class _Asked:
    """What every group of pieces is planned by."""

    rack: Rack
    racks: int
    result: BracingResult
    pile: tuple[tuple[Pipe, Stick], ...]
    zones: dict[str, tuple[Stretch, ...]]


def _group(
    asked: _Asked, pieces: list[Piece], cutting: Cutting, tell: Callable[[str], None]
) -> Group:
    rack, racks = asked.rack, asked.racks
    loads = {p.letter: load_of(p, asked.result) for p in pieces}
    mine = [
        (pipe, stick)
        for pipe, stick in asked.pile
        if any(fits(rack, p, loads[p.letter], pipe) for p in pieces)
    ]
    new = _new(rack, pieces, racks)
    first = pipe_of(rack, pieces[0])
    by = strength(first) if first else math.inf
    sticks = (*(replace(s, strength=strength(p) / by if first else 1.0) for p, s in mine), *new)
    needs, letters, numbers = [], [], []
    for piece in pieces:
        good = [
            i for i, (pipe, _) in enumerate(mine) if fits(rack, piece, loads[piece.letter], pipe)
        ]
        good += [len(mine) + i for i, s in enumerate(new) if s.name == f"new {piece.stock}"]
        strong = [i for i in good if i >= len(mine) or as_strong(rack, piece, mine[i][0])]
        for number in range(1, piece.count * racks + 1):
            needs.append(
                Need(
                    name=f"{piece.letter}{number}",
                    length=piece.length,
                    fits=frozenset(good),
                    zones=asked.zones.get(piece.letter, ()),
                    joins=frozenset(strong),
                    load=loads[piece.letter],
                )
            )
            letters.append(piece.letter)
            numbers.append(number)
    made = Pile(needs=tuple(needs), sticks=sticks, kerf=cutting.kerf, least=LEAST)
    made = _fewer_new(made)
    name = pieces[0].name if pieces[0].of is PartKind.SLEEVE else pieces[0].stock
    tell(f"{name}: {len(needs)} pieces from {len(mine)} sticks")
    return Group(
        name=name,
        pile=made,
        letters=tuple(letters),
        numbers=tuple(numbers),
        pipes=(*(pipe for pipe, _ in mine), *(None for _ in new)),
        plan=best_plan(made, tell, cutting.seconds),
    )


def _new(rack: Rack, pieces: list[Piece], racks: int) -> list[Stick]:
    """Return the new lengths that may be bought, as many of each pipe as could be needed."""
    found: list[Stick] = []
    price = rack.prices.pipe if rack.prices else 0.0
    for stock in dict.fromkeys(p.stock for p in pieces):
        some = [p for p in pieces if p.stock == stock]
        total = sum(p.count * racks * (p.length + KERF) for p in some)
        length = new_length(rack, some[0], total)
        most = math.ceil(total / length) + sum(
            p.count * racks for p in some if p.length > length / 2
        )
        weight = some[0].weight / some[0].length
        one = Stick(
            name=f"new {stock}", length=length, cost=price * weight * length, at_hand=False
        )
        found += [one] * max(most, 1)
    return found


def new_length(rack: Rack, piece: Piece, total: float) -> float:
    """Length bought for a `total` of some pipe [m]: whole, or a sleeve's cut to measure."""
    if piece.of is not PartKind.SLEEVE:
        return NEW
    step = CUT[METRIC if rack.units == METRIC else "us"]
    return min(math.ceil(total / step - NEARLY) * step, NEW)


def _fewer_new(pile: Pile) -> Pile:
    """Leave out new lengths that a plan by eye does not need."""
    quick = greedy(pile)
    if quick is None:
        return pile
    used = {c.stick for c in quick.cuts}
    kept = [i for i, s in enumerate(pile.sticks) if s.at_hand or i in used]
    place = {old: new for new, old in enumerate(kept)}
    needs = tuple(
        replace(
            n,
            fits=frozenset(place[s] for s in n.fits if s in place),
            joins=frozenset(place[s] for s in n.joins or () if s in place),
        )
        for n in pile.needs
    )
    return replace(pile, sticks=tuple(pile.sticks[i] for i in kept), needs=needs)


def _again(rack: Rack, pieces: tuple[Piece, ...], made: PilePlan) -> PilePlan:
    """Put the splices of the beam and the weakest pipe used into the rack, to solve it again."""
    beam = next(p for p in pieces if p.of is PartKind.BEAM)
    splices: set[float] = set(rack.beam.splices)
    changed = rack
    for group in made.groups:
        if group.plan is None:
            continue
        for need, letter in enumerate(group.letters):
            if letter == beam.letter:
                splices |= {s - beam.length / 2 for s in group.plan.splices_of(need)}
        changed = _weakest(changed, pieces, group)
    changed = replace(changed, beam=replace(changed.beam, splices=tuple(sorted(splices))))
    if changed == rack:
        return made
    return replace(made, again=changed, beam_splices=tuple(sorted(splices)))


def _weakest(rack: Rack, pieces: tuple[Piece, ...], group: Group) -> Rack:
    """Return the rack with each kind of piece of the weakest pipe that one of them is cut from."""
    assert group.plan is not None
    for piece in (p for p in pieces if p.letter in group.letters):
        now = pipe_of(rack, piece)
        if now is None:
            continue
        used = [
            pipe
            for cut in group.plan.cuts
            if group.letters[cut.need] == piece.letter
            and (pipe := group.pipes[cut.stick]) is not None
        ]
        weak = min(used, key=strength, default=now)
        if strength(weak) >= strength(now) * (1 - 1e-9):
            continue
        if piece.of is PartKind.POST:
            rack = replace(rack, posts=replace(rack.posts, pipe=weak))
        elif piece.of is PartKind.BEAM:
            rack = replace(rack, beam=replace(rack.beam, pipe=weak))
        elif piece.of is PartKind.KNEE and rack.knees:
            rack = replace(rack, knees=replace(rack.knees, pipe=weak))
        elif rack.stays:
            rack = replace(rack, stays=replace(rack.stays, pipe=weak))
    return rack
