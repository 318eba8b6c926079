"""Keys of what was read off the standing rack."""

from typing import Annotated, Any, NamedTuple

from frame.casefile.keys.fields import (
    MENDED,
    Choice,
    Leaf,
    PlainNumber,
    Quantity,
    Text,
    complaint,
    printable,
    wrong_value_words,
)
from frame.casefile.keys.section import Length, Section, key
from frame.rack.measured import SHAKE_WAYS, WAYS
from frame.tables.readings import SHAKES, reading_in_si, reading_kinds, tools
from frame.units import UnitError
from frame.units.factors import EXAMPLES

CANNOT_TELL = "can't tell"
PARTS = ("read", "within", "tool")
HIGHEST_SHAKES = 300.0


class Told(NamedTuple):
    """A reading as the file has it: `value` None where nobody could tell."""

    value: float | None
    within: float | None
    tool: str


class TakenReading(Leaf):
    """One reading: its value, "can't tell", or { read, within, tool }."""

    def __init__(self, name: str) -> None:
        self.of = reading_kinds()[name]

    def describe(self) -> dict[str, Any]:
        """Describe the value to an editor."""
        plain = {"type": "number" if self.of.kind == SHAKES else "string"}
        return {"anyOf": [plain, {"type": "object", "required": ["read"]}]}

    def read(self, value: Any) -> Told | None:
        """Read a value by itself or with how well it was read."""
        if value is MENDED:
            return None
        if not isinstance(value, dict):
            return Told(self._value(value), None, self.of.tool)
        unknown = [part for part in value if part not in PARTS]
        if unknown or "read" not in value:
            what = f'has "{printable(unknown[0])}" in it' if unknown else "lacks read"
            raise complaint(what, "write { read = ..., within = ..., tool = ... }")
        tool = value.get("tool", self.of.tool)
        fit = [t.name for t in tools().values() if t.kind == self.of.kind]
        if tool not in fit:
            raise complaint(f"tool {wrong_value_words(tool)}", f"write one of {', '.join(fit)}")
        within = self._value(value["within"]) if "within" in value else None
        if within is not None and within <= 0:
            raise complaint("within is not more than zero", "say how far off it may be")
        return Told(self._value(value["read"]), within, tool)

    def _value(self, value: Any) -> float | None:
        if isinstance(value, str) and value.lower().replace("\u2019", "'") == CANNOT_TELL:
            return None
        if self.of.kind == SHAKES:
            right = f'write the shakes in ten seconds as a plain number, or "{CANNOT_TELL}"'
            if type(value) not in (int, float):
                raise complaint(wrong_value_words(value), right)
            if not 0 < value <= HIGHEST_SHAKES:
                raise complaint("is out of range", right)
            return float(value) / 10.0
        if not isinstance(value, str):
            right = f'write it in quotes with its unit, or "{CANNOT_TELL}"'
            raise complaint(wrong_value_words(value), right)
        try:
            found = reading_in_si(value, self.of.kind)
        except UnitError as error:
            what, _, right = str(error).partition("; ")
            raise complaint(what, right or f"write it as {EXAMPLES[self.of.kind]}") from None
        Quantity(self.of.kind, "any").judge(found, value)
        return found


def _reading(name: str) -> Any:
    return key(reading_kinds()[name].words, None)


class MeasuredKeys(Section):
    """What was read off the rack that stands: any of it, each with how well if that is known."""

    fitted: list[Annotated[str, Text("the name of a bracing", "knees")]] | None = key(
        "bracing on it when it was read, by the names used in this file", None
    )
    tilt: Annotated[float, Quantity("angle", "any")] | None = key(
        "tilt of the panels then; the first of tilts if left out", None
    )
    droop_left: Annotated[Told | None, TakenReading("droop_left")] = _reading("droop_left")
    droop_right: Annotated[Told | None, TakenReading("droop_right")] = _reading("droop_right")
    unloaded_left: Annotated[Told | None, TakenReading("unloaded_left")] = _reading(
        "unloaded_left"
    )
    unloaded_right: Annotated[Told | None, TakenReading("unloaded_right")] = _reading(
        "unloaded_right"
    )
    pull: Annotated[float, Quantity("force")] | None = key("level side pull, by a scale", None)
    pull_height: Length | None = key(
        "height above grade it pulls at; the beam's if left out", None
    )
    pull_way: Annotated[str, Choice(WAYS)] = key("across the beam, or along it", "across")
    top_moved: Annotated[Told | None, TakenReading("top_moved")] = _reading("top_moved")
    push: Annotated[float, Quantity("force")] | None = key(
        "level push at the right beam end, square to the beam, by a scale", None
    )
    end_moved: Annotated[Told | None, TakenReading("end_moved")] = _reading("end_moved")
    end_stayed: Annotated[Told | None, TakenReading("end_stayed")] = _reading("end_stayed")
    lift_left: Annotated[Told | None, TakenReading("lift_left")] = _reading("lift_left")
    lift_right: Annotated[Told | None, TakenReading("lift_right")] = _reading("lift_right")
    level: Annotated[Told | None, TakenReading("level")] = _reading("level")
    press: Annotated[float, Quantity("force")] | None = key(
        "hand's push down on the left beam end, by a scale", None
    )
    level_pressed: Annotated[Told | None, TakenReading("level_pressed")] = _reading(
        "level_pressed"
    )
    shakes: Annotated[Told | None, TakenReading("shakes")] = _reading("shakes")
    shakes_way: Annotated[str, Choice(SHAKE_WAYS)] = key(
        "across the beam, along it, or turning about the post", "across"
    )
    lean_along: Annotated[Told | None, TakenReading("lean_along")] = _reading("lean_along")
    lean_across: Annotated[Told | None, TakenReading("lean_across")] = _reading("lean_across")
    lean_height: Length | None = key("height over which the post leans so far", None)
    guy_pull: Annotated[Told | None, TakenReading("guy_pull")] = _reading("guy_pull")
    beam_wall: Annotated[Told | None, TakenReading("beam_wall")] = _reading("beam_wall")
    post_wall: Annotated[Told | None, TakenReading("post_wall")] = _reading("post_wall")
    play: Annotated[Told | None, TakenReading("play")] = _reading("play")
    scale_within: Annotated[float, PlainNumber(0.01, 1.0)] = key(
        "how far off the scale may be, as a share of what it shows", 0.2
    )
