"""Find one entry of a table by the name a builder gives it, or offer the nearest ones."""

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from functools import cache
from typing import Protocol, TypeVar

from frame.errors import CatalogError
from frame.units.parse import plain_text


class Named(Protocol):
    """Anything with a name."""

    @property
    def name(self) -> str:
        """Name as listed."""
        ...


Entry = TypeVar("Entry", bound=Named)
_INCH = re.compile(r"(?<=[0-9]) ?(?:inches|inch|in\.?(?![a-z])|\")")
_NOISE = re.compile(r"[^a-z0-9/.]+")


@cache
def plain_name(text: str) -> str:
    """Return a name without case, quotes, hyphens and inch marks: what two spellings share."""
    plain = _INCH.sub(" ", plain_text(text))
    return " ".join(_NOISE.sub(" ", plain).split())


def entry_called(
    text: str,
    entries: Iterable[Entry],
    kind: str,
    other_names: Mapping[str, str] | None = None,
) -> Entry:
    """Return the entry called `text`; `other_names` maps a `plain_name` to what it stands for."""
    named = {plain_name(entry.name): entry for entry in entries}
    wanted = plain_name(text)
    wanted = plain_name((other_names or {}).get(wanted, wanted))
    if wanted in named:
        return named[wanted]
    raise CatalogError(f'"{text}" is not a {kind} in the catalog; {closest_names(wanted, named)}')


def closest_names(wanted: str, named: Mapping[str, Named]) -> str:
    """Return the advice for a name not found: the closest names, or all if none is close."""
    close = get_close_matches(wanted, named, n=4, cutoff=0.5)
    close = close or [k for k in named if wanted and wanted in k][:4]
    names = [named[k].name for k in close or list(named)[:8]]
    listed = " or ".join(f'"{name}"' for name in names)
    return f'write {listed}, or see them all with "rack catalog"'
