"""From the section of a file on what was read off the rack to the readings."""

from frame.casefile.assemble.stood import STEEPEST, bracings_named
from frame.casefile.keys.measured import MeasuredKeys, Told
from frame.casefile.notes import Notes
from frame.rack.measured import Measured, Reading
from frame.rack.rack import Rack
from frame.tables.readings import reading_kinds, tools
from frame.units import parse


def build_measured(notes: Notes, keys: MeasuredKeys | None, rack: Rack) -> Measured | None:
    """Make the readings of `rack`; None where the file has none."""
    if keys is None:
        return None
    if keys.fitted is None and rack.bracing_names:
        notes.assume("measured.fitted", "none, the rack was bare")
    told = {name: getattr(keys, name) for name in reading_kinds()}
    readings = tuple(_reading(name, one) for name, one in told.items() if isinstance(one, Told))
    _judge(notes, keys, readings, rack)
    height = rack.posts.height
    lean = [r.key for r in readings if r.key.startswith("lean")]
    if keys.pull_height is None and keys.pull is not None:
        notes.assume("measured.pull_height", f"{notes.show(height)}, the beam's")
    if keys.lean_height is None and lean:
        notes.assume("measured.lean_height", f"{notes.show(height)}, the beam's")
    if keys.tilt is None and rack.tilts:
        notes.assume("measured.tilt", notes.show(rack.tilts[0], "angle"))
    return Measured(
        readings=readings,
        fitted=bracings_named(notes, "measured.fitted", keys.fitted or (), rack.bracing_names),
        tilt=rack.tilts[0] if keys.tilt is None and rack.tilts else keys.tilt or 0.0,
        pull=keys.pull or 0.0,
        pull_height=height if keys.pull_height is None else keys.pull_height,
        pull_way=keys.pull_way,
        push=keys.push or 0.0,
        press=keys.press or 0.0,
        scale_within=keys.scale_within,
        lean_height=height if keys.lean_height is None else keys.lean_height,
        shakes_way=keys.shakes_way,
    )


def _reading(name: str, told: Told) -> Reading:
    tool = tools()[told.tool]
    within = tool.within if told.within is None else told.within
    return Reading(key=name, value=told.value, within=within, tool=tool.name)


def _judge(notes: Notes, keys: MeasuredKeys, readings: tuple[Reading, ...], rack: Rack) -> None:
    """Note readings that say nothing as they stand."""
    for reading in readings:
        needs = reading_kinds()[reading.key].needs
        if needs and reading.value is not None and getattr(keys, needs) is None:
            right = f'add {needs} = "...", the force by the scale, as "40 lb"'
            notes.wrong(f"measured.{reading.key}", "stands without its force", right)
        if reading.key == "guy_pull" and not rack.guys:
            right = "describe the guys in a section [[guys]], or leave it out"
            notes.wrong("measured.guy_pull", "is given, but the file has no guys", right)
    if keys.tilt is not None and not 0 <= keys.tilt <= parse(STEEPEST, "angle") + 1e-9:
        right = f"give the tilt on that day, from 0 deg (flat) to {STEEPEST}"
        notes.wrong("measured.tilt", f"{notes.show(keys.tilt, 'angle')} is out of range", right)
    for name in ("pull_height", "lean_height"):
        height = getattr(keys, name)
        if height is not None and height > rack.posts.height:
            right = f"the beam is {notes.show(rack.posts.height)} above grade"
            notes.wrong(f"measured.{name}", f"{notes.show(height)} is above the beam", right)
