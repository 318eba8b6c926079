"""From a pipe as written in the file to a pipe with a wall, a weight and a steel."""

import math

from frame.casefile.keys.fields import NO_NUMBER
from frame.casefile.keys.pipes import PipeKeys
from frame.casefile.notes import Notes
from frame.errors import CatalogError
from frame.geometry.tube import Tube, wall_from_weight
from frame.rack.pipe import ERW_DESIGN_WALL, SOUND_WALL, Pipe
from frame.tables import pipes, steels

PITTED_WALL = 0.75
"""Share of the listed wall counted on in salvage nobody has measured, pits seen: judgement."""
FORMS = "write listed, or od and wall, or od and weight"


def build_pipe(notes: Notes, part: str, keys: str | PipeKeys, steel: str | None) -> Pipe:
    """Make the pipe of `part` ("post", "beam" ...); NaN sizes where the file is wrong."""
    if isinstance(keys, str):
        keys = PipeKeys.model_construct(listed=keys, rust=0.0)
        where = f"{part}.pipe"
    else:
        where = f"{part}.pipe.listed"
        if "rust" not in keys.model_fields_set:
            notes.assume(f"{part}.pipe.rust", "none", "pipe.rust")
    found = named_steel(notes, part, steel)
    if keys.listed is not None:
        pipe = listed(notes, where, keys, found)
    else:
        pipe = pipe_by_diameter(notes, f"{part}.pipe", keys, found)
    return checked(notes, f"{part}.pipe", pipe)


def named_steel(notes: Notes, part: str, name: str | None) -> steels.Steel:
    """Find the steel; a pipe nobody identified counts as unknown."""
    if name is None:
        steel = steels.find("unknown sound")
        shown = f"{steel.name}, yields at {notes.show(steel.fy, 'stress')}"
        notes.assume(f"{part}.steel", shown, f"{part.partition('[')[0]}.steel")
        return steel
    return notes.look_up(steels.find, f"{part}.steel", name, "unknown sound")


def listed(notes: Notes, where: str, keys: PipeKeys, steel: steels.Steel) -> Pipe:
    """Take a pipe from the catalog; only standard pipe is trusted to its listed wall."""
    if keys.od is not None or keys.wall is not None or keys.weight is not None:
        notes.wrong(where, "stands beside od, wall or weight", FORMS)
    if not keys.listed:
        return nameless(steel)
    try:
        size = pipes.find(keys.listed)
    except CatalogError as error:
        what, _, right = str(error).partition("; ")
        notes.wrong(where, what, right or "see `rack catalog pipe` for the names")
        return nameless(steel)
    factor = PITTED_WALL
    if keys.condition != "pitted":
        factor = ERW_DESIGN_WALL if size.family == "standard pipe" else SOUND_WALL
        if keys.condition is None and factor == SOUND_WALL:
            part = where.partition(".")[0]
            notes.assume(f"{part}.pipe.condition", "sound", "pipe.condition")
    return Pipe(
        label=size.name,
        od=size.od,
        wall=size.wall,
        weight=size.weight,
        steel=steel,
        wall_factor=factor,
        rust=keys.rust,
        fitted=keys.fitted or 0.0,
    )


def pipe_by_diameter(notes: Notes, where: str, keys: PipeKeys, steel: steels.Steel) -> Pipe:
    """Take a pipe by its diameter and its measured or weighed wall."""
    od, wall, weight = keys.od, keys.wall, keys.weight
    if od is None or (wall is None) == (weight is None):
        given = ", ".join(n for n in ("od", "wall", "weight") if getattr(keys, n) is not None)
        notes.wrong(where, f"has {given or 'no size'}", FORMS)
        return nameless(steel)
    metal = steels.material().unit_weight
    basis = "weighed" if wall is None else "measured"
    if wall is None and weight is not None:
        try:
            wall = wall_from_weight(od, weight, metal)
        except ValueError:
            solid = notes.show(Tube(od, od / 2).area * metal, "weight per length")
            text = f"{notes.show(weight, 'weight per length')} is more than a solid bar weighs"
            notes.wrong(f"{where}.weight", text, f"at {notes.show(od)} a solid bar is {solid}")
            return nameless(steel)
    assert wall is not None
    if wall > od / 2:
        right = f"a pipe of {notes.show(od)} has room for less than {notes.show(od / 2)}"
        notes.wrong(
            f"{where}.wall", f"{notes.show(wall, 'thickness')} does not fit in the pipe", right
        )
        return nameless(steel)
    if weight is None:
        weight = NO_NUMBER if math.isnan(wall + od) else Tube(od, wall).area * metal
    pitted = keys.condition == "pitted" and basis == "weighed"
    return Pipe(
        label=f"{notes.show(od)} x {notes.show(wall, 'thickness')}, {basis}",
        od=od,
        wall=wall,
        weight=weight,
        steel=steel,
        basis=basis,
        wall_factor=PITTED_WALL if pitted else ERW_DESIGN_WALL,
        rust=keys.rust,
        fitted=keys.fitted or 0.0,
    )


def checked(notes: Notes, where: str, pipe: Pipe) -> Pipe:
    """Refuse a pipe that rust has eaten through."""
    if pipe.fitted > pipe.od / 2:
        notes.wrong(f"{where}.fitted", "does not fit in the pipe", "run `rack diagnose` again")
    left = min(pipe.wall * pipe.wall_factor, pipe.fitted or math.inf)
    if pipe.rust >= left:
        rust, wall = (notes.show(size, "thickness") for size in (pipe.rust, left))
        text = f"{rust} eats through the {wall} of wall counted on"
        notes.wrong(f"{where}.rust", text, "use another pipe")
    return pipe


def nameless(steel: steels.Steel) -> Pipe:
    """Stand in for a pipe already reported as wrong."""
    return Pipe(label="?", od=NO_NUMBER, wall=NO_NUMBER, weight=NO_NUMBER, steel=steel)
