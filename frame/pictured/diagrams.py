"""The case whose moments, shears and axial forces are drawn: two racks in one wind, by planes."""

from dataclasses import dataclass, replace

from frame.bracing.second_opinion import governing_case, opinions, solver_case
from frame.fem.plane.model import PlaneAnswer
from frame.idealize.state import State
from frame.loads.cases import WindCase
from frame.loads.combinations import WEIGHT_ONLY, WHOLE_WIND
from frame.parts.steel.braces import brace_checks
from frame.parts.steel.pipes import pipe_checks
from frame.pictured.beside import Beside, Shown
from frame.rack.rack import Rack
from frame.search.governing import STATE_WORDS, governing, run_checks
from frame.solved.blocks import Block, blocks
from frame.solved.frames import solve_frames, stiff_part
from frame.solved.situation import situation, windy

BENT = (pipe_checks, brace_checks)
"""Checks that choose the case: what bends is what the pictures show."""


@dataclass(frozen=True, kw_only=True)
class Diagrammed:
    """One rack in the case shown: the plane solver's front and side, and what `gone` says."""

    title: str
    block: Block
    planes: tuple[PlaneAnswer, PlaneAnswer]
    gone: str


@dataclass(frozen=True, kw_only=True)
class Diagrams:
    """Two racks to set side by side, and the case they share in words; `gust` [m/s], `tilt` [rad].

    Where only one rack is shown, it stands in still air at the left and in the gust at the right.
    """

    rack: Rack
    left: Diagrammed
    right: Diagrammed
    words: str
    ground: str
    gust: float
    tilt: float


def diagrams(beside: Beside) -> Diagrams:
    """Solve both racks at the tilt, ground and wind that use the last rack's pipes most.

    The wind is that of the governing code combination; shown are the true weight and the whole
    wind at the gust of `beside`, a gust that comes, not the code's share of a rarer one.

    Raises
    ------
    DisagreementError
        Where the two solvers differ on a picture by more than 0.5 %.
    """
    first, last = beside.racks[0], beside.racks[-1]
    found = blocks(
        solve_frames(last.rack, [last.bracing], last.rack.tilts), last.bracing, last.rack.tilts
    )
    nows = [windy(b, last.rack.site.map_gust) for b in found]
    row = governing(run_checks(nows, BENT))[0]
    now, case = governing_case(nows, row)
    wind, state, alone = now.table.winds[case], row.state, len(beside.racks) == 1
    at_left = _block(first, row.tilt, state)
    left = _solved(at_left, first, None if alone else wind, beside.gust)
    right = _solved(now.block, last, wind, beside.gust)
    return Diagrams(
        rack=beside.rack,
        left=_called(left, f"{first.title}, still air") if alone else left,
        right=_called(right, f"{last.title}, in the gust") if alone else right,
        words=wind.words if wind else WEIGHT_ONLY.words,
        ground=_state_words(state, guyed=bool(last.rack.guys_in(last.bracing))),
        gust=beside.gust,
        tilt=row.tilt,
    )


def _called(one: Diagrammed, title: str) -> Diagrammed:
    return replace(one, title=title)


def _block(one: Shown, tilt: float, state: State) -> Block:
    frames = solve_frames(one.rack, [one.bracing], [tilt])
    frame = frames[stiff_part(one.bracing), tilt, state.soil]
    return Block(frame=frame, bracing=one.bracing, state=state)


def _solved(block: Block, one: Shown, wind: WindCase | None, gust: float) -> Diagrammed:
    table = block.frame.cases(WHOLE_WIND[:1] if wind else (WEIGHT_ONLY,))
    case = next(i for i, w in enumerate(table.winds) if (w and w.name) == (wind and wind.name))
    now = situation(block, table, [gust])
    front, side = opinions(solver_case(now, case), "nothing is drawn")
    return Diagrammed(
        title=one.title,
        block=block,
        planes=(front.plane, side.plane),
        gone=one.gone if wind else "",
    )


def _state_words(state: State, *, guyed: bool) -> str:
    fields = ("soil", "guys", "pretension") if guyed else ("soil",)
    said = (STATE_WORDS.get((field, getattr(state, field))) for field in fields)
    return ", ".join(words for words in said if words)
