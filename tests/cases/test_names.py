"""Names by which one part of the program finds another's checks are names of checks."""

import ast
import csv
from functools import cache
from pathlib import Path

import pytest

from frame.casefile.read import parse_rack
from frame.changes.ladder import SAG, SWAY
from frame.changes.offered import ladders
from frame.changes.stock import offer
from frame.parts.checkers import CHECKERS
from frame.search.searched import Search
from frame.search.stack import stacked
from frame.sizing.growth import plain
from frame.solved.frames import both_models, solve_frames
from frame.solved.situation import situation, whole_table
from tests.builders import path_of

PACKAGE = Path(__file__).parents[2] / "frame"
TABLES = PACKAGE / "tables" / "data"
PINNED = ('ends = "welded"', 'ends = "pinned"'), ("[rails]", "[rails]\ntilt_stops = 2")
RACKS = (
    ("boat_shed", ()),
    (
        "boat_shed",
        (('ends = "welded"', 'ends = "pinned"'), ("[rails]", "[rails]\ntilt_stops = 2")),
    ),
    ("hay_barn", ()),
    ("salvage_yard", ()),
    ("wash_house", ()),
)
"""Case files, some with swaps of text, that have every kind of part between them."""


def texts() -> list[tuple[str, str]]:
    found = []
    for name, swaps in RACKS:
        text = path_of(name).read_text("utf-8")
        for old, new in swaps:
            assert old in text
            text = text.replace(old, new)
        found.append((name, text))
    return found


@cache
def names_of_checks() -> frozenset[str]:
    """Every "part: check" at the first tilt of those racks, bare and with all bracing."""
    names: set[str] = set()
    for name, text in texts():
        rack = parse_rack(text, name)
        for bracing in (rack.bracings()[0], rack.bracings()[-1]):
            tilts = rack.tilts[:1]
            blocks = both_models(solve_frames(rack, [bracing], tilts), bracing, tilts)
            for block in (blocks[0], blocks[-1]):
                now = situation(block, whole_table(block), [20.0])
                used = Search.of([block], CHECKERS).used(stacked([now]))
                names |= {plain(f"{part}: {check}") for part, check in used}
    return frozenset(names)


def test_whatever_a_ladder_says_it_helps_is_a_check() -> None:
    helped = {
        (ladder.name, prefix)
        for name, text in texts()
        for rack in [parse_rack(text, name)]
        for bracing in (rack.bracings()[0], rack.bracings()[-1])
        for ladder in ladders(rack, bracing, offer(rack, text))
        for prefix in ladder.helps
    }
    known = names_of_checks()
    lost = {
        (ladder, prefix)
        for ladder, prefix in helped
        if prefix not in (SAG, SWAY) and not any(name.startswith(prefix) for name in known)
    }
    assert not lost


@pytest.mark.parametrize("table", ["check_words", "slip_cures", "storm_signs"])
def test_tables_of_words_are_of_checks_that_exist(table: str) -> None:
    """Every check that a table has words for, by its beginning, is named in the code."""
    written = {
        node.value
        for path in (*(PACKAGE / "checks").glob("*.py"), *(PACKAGE / "parts").glob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    with (TABLES / f"{table}.csv").open(encoding="utf-8") as file:
        told = {row["check"] for row in csv.DictReader(file)}
    assert not [name for name in told if not any(text.startswith(name) for text in written)]


def test_every_check_has_words_for_what_happens() -> None:
    with (TABLES / "check_words.csv").open(encoding="utf-8") as file:
        told = {row["check"] for row in csv.DictReader(file)}
    assert {name.partition(": ")[2] for name in names_of_checks()} <= told
