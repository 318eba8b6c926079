"""Decide the bracing of a welded pipe rack: rack file in, bracing decision out.

The functions named here are those of `frame.api`; they are loaded when first asked for, so that
`rack --help` waits for nothing.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from frame.api import (
        FrameError,
        check,
        compare,
        decide,
        gusts,
        plain,
        read_rack,
        size,
        table,
    )

__all__ = [
    "FrameError",
    "check",
    "compare",
    "decide",
    "gusts",
    "plain",
    "read_rack",
    "size",
    "table",
]


def __getattr__(name: str) -> Any:
    """Load a function of `frame.api`."""
    if name in __all__:
        return getattr(import_module("frame.api"), name)
    message = f"module 'frame' has no attribute {name!r}"
    raise AttributeError(message)
