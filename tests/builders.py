"""Racks for the tests: the case files, changed files, and random racks that can be built."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import strategies as st

from frame.casefile.read import parse_rack, read_rack
from frame.rack.beam import TieRails
from frame.rack.brace import Knees, Stays
from frame.rack.guy import ATTACHMENTS, Guys
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.search import searched
from frame.solved.blocks import Block, blocks, both_models, split
from frame.solved.frames import solve_frames
from frame.tables import channels, pipes, soils, steels, wires
from tests.often import LONG
from tests.unit.fem.builders import applied

FOLDER = Path(__file__).parents[1] / "cases"
HAND = Path(__file__).parent / "hand"
CASES = ("boat_shed", "wash_house", "salvage_yard", "fifteen_lines", "orchard_wall")
SOME_CASES = CASES if LONG else CASES[::2]
"""Case files that what takes long is tried on: at length every one."""
STAYS = """
[stays]
from = "beam ends"
pipe = "1-1/2 in nominal"
out = "5 ft"
along = "3 ft"
"""
INCH, FOOT, POUND, MPH = 0.0254, 0.3048, 4.4482216152605, 0.44704  # NIST SP 811, appendix B
DEGREE = np.pi / 180


@contextmanager
def by_no_checks_but(*checkers) -> Iterator[None]:
    """Search for gusts by a few checkers alone."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(searched, "CHECKERS", checkers)
        yield


def path_of(name: str) -> Path:
    """Path of a case file, or of a rack kept for sums by hand ("boat", "yard")."""
    kept = HAND / f"{name}.toml"
    return kept if kept.exists() else FOLDER / kept.name


@cache
def case(name: str) -> Rack:
    """Read a case file or a rack kept for sums by hand."""
    return read_rack(path_of(name))


def changed(name: str, *swaps: tuple[str, str], more: str = "") -> Rack:
    """Read a rack with some of its text swapped, and text added at the end."""
    text = path_of(name).read_text(encoding="utf-8")
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    return parse_rack(text + more, f"{name}.toml")


def blocks_of(rack: Rack, bracing: tuple[str, ...] = (), tilts=None) -> tuple[Block, ...]:
    """Every tilt and corner of one bracing of a rack."""
    tilts = rack.tilts if tilts is None else tilts
    return blocks(solve_frames(rack, [bracing], tilts), bracing, tilts)


def models_of(rack: Rack, bracing: tuple[str, ...] = (), tilts=None) -> tuple[Block, ...]:
    """Every tilt of one bracing, at every corner for the code and at the medians."""
    tilts = rack.tilts if tilts is None else tilts
    return both_models(solve_frames(rack, [bracing], tilts), bracing, tilts)


@cache
def case_models(name: str, bracing: tuple[str, ...] = ()) -> tuple[Block, ...]:
    """Blocks of both models of one bracing of a case file, solved once a run."""
    return models_of(case(name), bracing)


@cache
def case_blocks(name: str, bracing: tuple[str, ...] = ()) -> tuple[Block, ...]:
    """Every tilt and corner of one bracing of a case file, solved once a run."""
    return split(case_models(name, bracing))[0]


def bare_and_all() -> list[tuple[str, tuple[str, ...]]]:
    """Every case file bare and with all its bracing; at length with every bracing."""
    return [(n, b) for n, b in every_bracing() if LONG or b in ((), case(n).bracing_names)]


def every_bracing() -> list[tuple[str, tuple[str, ...]]]:
    """Every case file with every bracing it describes."""
    return [(name, bracing) for name in CASES for bracing in case(name).bracings()]


def load(block: Block, name: str) -> int:
    """Position of a unit load of a block."""
    return block.frame.ideal.model.load_index[name]


def only(block: Block, **factors: float) -> np.ndarray:
    """Factors over the unit loads by name, spaces and commas as underscores; others nil."""
    names = [u.name for u in block.frame.ideal.model.unit_loads]
    plain = {n.replace(", ", "__").replace(" ", "_"): i for i, n in enumerate(names)}
    row = np.zeros(len(names))
    for name, value in factors.items():
        row[plain[name]] = value
    return row


WEIGHT = {"steel_weight": 1.0, "panel_weight": 1.0}


@dataclass(frozen=True)
class Sum:
    """Resultant of everything on a model about the origin at grade, worked out here."""

    force: np.ndarray
    moment: np.ndarray


def resultant(model, factors: np.ndarray) -> Sum:
    """Sum forces and moments about the origin of the unit loads under `factors` (L,)."""
    total = np.asarray(factors) @ applied(model)
    return Sum(total[:3], total[3:])


def pipe(size: pipes.PipeSize) -> Pipe:
    """A listed pipe of A53 B."""
    return Pipe(
        label=size.name, od=size.od, wall=size.wall, weight=size.weight, steel=steels.find("A53 B")
    )


def near(found, expected, slack: float) -> bool:
    """Whether two arrays differ by no more than `slack` of the larger one's largest size."""
    found, expected = np.asarray(found), np.asarray(expected)
    size = max(np.abs(found).max(initial=0), np.abs(expected).max(initial=0))
    return bool(np.abs(found - expected).max(initial=0) <= slack * size)


@st.composite
def a_pipe(draw, low: float, high: float) -> Pipe:
    """A standard pipe by outside diameter between `low` and `high` [in]."""
    fits = [
        p
        for p in pipes.pipes()
        if p.family == "standard pipe" and low * INCH <= p.od <= high * INCH
    ]
    return pipe(draw(st.sampled_from(fits)))


def number(low: float, high: float):
    """Numbers of the size met, without the oddities of the last digit."""
    return st.floats(low, high).map(lambda x: round(x, 3))


@st.composite
def racks(draw, *, posts: int | None = None, guyed: bool | None = None) -> Rack:
    """Racks that could be built, alike left and right, some or all kinds of bracing."""
    base = case("fifteen_lines")
    across, up = draw(st.integers(2, 6)), draw(st.integers(1, 3))
    width, gap = draw(number(0.6, 1.2)), draw(number(0.0, 0.05))
    panels = replace(
        base.panels,
        across=across,
        up=up,
        width=width,
        height=draw(number(1.0, 2.1)),
        weight=draw(number(120.0, 500.0)),
        gap=gap,
    )
    columns = panels.column_edges()
    positions = tuple(x + width * part for x, _ in columns for part in (0.25, 0.75))
    beam = replace(
        base.beam, pipe=draw(a_pipe(2.3, 4.6)), length=panels.spread + draw(number(0.0, 0.6))
    )
    count = posts or draw(st.integers(1, 4))
    spacing = draw(number(0.3, 0.9)) * beam.length / count
    footing = replace(
        base.posts.footing,
        depth=draw(number(0.8, 1.8)),
        hole=draw(number(0.25, 0.5)),
        backfill=draw(st.sampled_from(("concrete", "earth"))),
        ignored=draw(number(0.0, 0.3)),
    )
    stand = replace(
        base.posts,
        pipe=draw(a_pipe(3.4, 6.7)),
        height=draw(number(1.5, 2.6)),
        footing=footing,
        positions=tuple((i - (count - 1) / 2) * spacing for i in range(count)),
    )
    site = replace(
        base.site,
        map_gust=draw(number(38.0, 60.0)),
        exposure=draw(st.sampled_from("BCD")),
        soil=draw(st.sampled_from([s for s in soils.soils() if "rock" not in s.name])),
        flow=(draw(st.sampled_from(("clear", "obstructed"))),),
    )
    rack = replace(
        base,
        site=site,
        panels=panels,
        tilts=(draw(number(5, 45)) * DEGREE,),
        assumptions=(),
        posts=stand,
        beam=beam,
        rails=replace(base.rails, positions=positions, length=panels.chord),
    )
    return draw(braced(rack, guyed=guyed))


@st.composite
def braced(draw, rack: Rack, *, guyed: bool | None) -> Rack:
    """Some bracing for a rack."""
    room = 0.9 * min((*rack.arms, *(np.diff(rack.posts.positions) / 2)))
    when = st.sampled_from(("before", "after"))
    knees = Knees(
        pipe=draw(a_pipe(1.3, 2.4)),
        drop=draw(number(0.3, 0.5)) * rack.posts.height,
        reach=draw(number(0.4, max(0.4, room))),
        ends=draw(st.sampled_from(("pinned", "welded"))),
        fitted=draw(when),
    )
    ties = TieRails(
        channel=channels.channels()[0],
        at=draw(st.sampled_from((("lower",), ("upper",), ("lower", "upper")))),
        fitted=draw(when),
    )
    stays = Stays(
        pipe=draw(a_pipe(1.3, 2.4)),
        attach=draw(st.sampled_from(ATTACHMENTS)),
        out=draw(number(0.8, 2.0)),
        along=draw(number(0.0, 2.0)),
        fitted=draw(when),
    )
    lines = Guys(
        name="guys",
        attach=draw(st.sampled_from(ATTACHMENTS)),
        wire=draw(st.sampled_from(wires.wires())),
        out=draw(number(0.8, 2.5)),
        along=draw(number(0.3, 2.5)),
        pretension=draw(number(200.0, 2500.0)),
        anchor=draw(st.sampled_from(("deadman", "screw anchor", "pickets"))),
    )
    there = st.booleans() if guyed is None else st.just(guyed)
    return replace(
        rack,
        knees=knees if room >= 0.4 and draw(st.booleans()) else None,
        ties=ties if draw(st.booleans()) else None,
        stays=stays if not guyed and draw(st.booleans()) else None,
        guys=(lines,) if draw(there) else (),
    )
