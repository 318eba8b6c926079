"""Every part and every check of racks that have all kinds between them is told by its ids."""

from functools import cache

import pytest

from frame.casefile.read import parse_rack
from frame.changes.offered import all_series
from frame.changes.stock import supply
from frame.named.aim import Aim, Key, helped
from frame.named.limit_state import LimitState, Movement
from frame.named.part import Part, PartKind
from frame.search.searched import Search
from frame.search.stack import stacked
from frame.solved.blocks import both_models
from frame.solved.frames import solve_frames
from frame.solved.situation import situation, whole_table
from frame.tables.limit_states import by_limit_state
from tests.builders import path_of

Swaps = tuple[tuple[str, str], ...]
PINNED: Swaps = (('ends = "welded"', 'ends = "pinned"'), ("[rails]", "[rails]\ntilt_stops = 2"))
STAYED: Swaps = (
    (
        'length = "5.4 m"\n',
        """length = "5.4 m"
splices = ["0 m"]
[stays]
from = "rail corners"
pipe = { od = "48.3 mm", wall = "3.6 mm" }
out = "1.2 m"
along = "0.8 m"
""",
    ),
)
RACKS: tuple[tuple[str, Swaps], ...] = (
    ("boat_shed", ()),
    ("boat_shed", PINNED),
    ("hay_barn", ()),
    ("salvage_yard", ()),
    ("wash_house", STAYED),
    ("wash_house", (*STAYED, ('from = "rail corners"', 'from = "beam ends"'))),
)
"""Case files, some with swaps of text, that have every kind of part between them."""


@cache
def texts() -> tuple[tuple[str, str], ...]:
    found = []
    for name, swaps in RACKS:
        text = path_of(name).read_text("utf-8")
        for old, new in swaps:
            assert old in text
            text = text.replace(old, new)
        found.append((name, text))
    return tuple(found)


@cache
def keys() -> frozenset[Key]:
    """Every check at the first tilt of those racks, bare and with all bracing, by either model."""
    found: set[Key] = set()
    for name, text in texts():
        rack = parse_rack(text, name)
        for bracing in (rack.bracings()[0], rack.bracings()[-1]):
            tilts = rack.tilts[:1]
            blocks = both_models(solve_frames(rack, [bracing], tilts), bracing, tilts)
            for block in (blocks[0], blocks[-1]):
                now = situation(block, whole_table(block), [20.0])
                found |= set(Search.of([block]).used(stacked([now])))
    return frozenset(found)


def ids(part: Part) -> tuple[object, ...]:
    at = ids(part.at) if isinstance(part.at, Part) else part.at
    return part.kind, part.number, part.edge, part.side, part.group, part.on, at


def test_ids_are_types_not_texts() -> None:
    assert all(isinstance(part, Part) and isinstance(state, LimitState) for part, state in keys())


def test_no_two_parts_print_alike() -> None:
    """Texts and ids are one to one, so that what is printed of a part can be asked for again."""
    parts = {part for part, _ in keys()}
    assert len({ids(part) for part in parts}) == len({str(part) for part in parts}) == len(parts)


def test_parts_of_the_frame_are_those_of_the_checks() -> None:
    """Whatever steel a check names is a member of the frame, and each kind of steel is checked."""
    for name, text in texts():
        rack = parse_rack(text, name)
        bracing = rack.bracings()[-1]
        frame = next(iter(solve_frames(rack, [bracing], rack.tilts[:1]).values()))
        made = {m.part for m in frame.ideal.model.members}
        assert {m.part.kind for m in frame.ideal.model.members} <= {
            part.kind for part, _ in keys()
        }
        steel = {p.kind for p in made} - {PartKind.RAIL}
        mine = [p for p, _ in keys() if p.kind in steel]
        assert made - {p for p in made if p.kind is PartKind.RAIL} <= set(mine)


def test_whatever_a_ladder_helps_is_a_check() -> None:
    lost = [
        (series.name, aim)
        for name, text in texts()
        for rack in [parse_rack(text, name)]
        for bracing in (rack.bracings()[0], rack.bracings()[-1])
        for series in all_series(rack, bracing, supply(rack, text))
        for aim in series.helps
        if isinstance(aim, Aim) and not any(aim.meets(*key) for key in keys())
    ]
    assert not lost


@pytest.mark.parametrize(
    ("series", "helps", "spares"),
    [
        ("beam pipe", {"beam", "wall", "weld"}, {"guy", "anchor", "post", "lug"}),
        ("post pipe", {"post", "wall", "weld"}, {"guy", "anchor", "beam"}),
        ("U-bolts", {"U-bolt"}, {"rail", "panel clamp"}),
        ("welds leg", {"weld"}, {"lug", "wall"}),
    ],
)
def test_a_ladder_helps_the_kinds_it_is_for(
    series: str, helps: set[str], spares: set[str]
) -> None:
    """Bigger pipe does nothing for a guy's wire, though "beam-end guy" begins with "beam"."""
    text = dict(texts())["salvage_yard"]
    rack = parse_rack(text, "yard")
    made = all_series(rack, rack.bracings()[-1], supply(rack, text))
    one = next(found for found in made if found.name == series)
    met = {str(key[0].kind) for key in keys() if helped(one.helps, key)}
    assert helps <= met
    assert not spares & met


def test_sag_and_sway_are_helped_by_what_says_so() -> None:
    text = dict(texts())["boat_shed"]
    rack = parse_rack(text, "shed")
    made = all_series(rack, rack.bracings()[-1], supply(rack, text))
    stiffer = {m: {x.name for x in made if helped(x.helps, m)} for m in Movement}
    assert {"beam pipe", "beam steel"} & stiffer[Movement.SAG]
    assert {"post pipe", "post depth"} & stiffer[Movement.SWAY]


@pytest.mark.parametrize("table", ["check_words", "storm_signs"])
def test_every_check_has_its_words(table: str) -> None:
    assert {state for _, state in keys()} <= set(by_limit_state(table))


@pytest.mark.parametrize("table", ["check_words", "slip_cures", "storm_signs"])
def test_tables_of_words_name_limit_states_once(table: str) -> None:
    """The reader raises where a name is none, or is told twice."""
    assert by_limit_state(table)
