"""What `rack draw` can draw, by name."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from matplotlib.figure import Figure

from frame.draw.elevation import AXIAL, MOMENTS, SHEAR
from frame.draw.gusts import gust_sheet
from frame.draw.ladders import ladder_sheet, plan_sheet
from frame.draw.moving import save_moving
from frame.draw.pulls import pull_sheet
from frame.draw.rack_sheet import force_sheet, space_sheet
from frame.draw.reaches import knee_sheet, reaches_of
from frame.draw.sheet import save
from frame.draw.two_panes import two_panes
from frame.errors import InputError, Problem
from frame.pictured.beside import Beside, of_bracing, of_plan
from frame.pictured.pulls import pulls
from frame.plan.decision import Decision, as_it_is, decide, with_bracing
from frame.plan.second_process import processes
from frame.rack.rack import Rack
from frame.records.going import Going
from frame.search.survey import survey
from frame.search.weakest import learned_of
from frame.solved.frames import Bracing
from frame.whatif.tilts import tilt_curves

MOVING = "moving"


@dataclass(frozen=True, kw_only=True)
class DrawingAsked:
    """What is asked for: the file's `text` and `name`, units; else as the first screen has it.

    `bracing` to set beside the rack as it is, in place of the plan; `tilts` [rad] in place of the
    file's; `gust` [m/s].
    """

    text: str
    name: str
    units: str | None = None
    bracing: Bracing | None = None
    tilts: tuple[float, ...] = ()
    gust: float | None = None

    @cached_property
    def rack(self) -> Rack:
        """The rack, with bracing of ours where the file describes none."""
        return with_bracing(self.text, self.name, self.units)[1]

    @property
    def system(self) -> str:
        """Units to write in."""
        return self.units or self.rack.units

    @cached_property
    def decision(self) -> Decision:
        """What the first screen says."""
        return decide(self.text, self.name, self.units, processes=processes(), ranged=False)

    @cached_property
    def beside(self) -> Beside:
        """The racks that stand beside each other."""
        if self.bracing is None:
            return of_plan(self.decision, self.gust, self.tilts)
        return of_bracing(self.rack, self.bracing, self.gust, self.tilts)


def draw(what: str, asked: DrawingAsked, path: Path) -> str:
    """Draw `what`, write it to `path`, and return what it shows, in words."""
    if what == MOVING:
        save_moving(asked.beside, path, asked.system)
        return _titles(asked.beside)
    make, needs_racks = FIGURES[what]
    save(make(asked), path)
    return _titles(asked.beside) if needs_racks else ""


def _titles(beside: Beside) -> str:
    return " beside ".join(one.title for one in beside.racks)


def _two_panes(asked: DrawingAsked) -> Figure:
    return two_panes(asked.beside, asked.system)


def _forces(what: str) -> Callable[[DrawingAsked], Figure]:
    return lambda asked: force_sheet(asked.beside, what, asked.system)


def _space(asked: DrawingAsked) -> Figure:
    return space_sheet(asked.beside, asked.system)


def _guys(asked: DrawingAsked) -> Figure:
    found = pulls(asked.beside)
    if found is None:
        why = f"{asked.beside.racks[-1].title}, the rack has no guys"
        raise InputError((Problem("--what guys", why, "name some with --bracing"),))
    return pull_sheet(found, asked.system)


def _knees(asked: DrawingAsked) -> Figure:
    found = reaches_of(asked.rack)
    if found is None:
        why = "the file describes no knees"
        raise InputError((Problem("--what knees", why, "describe them under [knees]"),))
    return knee_sheet(asked.rack, found, asked.system)


def _gusts(asked: DrawingAsked) -> Figure:
    rack, learned = asked.rack, learned_of(asked.rack)
    first = as_it_is(rack) if asked.bracing is None else asked.bracing
    others = [b for b in rack.bracings() if b != first and asked.bracing is None]
    curves = tilt_curves(rack, (first,), learned=learned)
    if others:
        curves = (*curves, *tilt_curves(rack, tuple(others), rack.tilts, learned))
    return gust_sheet(rack, curves, None, asked.system)


def _ladder(asked: DrawingAsked) -> Figure:
    ladders: list[tuple[str, list[Going]]] = []
    learned = learned_of(asked.rack)
    for one in asked.beside.racks:
        rows = survey(one.blocks, learned)
        ladders.append((one.title, [row.going for row in rows if row.going]))
    return ladder_sheet(asked.rack, ladders, asked.system)


def _plan(asked: DrawingAsked) -> Figure:
    # Here every step is drawn with its range, not the first and the last alone.
    found = decide(asked.text, asked.name, asked.units, processes=processes())
    return plan_sheet(found, asked.system)


FIGURES: dict[str, tuple[Callable[[DrawingAsked], Figure], bool]] = {
    "panes": (_two_panes, True),
    MOMENTS: (_forces(MOMENTS), True),
    SHEAR: (_forces(SHEAR), True),
    AXIAL: (_forces(AXIAL), True),
    "space": (_space, True),
    "guys": (_guys, True),
    "knees": (_knees, False),
    "gusts": (_gusts, False),
    "ladder": (_ladder, True),
    "plan": (_plan, False),
}
"""How each is drawn, and whether it shows racks beside each other."""
