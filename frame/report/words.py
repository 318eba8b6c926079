"""Words a builder uses, for numbers and names the study finds."""

import math
import re
from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from frame.loads.cases import WindCase
from frame.loads.wording import BACK, EVEN, FRONT
from frame.rack.rack import BARE
from frame.units import DEG, show, show_no_more

CAUTIONS = (
    "An estimate from the numbers in the file, not a permit: local codes decide.",
    "People stand under this. Have a licensed engineer look at it before you weld or load it.",
)
TOO_MUCH = 10.0
"""Use beyond which the number itself says nothing [1]."""
FAR, HOPELESS = 1e2, 1e3
"""Uses past which a demand is not told any more, and that only a rack which topples has [1]."""
STILL = 0.5
"""Gust below which the air is called still [m/s]."""
ALIKE = 1e-3
"""Relative difference up to which two mirrored parts are told together."""
_SHORTER = {
    " (weight and the code's wind)": "",
    " (weight and a worker)": "",
    " (the code's wind, only six tenths of the weight holding it down)": ", weight counted light",
}
LIGHT = '"Weight counted light": only six tenths of it is taken to hold the rack down.'
CHORD_WALL = '"Chord wall": the wall of the pipe that the other one is welded onto.'
NOT_ALIKE = (
    "Margin is a mapped gust, of which the code counts six tenths of the pressure and keeps a "
    "safety factor; the others are real gusts, counted whole, without one. Do not compare them."
)
ABOUT = (
    '"About": as likely to come before as after. In brackets: of ten racks like it, one goes '
    "before the low gust and one stands past the high one."
)
PANELS_OFF = (
    "Panels off, or laid low, before: the low end of what tilts or breaks. What only turns or "
    "leans leaves the rack standing."
)
ALONG, ACROSS = "along the beam", {FRONT: "in the face", BACK: "from behind"}
Listed = TypeVar("Listed")


def percent(use: float) -> str:
    """Return a use as part of what can be taken: "59 %"; anything over reads at least 101 %."""
    if math.isnan(use):
        return "not covered"
    if use > TOO_MUCH:
        return "over 10 times"
    whole = round(100 * use)
    if use > 1:
        whole = max(whole, 101)
    return f"{whole} %" if whole or not use else "under 1 %"


def use_words(use: float) -> str:
    """Return a use as a sentence: "uses 59 % of what it can take"."""
    if math.isnan(use):
        return "is not covered"
    return f"uses {percent(use)} {'' if use > TOO_MUCH else 'of '}what it can take"


def difference_words(part: float) -> str:
    """Return how far two solvers are apart, as a percentage with one figure."""
    share = 100 * part
    if share < 1e-6:
        return "0 %"
    return f"{share:.{max(0, -math.floor(math.log10(share)))}f} %"


def tilt(angle: float) -> str:
    """Return a tilt [rad] in whole or half degrees."""
    return f"{round(angle / DEG, 1):g} deg"


def wind(words: str) -> str:
    """Return a case in fewer words; what is left out goes without saying."""
    for long, short in _SHORTER.items():
        words = words.replace(long, short)
    return words


def when(words: str, angle: float, decided_by: str = "") -> str:
    """Return a case, its tilt [rad] and what is not known but makes it worse, in one line."""
    line = f"{wind(words)}; tilt {tilt(angle)}"
    return f"{line}; worse with {decided_by}" if decided_by else line


def gust_rounded_down(speed: float | None, system: str) -> str:
    """Return a gust [m/s], never more than it is; None is one beyond all that were looked at."""
    if speed is None:
        return "none reaches it"
    return show_no_more(speed, "speed", system) if speed >= STILL else "still air"


def movement_words(value: float, system: str) -> str:
    """Return a small length [m]: inches and hundredths, or millimetres and tenths."""
    return show(value, "movement", system)


def title_in_sentence(title: str) -> str:
    """Return the title of a bracing inside a sentence: bare is "the bare rack"."""
    return "the bare rack" if title == BARE else title


def joined_names(names: Sequence[str]) -> str:
    """Join names of parts: "knee, left" and "knee, right" to "knee, left and right"."""
    stems = {name.partition(", ")[0] for name in names}
    if len(names) > 1 and len(stems) == 1 and all(", " in name for name in names):
        rest = [name.partition(", ")[2] for name in names]
        return f"{stems.pop()}, {' and '.join(rest)}"
    return " and ".join(names)


def own_side(words: str, name: str) -> str:
    """Turn left and right into the part's own side and the other one, so that pairs read alike."""
    for side, other in (("left", "right"), ("right", "left")):
        if re.search(rf"\b{side}\b", name):
            words = words.replace(f"on the {side} half", "on its own half")
            words = words.replace(f"on the {other} half", "on the other half")
            words = words.replace(f"beam end {side}", "beam end on its own side")
            words = words.replace(f"beam end {other}", "beam end on the other side")
            words = words.replace(f"from the {side}", "from its own side")
            return words.replace(f"from the {other}", "from the other side")
    return words


def gather_alike(
    items: Iterable[Listed], tell: Callable[[Listed], tuple[object, ...]]
) -> dict[tuple[object, ...], list[Listed]]:
    """Gather items of which the same is told, in the order of their first."""
    found: dict[tuple[object, ...], list[Listed]] = {}
    for item in items:
        found.setdefault(tell(item), []).append(item)
    return found


def rounded(*values: float) -> tuple[float, ...]:
    """Round numbers so that mirrored parts come out equal."""
    figures = -math.floor(math.log10(ALIKE))
    return tuple(float(f"{v:.{figures}g}") for v in values)


def slack_winds(winds: Iterable[WindCase], name: str) -> str:
    """Tell the winds in which a guy hangs slack: by direction, then by half."""
    found: dict[str, set[str]] = {}
    for one in winds:
        half = "" if one.side == EVEN else f"gust on the {one.side} half"
        blows = ACROSS.get(one.direction, ALONG)
        half = f"from the {one.direction}" if blows == ALONG else half
        found.setdefault(blows, set()).add(own_side(half, name))
    told = []
    for direction in sorted(found):
        parts = found[direction]
        whole = "" in parts or len(parts) > 1
        told.append(direction if whole else f"{direction}, {parts.pop()}")
    return "; ".join(told) or "never"
