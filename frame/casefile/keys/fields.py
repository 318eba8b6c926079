"""Leaf values of a rack file: each reads one value and says in builder's words what is wrong.

A value that was found wrong is put back as `MENDED` so that the rest of the file can be read and
every error comes at once: quantities then become NaN, which no later comparison calls wrong.
"""

import math
import re
from dataclasses import dataclass
from typing import Any

from pydantic_core import PydanticCustomError, core_schema

from frame import units
from frame.errors import CatalogError
from frame.tables import gauges
from frame.units.factors import EXAMPLES

NO_NUMBER = float("nan")


class Mended:
    """Stands in for a value already reported as wrong."""


MENDED = Mended()


class Taken(float):
    """A quantity that the file leaves half open: one value was `taken` of it.

    `reason` is its row in `assumptions.toml`, `kind` that of the quantity, `said` what the file
    says.
    """

    reason: str
    kind: str
    said: str


def as_taken(value: float, reason: str, kind: str, said: str) -> Taken:
    """Make a quantity taken of what the file says, to be told among the assumptions."""
    made = Taken(value)
    made.reason, made.kind, made.said = reason, kind, " ".join(said.split())
    return made


MOST = {
    "length": (100.0, "100 m"),
    "weight": (50e3, "50 kN"),
    "force": (500e3, "500 kN"),
    "speed": (120.0, "268 mph (120 m/s)"),
    "weight per length": (3e3, "3 kN/m"),
    "torque": (5e3, "5 kN m"),
    "pressure": (20e3, "20 kPa"),
}


def complaint(what: str, right: str) -> PydanticCustomError:
    """Make the error a field raises: what is wrong with the value, what would be right."""
    said = {"what": "".join(c if c.isprintable() else "?" for c in what), "right": right}
    return PydanticCustomError("rack", "{what}; {right}", said)


def printable(text: str) -> str:
    """Cut a text from the file to what a message can hold, fit for any terminal."""
    shown = "".join(letter if letter.isprintable() else "?" for letter in text[:41])
    return shown if len(shown) <= 40 else f"{shown[:37]}..."


def wrong_value_words(value: object) -> str:
    """Name a value that has the wrong type, as the builder wrote it in the file."""
    if isinstance(value, bool):
        return f"is {str(value).lower()}"
    if isinstance(value, int | float):
        return (
            "is a number far too large" if abs(value) > 1e15 else f"is the bare number {value:g}"
        )
    if isinstance(value, str):
        return f'is "{printable(value)}"'
    if isinstance(value, dict):
        return "is a section"
    return "is a list" if isinstance(value, list) else "is not a value of this kind"


class Leaf:
    """A value read by `read`; subclasses also give its JSON Schema."""

    def describe(self) -> dict[str, Any]:
        """Return the JSON Schema of the value, for an editor."""
        raise NotImplementedError

    def read(self, value: Any) -> Any:
        """Return the value in SI or raise a complaint."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, _source: Any, _handler: Any) -> core_schema.CoreSchema:
        """Validate with `read` alone."""
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, _schema: Any, _handler: Any) -> dict[str, Any]:
        """Describe the value to an editor."""
        return self.describe()


@dataclass(frozen=True)
class Quantity(Leaf):
    """A number with its unit, as text, in SI; `sign` "positive", "not negative" or "any".

    `heavier`: of two values the bigger is taken; `gauge`: a sheet gauge will do as well.
    """

    kind: str
    sign: str = "positive"
    most: tuple[float, str] | None = None
    heavier: bool = False
    gauge: bool = False

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "string", "examples": re.findall(r'"([^"]+)"', EXAMPLES[self.kind])}

    def read(self, value: Any) -> Any:
        """Read one quantity."""
        if value is MENDED:
            return (NO_NUMBER, NO_NUMBER) if self.kind == "size" else NO_NUMBER
        if not isinstance(value, str):
            right = f"write it in quotes with its unit, as {EXAMPLES[self.kind]}"
            raise complaint(wrong_value_words(value), right)
        if self.gauge and gauges.is_gauge(value):
            return self.of_gauge(value)
        try:
            found: Any = units.parse(value, self.kind)
        except units.TwoValuesError as error:
            if not self.heavier:
                what, _, right = str(error).partition("; ")
                raise complaint(what, right) from None
            found = as_taken(max(error.both), "two values", self.kind, value)
        except units.UnitError as error:
            what, _, right = str(error).partition("; ")
            raise complaint(what, right or f"write it as {EXAMPLES[self.kind]}") from None
        for number in found if isinstance(found, tuple) else (found,):
            self.judge(number, value)
        return found

    def of_gauge(self, value: str) -> Taken:
        """Read a wall written as a gauge."""
        try:
            return as_taken(gauges.gauge_thickness(value), "gauge", "thickness", value)
        except CatalogError as error:
            what, _, right = str(error).partition("; ")
            raise complaint(what, right) from None

    def judge(self, number: float, text: str) -> None:
        """Refuse a number of the wrong sign or beyond any rack."""
        if self.sign == "positive" and number <= 0:
            raise complaint(f'"{text}" is not more than zero', "give a positive value")
        if self.sign == "not negative" and number < 0:
            raise complaint(f'"{text}" is negative', "give zero or more")
        most, shown = self.most or MOST.get(self.kind, (math.inf, ""))
        if abs(number) > most:
            raise complaint(f'"{text}" is beyond any rack', f"give at most {shown}")


@dataclass(frozen=True)
class Choice(Leaf):
    """One of a few words."""

    options: tuple[str, ...]

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "string", "enum": list(self.options)}

    def read(self, value: Any) -> Any:
        """Read one word, capitals and blanks aside."""
        if value is MENDED:
            return self.options[0]
        if isinstance(value, str):
            for option in self.options:
                if " ".join(value.lower().split()) == option.lower():
                    return option
        right = "write " + " or ".join(f'"{option}"' for option in self.options)
        raise complaint(wrong_value_words(value), right)


@dataclass(frozen=True)
class Count(Leaf):
    """A whole number from `least` to `most`."""

    least: int
    most: int

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "integer", "minimum": self.least, "maximum": self.most}

    def read(self, value: Any) -> Any:
        """Read one count."""
        if value is MENDED:
            return self.least
        if type(value) is not int or not self.least <= value <= self.most:
            right = f"write a whole number from {self.least} to {self.most}, without quotes"
            raise complaint(wrong_value_words(value).replace("the bare number ", ""), right)
        return value


@dataclass(frozen=True)
class PlainNumber(Leaf):
    """A plain number without unit, from `least` to `most`."""

    least: float
    most: float

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "number", "minimum": self.least, "maximum": self.most}

    def read(self, value: Any) -> Any:
        """Read one factor."""
        if value is MENDED:
            return NO_NUMBER
        plain = type(value) in (int, float)
        if not plain or not self.least <= value <= self.most:
            right = f"write a plain number from {self.least:g} to {self.most:g}, without quotes"
            raise complaint("is out of range" if plain else wrong_value_words(value), right)
        return float(value)


class Ratio(Leaf):
    """A movement over a length, as text "1/180"."""

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "string", "pattern": r"^1/\d+$", "examples": ["1/180"]}

    def read(self, value: Any) -> Any:
        """Read one ratio."""
        if value is MENDED:
            return NO_NUMBER
        match = re.fullmatch(r"\s*1\s*/\s*(\d{1,5})\s*", value) if isinstance(value, str) else None
        if not match or not 10 <= int(match[1]) <= 10_000:
            raise complaint(
                wrong_value_words(value), 'write a fraction between "1/10" and "1/10000"'
            )
        return 1 / int(match[1])


@dataclass(frozen=True)
class Text(Leaf):
    """Words: a name, or a name in the catalog (`of` says of what, `example` how)."""

    of: str
    example: str
    most: int = 80

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "string", "minLength": 1, "examples": [self.example]}

    def read(self, value: Any) -> Any:
        """Read one line of text."""
        if value is MENDED:
            return ""
        if not isinstance(value, str):
            raise complaint(
                wrong_value_words(value), f'write {self.of} in quotes, as "{self.example}"'
            )
        text = " ".join(value.split())
        if not text or not text.isprintable() or len(text) > self.most:
            what = (
                f"is longer than {self.most} letters"
                if text.isprintable() and text
                else ("holds letters that cannot be printed" if text else "is empty")
            )
            raise complaint(what, f'write {self.of}, as "{self.example}"')
        return text


class Span(Leaf):
    """A stretch from one length to another, as text "3 ft to 4 ft 2 in"."""

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        return {"type": "string", "examples": ["3 ft to 4 ft 2 in"]}

    def read(self, value: Any) -> Any:
        """Read one stretch."""
        if value is MENDED:
            return (NO_NUMBER, NO_NUMBER)
        ends = value.split(" to ") if isinstance(value, str) else []
        if len(ends) != 2:
            raise complaint(wrong_value_words(value), 'write a stretch as "3 ft to 4 ft 2 in"')
        at = Quantity("length", "not negative")
        return tuple(at.read(end) for end in ends)
