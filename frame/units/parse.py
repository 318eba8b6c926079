"""Read a quantity as a builder writes it."""

import math
import re
import unicodedata
from typing import Literal, overload

from frame.units.factors import EXAMPLES, FT, INCH, SPELLINGS, UNITS

LONGEST = 60
_FRACTION = r"[0-9]+/[0-9]+"
_DECIMAL = r"(?:(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)(?:\.[0-9]*)?|\.[0-9]+)(?:e[+-]?[0-9]+)?"
_NUMBER = rf"[0-9]+(?: -?|-){_FRACTION}|{_FRACTION}|{_DECIMAL}"
_QUANTITY = re.compile(rf"([+-]?) ?({_NUMBER})(?: ?([a-z\"'].*))?")
_BARE = re.compile(rf"[+-]? ?(?:{_NUMBER})")
_FEET_AND_INCHES = re.compile(
    rf"([+-]?) ?({_NUMBER}) ?(?:ft\.?|feet|foot|') ?-? ?({_NUMBER}) ?(?:ins?\.?|inch|inches|\")"
)
_FEET_AND_NUMBER = re.compile(rf"([+-]? ?(?:{_NUMBER}) ?(?:ft\.?|feet|foot|')) ?-? ?({_NUMBER})")
_TWO_VALUES = re.compile(
    rf"((?:{_NUMBER})(?: ?[a-z\"'][^-]*?)?) ?(?:-|\bto\b|\bor\b) ?((?:{_NUMBER}) ?[a-z\"'].*)"
)
_BETWEEN = re.compile(r" ?(?:x|\*| by ) ?")
_UNIT_WORD = re.compile(r"[a-z]+[0-9]?|[\"'/]")
_NOISE = re.compile(r"[ .*^-]+")
_DASHES = dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-")
_MARKS = {"\u00b0": " deg", "\u00ba": " deg", "\u00d7": " x ", "\u00b7": " ", "\u22c5": " "}
_QUOTES = {**dict.fromkeys("\u2018\u2019\u2032", "'"), **dict.fromkeys("\u201c\u201d\u2033", '"')}
_TIDY = str.maketrans({**_DASHES, **_MARKS, **_QUOTES})


class UnitError(ValueError):
    """A quantity cannot be read; the text says what is wrong and what would be right."""

    @property
    def what(self) -> str:
        """What is wrong."""
        return str(self).partition("; ")[0]

    @property
    def right(self) -> str:
        """What would be right."""
        return str(self).partition("; ")[2]


class TwoValuesError(UnitError):
    """Two values stand where one belongs; `both` are they in SI, as written."""

    def __init__(self, message: str, both: tuple[float, float]) -> None:
        self.both = both
        super().__init__(message)


@overload
def parse(text: object, kind: Literal["size"]) -> tuple[float, float]: ...  # type: ignore[overload-overlap]
@overload
def parse(text: object, kind: str) -> float: ...
def parse(text: object, kind: str) -> float | tuple[float, float]:
    """Return the quantity `text` in SI.

    `kind` is "length" [m], "weight" [N, a part's weight: pounds, kilograms or newtons], "force"
    [N], "speed" [m/s], "pressure" or "stress" [Pa], "weight per length" [N/m], "torque" [N m],
    "angle" [rad] or "size" [two lengths, m]. Signs are kept; the caller rules on them.

    Raises
    ------
    UnitError
        With one clear message, for anything that is not a finite number and a unit of that kind.
    """
    if isinstance(text, bool) or not isinstance(text, (str, int, float)):
        raise UnitError(f"{_quote(text)} is not {_a(kind)}; {_right(kind)}")
    if not isinstance(text, str):
        raise UnitError(f"{text} has no unit; {_right(kind)}")
    tidy = plain_text(text)
    if not tidy:
        raise UnitError(f"nothing is written here; {_right(kind)}")
    if len(tidy) > LONGEST:
        raise UnitError(f"{_quote(text)} is too long for {_a(kind)}; {_right(kind)}")
    return _size(text, tidy) if kind == "size" else _quantity(text, tidy, kind)


def plain_text(text: str) -> str:
    """Lower-case `text` with plain quotes, dashes, fractions and single spaces."""
    plain = re.sub(r"(?<=[0-9])[ -]?(?=[\u00bc-\u00be\u2150-\u215e])", " ", text)
    plain = unicodedata.normalize("NFKC", plain.translate(_TIDY)).translate(_TIDY)
    plain = plain.replace("\u2044", "/").replace("''", '"').casefold()
    return " ".join(plain.split())


def plain_number(text: str) -> float:
    """Value of a tidied decimal, fraction or mixed number ("2-1/2"); ValueError if it is none."""
    if not re.fullmatch(_NUMBER, text):
        raise ValueError(f"{text!r} is not a number")
    if "/" not in text:
        return float(text.replace(",", ""))
    *whole, top, bottom = (int(part) for part in re.split(r"[ /-]+", text))
    if not bottom:
        raise ValueError("a fraction cannot be over 0")
    if whole and top >= bottom:
        raise ValueError(f"the fraction {top}/{bottom} after {whole[0]} is not less than 1")
    return sum(whole) + top / bottom


def _quantity(text: str, tidy: str, kind: str) -> float:
    """Return one number with its unit."""
    if kind == "length" and (both := _FEET_AND_INCHES.fullmatch(tidy)):
        return _feet_and_inches(text, *both.groups())
    found = _QUANTITY.fullmatch(tidy)
    if not found or not found[3] or _spelled(found[3]) not in UNITS[kind]:
        _half_written(text, tidy, kind)
    if not found:
        comma = re.search(r"[0-9],[0-9]", tidy)
        hint = " (write decimals with a point)" if comma else ""
        raise UnitError(f"{_quote(text)} is not {_a(kind)}{hint}; {_right(kind)}")
    sign, digits, unit = found.groups()
    if not unit:
        raise UnitError(f"{_quote(text)} has no unit; {_right(kind)}")
    return _signed(sign, _value(text, digits, kind) * _factor(text, unit, kind), text, kind)


def _half_written(text: str, tidy: str, kind: str) -> None:
    """Raise where inches have lost their unit, or two values stand where one belongs."""
    if kind == "length" and (found := _FEET_AND_NUMBER.fullmatch(tidy)):
        raise UnitError(
            f'{_quote(text)} has no unit after {found[2]}; write it like "{found[0]} in"'
        )
    found = _TWO_VALUES.fullmatch(tidy)
    if not found:
        return
    first, second = found[1], found[2]
    unit = _QUANTITY.fullmatch(second)
    if _BARE.fullmatch(first) and unit:
        first = f"{first} {unit[3]}"
    try:
        both = (_quantity(first, first, kind), _quantity(second, second, kind))
    except UnitError:
        return
    if both[0] < both[1]:
        right = f'write one of them, "{second}"'
        raise TwoValuesError(f"{_quote(text)} gives two values; {right}", both)


def _feet_and_inches(text: str, sign: str, feet: str, inches: str) -> float:
    """Return a length in feet and inches: whole feet, less than 12 inches."""
    whole, rest = _value(text, feet, "length"), _value(text, inches, "length")
    if whole % 1:
        raise UnitError(f"{_quote(text)} has both part feet and inches; {_right('length')}")
    if rest >= 12:
        raise UnitError(f"{_quote(text)} has 12 inches or more after the feet; {_right('length')}")
    return _signed(sign, whole * FT + rest * INCH, text, "length")


def _size(text: str, tidy: str) -> tuple[float, float]:
    """Return two lengths; a first one without unit ("41 x 69 in") takes the second one's."""
    sides = _BETWEEN.split(tidy)
    if len(sides) != 2:
        raise UnitError(f"{_quote(text)} is not a size, two lengths; {_right('size')}")
    first, second = sides
    last = _QUANTITY.fullmatch(second)
    if _BARE.fullmatch(first) and last and last[3]:
        first = f"{first} {last[3]}"
    try:
        return _quantity(first, first, "length"), _quantity(second, second, "length")
    except UnitError as error:
        raise UnitError(f"{_quote(text)} is not a size: {error}") from None


def _factor(text: str, unit: str, kind: str) -> float:
    """Return the factor to SI of a unit as written; names the kind it does belong to if wrong."""
    spelled = _spelled(unit)
    factor = UNITS[kind].get(spelled)
    if factor is not None:
        return factor
    others = [other for other, known in UNITS.items() if spelled in known]
    if others:
        raise UnitError(f"{_quote(text)} is {_a(others[0])}, not {_a(kind)}; {_right(kind)}")
    raise UnitError(f"{_quote(text)} is in no known unit of {kind}; {_right(kind)}")


def _spelled(unit: str) -> str:
    """Return a unit in its one spelling: "lbs. per sq.ft" to "lb/ft2", "ft-lbs" to "ft lb"."""
    plain = re.sub(r"\bper\b", "/", unit)
    plain = re.sub(r"\b(?:sq|square)[. ]+([a-z]+)", r"\g<1>2", plain)
    words = _NOISE.sub(" ", plain.replace("^", "")).strip().split()
    parts = [part for word in words for part in _parts(word)]
    return " ".join(SPELLINGS.get(part, part) for part in parts).replace(" / ", "/")


def _parts(word: str) -> list[str]:
    """Split "lb/ft2" at its slash; a word with anything else in it stays whole (and unknown)."""
    parts = _UNIT_WORD.findall(word)
    return parts if "".join(parts) == word else [word]


def _value(text: str, digits: str, kind: str) -> float:
    """Return a number as written, finite."""
    try:
        value = plain_number(digits)
    except ValueError as error:
        raise UnitError(f"{_quote(text)}: {error}; {_right(kind)}") from None
    return value


def _signed(sign: str, value: float, text: str, kind: str) -> float:
    """Return the value with its sign; no minus zero, nothing infinite."""
    if not math.isfinite(value):
        raise UnitError(f"{_quote(text)} is too big to be {_a(kind)}; {_right(kind)}")
    return -value if sign == "-" and value else value


def _a(kind: str) -> str:
    return f"an {kind}" if kind[0] in "aeiou" else f"a {kind}"


def _right(kind: str) -> str:
    return f"write it like {EXAMPLES[kind]}"


def _quote(text: object) -> str:
    """Return what was written, in quotes, cut short and on one line."""
    words = " ".join(str(text).split())
    shown = words if len(words) <= LONGEST else f"{words[: LONGEST - 3]}..."
    return f'"{shown}"' if '"' not in shown else f"'{shown}'" if "'" not in shown else shown
