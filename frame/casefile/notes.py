"""What is found while a rack is put together: problems, assumptions, warnings."""

import math
import tomllib
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from importlib import resources
from typing import Any, TypeVar

from frame import units
from frame.casefile.keys.fields import Quantity, Taken
from frame.casefile.keys.rack import RackKeys
from frame.casefile.keys.section import Section
from frame.errors import CatalogError, Problem
from frame.rack.rack import Assumption

Found = TypeVar("Found")


@cache
def reasons() -> dict[str, dict[str, str]]:
    """Load, for every key with a default, which way it errs and how to find the value out."""
    file = resources.files("frame.casefile") / "assumptions.toml"
    return tomllib.loads(file.read_text(encoding="utf-8"))


@dataclass
class Notes:
    """Collector for one reading of one file; `system` is "us" or "metric"."""

    system: str
    problems: list[Problem] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)

    def wrong(self, where: str, what: str, right: str) -> None:
        """Note a problem."""
        self.problems.append(Problem(where, what, right))

    def warn(self, sentence: str) -> None:
        """Note something to print beside every answer."""
        self.warnings.append(sentence)

    def show(self, value: float, kind: str = "length") -> str:
        """Write an SI value as the file's builder would."""
        if math.isnan(value):
            return "?"
        return units.show(value, kind, self.system)

    def wrench_tight(self, torque: float) -> str:
        """Write a torque [N m] that stands for a nut run down with the wrench of its size."""
        return f"{self.show(torque, 'torque')}, by the wrench of its size"

    def assume(self, key: str, value: str, reason: str = "") -> None:
        """Note that `key` was not given; `reason` is its row in `assumptions.toml`."""
        row = reasons()[reason or key]
        self.assumptions.append(
            Assumption(
                key=key,
                value=value,
                errs=row["errs"],
                find_out=row["find_out"],
                unsafe=row["errs"].startswith("unsafe"),
            )
        )

    def look_up(self, find: Callable[[str], Found], where: str, name: str, instead: str) -> Found:
        """Find a catalog entry; note a problem and go on with another if there is none."""
        if name:
            try:
                return find(name)
            except CatalogError as error:
                what, _, right = str(error).partition("; ")
                self.wrong(where, what, right or "see `rack catalog` for the names")
        return find(instead)

    def take_defaults(self, keys: RackKeys) -> None:
        """Note every default the key models filled in."""
        for name in RackKeys.model_fields:
            part = getattr(keys, name)
            if isinstance(part, Section):
                self._section(name, part)
                self._half_open(name, part)
            elif name == "guys":
                for number, group in enumerate(part, 1):
                    home = f"guys[{number}]" if len(part) > 1 else "guys"
                    self._section(home, group)

    def _section(self, home: str, part: Section) -> None:
        for name, info in type(part).model_fields.items():
            if name in part.model_fields_set or info.is_required() or info.default is None:
                continue
            value = self._written(info.default, info.metadata, getattr(part, name))
            generic = f"{home.partition('[')[0]}.{name}"
            self.assume(f"{home}.{name}", value, generic)

    def _half_open(self, home: str, part: Section) -> None:
        """Note what was taken where a section says more than one value, or none in inches."""
        for name in type(part).model_fields:
            value = getattr(part, name)
            if isinstance(value, Section):
                self._half_open(f"{home}.{name}", value)
            elif isinstance(value, Taken):
                shown = f'{self.show(value, value.kind)}, of "{value.said}"'
                self.assume(f"{home}.{name}", shown, value.reason)

    def _written(self, default: Any, metadata: list[Any], value: Any) -> str:
        """Write a default in the file's own system of units."""
        kind = next((m.kind for m in metadata if isinstance(m, Quantity)), None)
        if kind and self.system == "metric":
            return self.show(value, kind)
        return " and ".join(default) if isinstance(default, list) else str(default)
