"""What is asked of one rack beyond its file: another tilt, another gust."""

from dataclasses import replace

from frame.casefile.buildable.rack import check_rack
from frame.casefile.keys.fields import MOST
from frame.casefile.notes import Notes
from frame.errors import InputError, Problem
from frame.rack.rack import Rack
from frame.units import UnitError, parse

FIRST_TILT = "tilts[1]"


def at_tilt(rack: Rack, text: str) -> Rack:
    """Return the rack with the one tilt written in `text`, "35" or "35 deg", listed or not.

    Raises
    ------
    InputError
        Where it is no angle, or the rack cannot stand at it.
    """
    tilt = _read(f"{text} deg" if _is_number(text) else text, "angle", "--tilt")
    notes = Notes(rack.units)
    turned = replace(rack, tilts=(tilt,))
    check_rack(turned, notes)
    if notes.problems:
        at = [replace(p, where=p.where.replace(FIRST_TILT, "--tilt")) for p in notes.problems]
        raise InputError(tuple(at))
    return replace(turned, warnings=tuple(dict.fromkeys((*rack.warnings, *notes.warnings))))


def chosen_gust(text: str, *, still: bool = False) -> float:
    """3-second gust in open ground [m/s] written in `text`, as "78 mph"; nil only if `still`.

    Raises
    ------
    InputError
        Where it is no speed, not above nil, or higher than any storm.
    """
    most, most_words = MOST["speed"]
    gust = _read(text, "speed", "--gust")
    if not (0.0 < gust <= most or (still and gust == 0.0)):
        right = f"give a gust above nil and up to {most_words}"
        raise InputError((Problem("--gust", f'"{text}" is out of range', right),))
    return gust


def _read(text: str, kind: str, option: str) -> float:
    try:
        return parse(text, kind)
    except UnitError as error:
        raise InputError((Problem(option, error.what, error.right),)) from None


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
