"""Decide the bracing of a welded pipe rack: rack file in, bracing decision out.

What is public is listed here, once, and defined in `frame.api`, which is loaded when one of its
names is first asked for, so that `rack --help` waits for nothing.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from frame.api import *
    from frame.errors import FrameError

__all__ = [
    "FrameError",
    "check",
    "compare",
    "decide",
    "diagnose",
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
