"""What a picture of a rack shows: bare and braced in one wind, at one tilt, in one gust."""

from dataclasses import dataclass

import numpy as np

from frame.bracing.movement import still_air, sway_of, worst_sag
from frame.bracing.second_opinion import governing_case, opinions, question
from frame.fem.plane import PlaneAnswer
from frame.idealize.posts import beam_mark
from frame.idealize.state import State
from frame.loads.cases import WEIGHT_ONLY, WHOLE_WIND, WindCase
from frame.parts.braces import brace_checks
from frame.parts.pipes import pipe_checks
from frame.rack.rack import Rack, bracing_title
from frame.records.motion import Sag
from frame.search.governing import STATE_WORDS, governing, look
from frame.solved.frames import Block, FloatArray, blocks, solve_frames, stiff_part
from frame.solved.situation import situation, windy
from frame.verdict.compare import chosen

RZ = 5
BENT = (pipe_checks, brace_checks)
"""Checks that choose the case: what bends is what the pictures show."""


@dataclass(frozen=True, kw_only=True)
class Pictured:
    """One bracing in the case shown.

    `displacements` (nodes, 6), `tensions` (guys,) of the space frame, `planes` the plane solver's
    front and side. `sag` under the weights; `sway` [m] the level movement of a post top from still
    air, of second order, and None where the rack topples; `turn` [rad] what the beam turns about
    its post from still air: the most of either.
    """

    title: str
    block: Block
    displacements: FloatArray
    tensions: FloatArray
    planes: tuple[PlaneAnswer, PlaneAnswer]
    sag: Sag
    sway: float | None
    turn: float


@dataclass(frozen=True, kw_only=True)
class Pair:
    """Two pictures to set side by side, and the case they share in words.

    `gust` [m/s]. `same_rack`: no bracing is shown, so the still air of the bare rack stands
    beside its gust.
    """

    rack: Rack
    left: Pictured
    right: Pictured
    words: str
    ground: str
    gust: float
    tilt: float
    same_rack: bool


def braced_choice(rack: Rack) -> tuple[str, ...]:
    """Bracing of the verdict, or all that is described where the verdict is bare."""
    return (rack.bracing_names and chosen(rack)) or rack.bracing_names


def pair(rack: Rack, bracing: tuple[str, ...], gust: float) -> Pair:
    """Bare beside braced at the tilt, ground and wind that use the braced rack's pipes most.

    The wind is that of the governing code combination; shown are the true weight and the whole
    wind at `gust` [m/s], a gust that comes, not the code's share of a rarer one.

    Raises
    ------
    DisagreementError
        Where the two solvers differ on a picture by more than 0.5 %.
    """
    frames = solve_frames(rack, [(), bracing], rack.tilts)
    found = blocks(frames, bracing, rack.tilts)
    nows = [windy(b, rack.site.map_gust) for b in found]
    row = governing(look(nows, BENT))[0]
    now, case = governing_case(nows, row)
    wind, state = now.table.winds[case], row.state
    bare, braced = (
        Block(frame=frames[stiff_part(names), row.tilt, state.soil], bracing=names, state=state)
        for names in ((), bracing)
    )
    titles = bracing_title(()), bracing_title(bracing)
    if not bracing:
        titles = f"{titles[0]}, still air", f"{titles[0]}, in the gust"
    return Pair(
        rack=rack,
        left=_pictured(bare, titles[0], wind if bracing else None, gust),
        right=_pictured(braced, titles[1], wind, gust),
        words=wind.words if wind else WEIGHT_ONLY.words,
        ground=_state_words(state, guyed=bool(rack.guys_in(bracing))),
        gust=gust,
        tilt=row.tilt,
        same_rack=not bracing,
    )


def _pictured(block: Block, title: str, wind: WindCase | None, gust: float) -> Pictured:
    table = block.frame.cases(WHOLE_WIND[:1] if wind else (WEIGHT_ONLY,))
    case = next(i for i, w in enumerate(table.winds) if (w and w.name) == (wind and wind.name))
    now = situation(block, table, [gust])
    front, side = opinions(question(now, case), "nothing is drawn")
    ideal = block.frame.ideal
    moved = now.solved.displacements[case]
    from_rest = moved - still_air(block)[1]
    posts = range(len(ideal.rack.posts.positions))
    seats = [ideal.marks[beam_mark(ideal.rack, i)] for i in posts]
    return Pictured(
        title=title,
        block=block,
        displacements=moved,
        tensions=now.solved.tensions[case],
        planes=(front.plane, side.plane),
        sag=worst_sag([block]),
        sway=sway_of(block, now.solved.only(np.array([case]))),
        turn=float(np.abs(from_rest[seats, RZ]).max()),
    )


def _state_words(state: State, *, guyed: bool) -> str:
    fields = ("soil", "guys", "pretension") if guyed else ("soil",)
    said = (STATE_WORDS.get((field, getattr(state, field))) for field in fields)
    return ", ".join(words for words in said if words)
