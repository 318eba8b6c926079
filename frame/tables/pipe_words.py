"""Take the words of a pipe's name apart: size, schedule, family, weight."""

import re
from dataclasses import dataclass
from fractions import Fraction

from frame.units import INCH, MM
from frame.units.parse import plain_number, plain_text

DN_TO_NOMINAL = {
    "25": "1",
    "32": "1-1/4",
    "40": "1-1/2",
    "50": "2",
    "65": "2-1/2",
    "80": "3",
    "90": "3-1/2",
    "100": "4",
    "125": "5",
    "150": "6",
    "200": "8",
    "250": "10",
}
"""Nominal sizes in mm and in inches, ASME B36.10M and ISO 6708."""

EXTRA_STRONG = {"10": "60"}
"""Schedule whose wall is extra strong (1/2 in.), by nominal size; 80 if not here. ASME B36.10M."""

_NUMBER = r"[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.?[0-9]+"
_DN = re.compile(r"\bdn ?([0-9]+)\b")
_SCHEDULE = re.compile(r"\bsch(?:edule|ed)?\.?[ -]?([0-9]+s?)\b")
_STRONG = re.compile(r"\b(?:xs|xh|(?:extra|x)[ -](?:strong|heavy))\b")
_STANDARD = re.compile(r"\b(?:standard|std\.?)(?: (?:weight|wall|wt))?(?![a-z])")
_NOMINAL = re.compile(r"\b(?:nominal|nom|nps|ips)\b\.?")
_OUTSIDE = re.compile(r"\bo\.?d\b\.?|\bouts?ide(?: dia(?:meter|\.)?)?|\bacross\b")
_FAMILY = re.compile(r"\b(tubing|casing)\b")
_WEIGHT = re.compile(
    rf"({_NUMBER}) ?(?:#|ppf\b|(?:lbs?|pounds?)\.?(?: ?(?:/|per) ?(?:ft|foot)\b)?)"
)
_MILLIMETRES = re.compile(rf"({_NUMBER}) ?mm\b")
_SIZE = re.compile(_NUMBER)
_FILLERS = re.compile(
    r"\b(?:in|inch|inches|pipe|steel|size|api|oilfield|oil-field)\b\.?|[\"'#,()]"
)


@dataclass(frozen=True, slots=True)
class PipeWords:
    """What a pipe's name says.

    `size` in inches as listed ("3-1/2"; decimals if it is no sixteenth), `od` the same as a length
    [m], `weight` as written [lb/ft] or 0, `schedule` "" if none is given, `metric` if the size was
    a DN, `unknown` if any word is left over.
    """

    size: str
    od: float
    nominal: bool
    outside: bool
    metric: bool
    family: str
    schedule: str
    weight: float
    unknown: bool


def read_words(text: str) -> PipeWords:
    """Take a pipe's name apart, in any order of words and any spelling of fractions."""
    rest, dn = _take(_DN, plain_text(text))
    rest, schedule = _take(_SCHEDULE, rest)
    rest, strong = _take(_STRONG, rest)
    rest, standard = _take(_STANDARD, rest)
    rest, nominal = _take(_NOMINAL, rest)
    rest, outside = _take(_OUTSIDE, rest)
    rest, family = _take(_FAMILY, rest)
    rest, weight = _take(_WEIGHT, rest)
    rest, millimetres = _take(_MILLIMETRES, rest)
    rest, size = ("", "") if dn or millimetres else _take(_SIZE, rest)
    if family and not weight:
        rest, weight = _take(_SIZE, rest)
    inches = _inches(DN_TO_NOMINAL.get(dn, "") if dn else size, millimetres)
    listed = _listed(inches)
    extra = EXTRA_STRONG.get(listed, "80") if strong else ""
    schedules = {word for word in (schedule, extra, standard and "40") if word}
    return PipeWords(
        size=listed,
        od=inches * INCH,
        nominal=bool(nominal or dn),
        outside=bool(outside),
        metric=bool(dn),
        family=family,
        schedule=" and ".join(sorted(schedules)),
        weight=_value(weight),
        unknown=bool(_FILLERS.sub(" ", rest).strip(" -.")),
    )


def _take(pattern: re.Pattern[str], text: str) -> tuple[str, str]:
    """Return `text` without the first match, and the match (its group if it has one)."""
    found = pattern.search(text)
    if not found:
        return text, ""
    rest = f"{text[: found.start()]} {text[found.end() :]}"
    return rest, found[pattern.groups]


def _value(text: str) -> float:
    """Return a number as written; 0 for none and for a fraction that is none."""
    try:
        return plain_number(text) if text else 0.0
    except ValueError:
        return 0.0


def _inches(size: str, millimetres: str) -> float:
    return _value(millimetres) * MM / INCH if millimetres else _value(size)


def _listed(inches: float) -> str:
    """Return a size as the tables write it: "3-1/2" for 3.5."""
    whole, part = divmod(Fraction(inches).limit_denominator(10**6), 1)
    if part.denominator > 16:
        return f"{inches:.4g}"
    if not part:
        return str(whole) if whole else ""
    return f"{whole}-{part}" if whole else str(part)
