"""From the section of a file on the gust a rack has stood to what is known of it."""

from collections.abc import Sequence
from difflib import get_close_matches

from frame.casefile.keys.rack import StoodKeys
from frame.casefile.notes import Notes
from frame.rack.stood import Stood
from frame.units import parse

STEEPEST = "60 deg"


def build_stood(notes: Notes, keys: StoodKeys | None, bracings: tuple[str, ...]) -> Stood | None:
    """Make what the rack has stood; `bracings` are the names it may have been fitted with."""
    if keys is None:
        return None
    if keys.fitted is None and bracings:
        notes.assume("stood.fitted", "none, the rack was bare")
    if keys.tilt < 0 or keys.tilt > parse(STEEPEST, "angle") + 1e-9:
        right = f"give the tilt in that gust, from 0 deg (flat) to {STEEPEST}"
        notes.wrong("stood.tilt", f"{notes.show(keys.tilt, 'angle')} is out of range", right)
    return Stood(
        gust=keys.gust,
        tilt=keys.tilt,
        fitted=bracings_named(notes, "stood.fitted", keys.fitted or (), bracings),
        panels_on=keys.panels == "on",
        moved=keys.moved,
    )


def bracings_named(
    notes: Notes, where: str, names: Sequence[str], bracings: tuple[str, ...]
) -> tuple[str, ...]:
    """Return the bracings meant by some `names` of the file; what is none of them is noted."""
    known = {name.lower(): name for name in bracings}
    fitted = []
    for number, name in enumerate(names, 1):
        if name.lower() in known:
            fitted.append(known[name.lower()])
        elif name:
            what = f'"{name}" is no bracing of this file'
            notes.wrong(f"{where}[{number}]", what, _right(name, known))
    return tuple(name for name in bracings if name in fitted)


def _right(name: str, known: dict[str, str]) -> str:
    if not known:
        return "describe it in a section of its own, or leave fitted out if the rack was bare"
    near = get_close_matches(name.lower(), known, 1, 0.5)
    nearest = f'the nearest is "{known[near[0]]}"; ' if near else ""
    return f"{nearest}described here: {', '.join(known.values())}"
