"""What commands find of case files and of random racks, each worked out once for all who ask."""

from functools import cache

import pytest
from matplotlib.figure import Figure

from frame.casefile.syntax import read_text
from frame.diagnosis import diagnosis
from frame.diagnosis.diagnosis import Diagnosis, diagnose
from frame.draw import rack_sheet, whats
from frame.draw.two_panes import two_panes
from frame.named.aim import Key
from frame.page import page
from frame.pictured.beside import Beside, of_bracing, of_plan
from frame.pictured.diagrams import Diagrams, diagrams
from frame.plan import decision, gusts, second_process
from frame.plan.decision import Decision, decide, side_by_side
from frame.plan.gusts import Gusts, gusts_of
from frame.rack.rack import Rack
from frame.records.results import Study
from frame.search.survey import CheckGusts, search
from frame.sizing import attempt
from frame.sizing.bench import Bench, ChosenRungs
from frame.sizing.growth import trim
from frame.sizing.size import Sized, size
from frame.solved.frames import Bracing
from frame.verdict import inspect as inspection
from frame.verdict.compare import compare
from frame.verdict.inspect import Inspection, inspect
from tests.builders import CASES, case, case_models, path_of
from tests.often import LONG
from tests.random_racks import random_file


def file_of(name: str) -> tuple[str, str]:
    """Text and name of a case file, or of the random one of a seed, as "random 7"."""
    if name.startswith("random "):
        return random_file(int(name.removeprefix("random ")))
    path = path_of(name)
    return read_text(path), path.name


EVERY_DAY = ("boat_shed", "wash_house", "fifteen_lines", "orchard_wall")
DECIDED = (*CASES, "hay_barn") if LONG else EVERY_DAY
"""Case files that are decided on: at length every one."""
LONG_PLANS = {"boat_shed.toml", "hay_barn.toml", "fifteen_lines.toml"}
"""Files whose every step takes long to solve again: ranges of steps are told of the others."""


@cache
def once(text: str, name: str, units: str | None) -> Decision:
    """What `rack compare` decides on a file, worked out once for all who ask."""
    return decide(text, name, units, ranged=name not in LONG_PLANS)


def decide_once(text: str, name: str, units: str | None = None, **_how: object) -> Decision:
    """Stand in for `decide`, however it is to go about it."""
    return once(text, name, units)


@cache
def beside_one_another(text: str, name: str, units: str | None) -> Study:
    """Every bracing of a file side by side, with the moves that lift the best."""
    return side_by_side(text, name, units)


@cache
def looked(rack: Rack, asked: tuple[str, ...] | None) -> Gusts:
    """What `rack gusts` finds, worked out once for its page, its picture and its JSON."""
    return gusts_of(rack, asked)


@cache
def inspected(rack: Rack, bracing: tuple[str, ...]) -> Inspection:
    """What `rack check` and `rack shop` find of one bracing."""
    return inspect(rack, bracing)


braced = cache(of_bracing)


def set_beside(
    rack: Rack, bracing: Bracing, gust: float | None = None, tilts: tuple[float, ...] = ()
) -> Beside:
    """Set a rack beside itself with a bracing."""
    return braced(rack, bracing, gust, tilts)


@cache
def diagnosed(text: str, name: str, units: str | None, plans: bool) -> Diagnosis:
    """What `rack diagnose` finds of a file with readings."""
    return diagnose(text, name, units, plans=plans)


def diagnose_once(
    text: str, name: str, units: str | None = None, *, plans: bool = True, **_how: object
) -> Diagnosis:
    """Stand in for `diagnose`."""
    return diagnosed(text, name, units, plans)


Trims = list[tuple[Bench, ChosenRungs]]


@cache
def sized_and_trimmed(text: str, bracing: tuple[str, ...] | None) -> tuple[Sized, Trims]:
    """What `rack size` makes of a file, whatever that is called, and what it trimmed to what."""
    trims: Trims = []

    def kept(bench: Bench, choice: ChosenRungs) -> ChosenRungs:
        trims.append((bench, trim(bench, choice)))
        return trims[-1][1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(attempt, "trim", kept)
        return size(text, "sized.toml", bracing), trims


def sized(text: str, bracing: tuple[str, ...] | None) -> Sized:
    """What `rack size` makes of a file."""
    return sized_and_trimmed(text, bracing)[0]


def size_once(text: str, _: str, bracing: tuple[str, ...] | None, *__: object, catalog: bool):
    """Stand in for `size_beside_plan`, asked without the catalog: without the plan."""
    assert not catalog
    return sized(text, bracing)


def side_by_side_once(text: str, name: str, units: str | None = None) -> Study:
    """Stand in for `side_by_side`."""
    return beside_one_another(text, name, units)


def share(patch: pytest.MonkeyPatch) -> None:
    """Let commands take what they find from here, and work in this process alone."""
    patch.setattr(gusts, "gusts_of", looked)
    patch.setattr(diagnosis, "diagnose", diagnose_once)
    patch.setattr(inspection, "inspect", inspected)
    patch.setattr(decision, "size_beside_plan", size_once)
    patch.setattr(rack_sheet, "diagrams", diagrams_once)
    patch.setattr(whats, "of_bracing", set_beside)
    for module in (decision, whats):
        patch.setattr(module, "decide", decide_once)
    patch.setattr(decision, "side_by_side", side_by_side_once)
    for module in (second_process, whats, page):
        patch.setattr(module, "processes", lambda: 1)


@cache
def studied(name: str) -> Study:
    """Every bracing of a case file side by side."""
    return compare(case(name))


def decided(name: str) -> Decision:
    """What `rack compare` decides on a case file or a random one."""
    return once(*file_of(name), None)


@cache
def beside(name: str) -> Beside:
    """Set the rack of a file beside what its plan ends with."""
    return of_plan(decided(name))


@cache
def panes(name: str) -> Figure:
    """Draw them in two panes."""
    return two_panes(beside(name), decided(name).rack.units)


DIAGRAMS: dict[int, tuple[Beside, Diagrams]] = {}
"""Diagrams by what is shown, which is kept as long as they are."""


def diagrams_once(shown: Beside) -> Diagrams:
    """Stand in for `diagrams`: solved once for moments, shear and axial forces."""
    if id(shown) not in DIAGRAMS:
        DIAGRAMS[id(shown)] = shown, diagrams(shown)
    return DIAGRAMS[id(shown)][1]


@cache
def searched(name: str, bracing: tuple[str, ...]) -> dict[Key, CheckGusts]:
    """Gusts of every check of one bracing of a case file, by the search of every row."""
    return search(case_models(name, bracing))
