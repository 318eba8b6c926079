"""One part gone: what the rack still stands when any single guy, brace, tie or bolt is missing.

A guy that parts leaves the others at their unstressed lengths, not at their pretension: they take
over what it carried. A brace or tie that is gone leaves its weight; what it carried of the dead
load goes to the rest of the frame, and the guys keep their unstressed lengths there too.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from frame.errors import MechanismError
from frame.fem.assembly import pull_matrix
from frame.fem.cables import solve_taut
from frame.fem.cases import Answer, solve
from frame.fem.response import Response, respond
from frame.loads.cases import DEAD
from frame.named.part import Part, PartKind, Side
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.rack.sleeve import Pin, SetBolts
from frame.search.survived import Learned
from frame.search.weakest import Weakest, learned_of, weakest
from frame.solved.blocks import Block, solved_models
from frame.solved.frames import FloatArray, Frame

STIFF = {KNEES: PartKind.KNEE, TIES: PartKind.TIE, STAYS: PartKind.STAY}
"""Kind of the parts of each stiff bracing."""
NOTHING_LEFT = 1e-9
"""Part of the stiffness left to a part that is gone, so that the frame keeps its shape [1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """What is left with one part gone; `words` tell what.

    `after`: what decides of the rack without the `part`, `whole` of the whole rack. `after` is
    None where nothing else holds what that part held: the rack stands by that part alone, `alone`
    says in which way.
    """

    part: str
    words: str
    whole: Weakest
    after: Weakest | None = None
    alone: str = ""

    @property
    def limit_gust(self) -> float:
        """Gust up to which the code's margin is kept [m/s], infinite if beyond the highest."""
        return self.after.limit_gust if self.after else 0.0

    @property
    def let_go_gust(self) -> float:
        """Gust at which the next part is expected to go [m/s], infinite if none."""
        return self.after.let_go_gust if self.after else 0.0

    @property
    def act_by_gust(self) -> float:
        """Forecast gust before which panels come off or go low [m/s], infinite if none."""
        return self.after.act_by_gust if self.after else 0.0

    @property
    def next_part(self) -> str:
        """What is expected to go next, "" if nothing."""
        if self.after is None:
            return self.alone
        return self.after.let_go.part if self.after.let_go else ""

    @property
    def left(self) -> float:
        """Let-go gust left over that of the whole rack [1]."""
        before = self.whole.let_go_gust
        return self.let_go_gust / before if 0 < before < math.inf else 1.0


@dataclass(frozen=True, kw_only=True)
class LostGuy(Block):
    """A block in which one fitted guy, at position `lost` of the model's, has parted."""

    lost: int

    def answer(self, factors: FloatArray) -> Answer:
        """Solve cases given as `factors` (cases, unit loads) without the lost guy."""
        return solve(self.response, factors, self.band[1], fitted=self.fitted, lost=self.lost)


@dataclass(frozen=True, kw_only=True)
class LostPart(Block):
    """A block whose `frame` lacks a brace or tie that `whole` has."""

    whole: Block

    def answer(self, factors: FloatArray) -> Answer:
        """Solve cases given as `factors` (cases, unit loads), guys at their unstressed lengths.

        r = e + (D + F) t0 + what the weights stretch the guy lines by as the frame loses the
        part; F of the whole frame in the middle term, of the broken one elsewhere.
        """
        there, mine, whole = self.fitted, self.response, self.whole.response
        if not there.any():
            return solve(mine, factors, self.band[1], fitted=there)
        rows = np.atleast_2d(np.array(factors, dtype=float))
        r = rows @ mine.stretch + unstressed(self.whole) - _settling(mine, whole)
        matrix = mine.flexibility + np.diag(mine.slackness)
        tensions, slack = np.zeros_like(r), np.zeros_like(r)
        tensions[:, there], slack[:, there] = solve_taut(matrix[np.ix_(there, there)], r[:, there])
        return Answer(response=mine, factors=rows, tensions=tensions, slack=slack)


def unstressed(block: Block) -> FloatArray:
    """How much each fitted guy is short of its line in still air [m], (guys,): (D + F) t0."""
    response, there = block.response, block.fitted
    matrix = response.flexibility + np.diag(response.slackness)
    return np.asarray(matrix[:, there] @ block.band[1][there])


def _settling(broken: Response, whole: Response) -> FloatArray:
    """How much the weights shorten the guy lines as the part is lost [m], (guys,)."""
    at = [whole.model.load_index[name] for name in DEAD]
    moved = broken.displacements[at].sum(axis=0) - whole.displacements[at].sum(axis=0)
    return np.asarray(moved.reshape(-1) @ pull_matrix(whole.model)[0])


def losses(
    rack: Rack,
    bracing: tuple[str, ...],
    tilts: Iterable[float] = (),
    whole: Weakest | None = None,
    learned: Learned | None = None,
) -> tuple[Loss, ...]:
    """Take every single guy, brace, tie rail, set bolt or pin and U-bolt out, the worst first.

    `tilts` [rad], all of the rack's unless given. On a rack alike left and right only the left
    one of a pair is tried. `whole`: what decides of the intact rack at these tilts, `learned`:
    what it has stood tells, if known already.
    """
    tilts = tuple(tilts) or rack.tilts
    intact = solved_models(rack, bracing, tilts)
    learned = learned_of(rack) if learned is None else learned
    before = whole or weakest(intact, learned)

    def lost(part: str, words: str, left: Sequence[Block] | str) -> Loss:
        if isinstance(left, str):
            return Loss(part=part, words=words, whole=before, alone=left)
        found = weakest(left, learned)
        return Loss(part=part, words=words, whole=before, after=found)

    found = [
        *(lost(*gone) for gone in _lock(rack)),
        *(lost(*gone) for gone in _guys(intact)),
        *(lost(*gone) for gone in _stiff(intact)),
        *(
            lost(part, words, solved_models(changed, bracing, tilts))
            for part, words, changed in _fasteners(rack)
        ),
    ]
    return tuple(sorted(found, key=lambda x: (x.let_go_gust, x.limit_gust)))


def _parts(block: Block) -> dict[str, Any]:
    return {f.name: getattr(block, f.name) for f in fields(Block)}


def _guys(intact: Sequence[Block]) -> Iterator[tuple[str, str, list[Block]]]:
    ideal, fitted = intact[0].frame.ideal, intact[0].fitted
    for i, guy in enumerate(ideal.model.guys):
        if fitted[i] and not _mirrored(ideal.rack, guy.name):
            lost: list[Block] = [LostGuy(**_parts(b), lost=i) for b in intact]
            yield guy.name, f"{guy.name} parted{_either(ideal.rack, guy.name)}", lost


def _stiff(intact: Sequence[Block]) -> Iterator[tuple[str, str, list[Block] | str]]:
    ideal = intact[0].frame.ideal
    kinds = [kind for name, kind in STIFF.items() if name in intact[0].bracing]
    for part in dict.fromkeys(m.part for m in ideal.model.members):
        if part.kind not in kinds or _mirrored(ideal.rack, part):
            continue
        words = f"{part} gone{_either(ideal.rack, part)}"
        frames = {id(b.frame): b.frame for b in intact}
        try:
            broken = {key: without_part(frame, part) for key, frame in frames.items()}
        except MechanismError as error:
            yield part, words, str(error)
            continue
        yield (
            part,
            words,
            [LostPart(**_parts(b) | {"frame": broken[id(b.frame)]}, whole=b) for b in intact],
        )


def without_part(frame: Frame, part: Part) -> Frame:
    """Return the frame with the members of `part` carrying next to nothing; weights stay."""
    model = frame.ideal.model
    members = tuple(
        replace(
            m,
            A=m.A * NOTHING_LEFT,
            Iy=m.Iy * NOTHING_LEFT,
            Iz=m.Iz * NOTHING_LEFT,
            J=m.J * NOTHING_LEFT,
        )
        if m.part == part
        else m
        for m in model.members
    )
    broken = replace(model, members=members)
    return Frame(ideal=replace(frame.ideal, model=broken), response=respond(broken))


def _lock(rack: Rack) -> Iterator[tuple[str, str, str]]:
    """Tell that a pin alone keeps the beam of a single post from turning."""
    if isinstance(rack.sleeve.lock, Pin) and len(rack.posts.positions) == 1:
        free = "nothing else keeps the beam from turning on the post"
        yield "through pin", "the through pin gone", free


def _fasteners(rack: Rack) -> Iterator[tuple[str, str, Rack]]:
    """Racks with one bolt less: the sleeve's lock, a U-bolt of any rail."""
    sleeve, lock = rack.sleeve, rack.sleeve.lock
    if isinstance(lock, SetBolts):
        less: SetBolts = replace(lock, count=lock.count - 1)
        words = "a set bolt gone" if lock.count > 1 else "the only set bolt gone"
        yield "set bolt", words, replace(rack, sleeve=replace(sleeve, lock=less))
    bolts = rack.rails.u_bolts
    if bolts.count > 1:
        fewer = replace(rack.rails, u_bolts=replace(bolts, count=bolts.count - 1))
        yield "U-bolt", "a U-bolt gone", replace(rack, rails=fewer)
        return
    places = rack.rails.positions
    first = places[0] if mirrored(rack) else places[-1]
    for name, gone in (("end", first), ("inner", places[len(places) // 2])):
        kept = tuple(x for x in places if x != gone)
        if len(kept) >= 2:
            words = f"the only U-bolt of an {name} rail gone, its load on the next rails"
            changed = replace(rack, rails=replace(rack.rails, positions=kept))
            yield f"U-bolt, {name} rail", words, changed


def mirrored(rack: Rack) -> bool:
    """Whether the rack is the same seen in a mirror across the beam."""
    places = np.array(rack.rails.positions)
    return bool(np.allclose(places, -places[::-1], atol=1e-6)) and not rack.beam.splices


def _mirrored(rack: Rack, part: Part) -> bool:
    """Whether a part is the mirror image of one that is tried."""
    return mirrored(rack) and part.side is Side.RIGHT


def _either(rack: Rack, part: Part) -> str:
    return " (or its mirror image)" if mirrored(rack) and part.side is Side.LEFT else ""
