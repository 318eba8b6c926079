"""Sheets of a rack as it is beside what it becomes: forces by planes, or the whole in space."""

from matplotlib.figure import Figure

from frame.draw.sheet import bracing_sheet
from frame.draw.view import diagram_view, space_view
from frame.pictured.beside import Beside, Shown
from frame.pictured.diagrams import Diagrammed, diagrams
from frame.plan.gone import TOPPLES
from frame.plan.phrases import gust
from frame.units import show


def force_sheet(beside: Beside, what: str, system: str) -> Figure:
    """Sheet of "moments", "shear" or "axial" forces; values in `system`, "us" or "metric"."""
    found = diagrams(beside)
    views = tuple(diagram_view(d, _as_if(d.gone), what, system) for d in (found.left, found.right))
    words = found.words[0].upper() + found.words[1:]
    tilt = show(found.tilt, "angle", system)
    parts = [f"{words}, {_blowing(beside, system)}", f"tilt {tilt}"]
    case = "; ".join([*parts, found.ground] if found.ground else parts) + "."
    return bracing_sheet(_heading(found.rack.name, found.left, found.right), case, views, what)


def space_sheet(beside: Beside, system: str) -> Figure:
    """Sheet of the whole rack in space, each in the wind that moves its top most."""
    racks = beside.racks
    views = tuple(space_view(one, _moves(one, system), system) for one in racks)
    case = f"{_blowing(beside, system)[0].upper()}{_blowing(beside, system)[1:]}."
    return bracing_sheet(_heading(beside.rack.name, racks[0], racks[-1]), case, views)


def _heading(name: str, left: Shown | Diagrammed, right: Shown | Diagrammed) -> str:
    return f"{name}: {left.title}" + (f" and {right.title}" if right is not left else "")


def _blowing(beside: Beside, system: str) -> str:
    return f"in a gust of {gust(beside.gust, system)}, {beside.why}"


def _as_if(gone: str) -> str:
    if not gone:
        return ""
    why = "it topples" if gone == TOPPLES else "something has broken already"
    return f"In this gust {why}: drawn as if it held."


def _moves(one: Shown, system: str) -> str:
    tilt = show(one.wind.block.frame.ideal.tilt, "angle", system)
    said = f"Tilt {tilt}, {one.sway.words}."
    if one.gone:
        why = "topples" if one.gone == TOPPLES else "has broken already"
        return f"{said} In this gust it {why}: drawn at rest."
    return f"{said} The post top moves {show(one.sway.top, 'movement', system)} sideways."
