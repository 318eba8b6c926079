"""Readings as they are answered, and as they are written into a file."""

import re

from pydantic_core import PydanticCustomError

from frame.casefile.asking.readers import is_unsure
from frame.casefile.keys.fields import Quantity
from frame.casefile.keys.measured import CANNOT_TELL, TakenReading
from frame.casefile.write import Value
from frame.errors import InputError, Problem
from frame.tables.readings import SHAKES, reading_kinds

WITHIN = re.compile(r"(.*\S)\s+(?:within|give or take)\s+(\S.*)", re.IGNORECASE)
COUNTED = re.compile(r"\d{1,3}(?:\.\d+)?")


def answered(key: str, said: str) -> Value:
    """Return what an answer puts under a reading's key: "3/4 in", or "3/4 in within 1/16 in".

    Raises
    ------
    InputError
        Where it cannot be read.
    """
    if is_unsure(said) or said.lower().replace("\u2019", "'") == CANNOT_TELL:
        return CANNOT_TELL
    both = WITHIN.fullmatch(said.strip())
    parts = [" ".join(part.split()) for part in (both.groups() if both else (said,))]
    value: Value = parts[0]
    if len(parts) > 1:
        value = dict(zip(("read", "within"), parts, strict=True))
    if reading_kinds()[key].kind == SHAKES and all(map(COUNTED.fullmatch, parts)):
        value = float(parts[0])
        if len(parts) > 1:
            value = {"read": float(parts[0]), "within": float(parts[1])}
    _judge(key, TakenReading(key), value)
    return value


def answered_force(said: str) -> Value:
    """Return what an answer puts under a force: "40 lb".

    Raises
    ------
    InputError
        Where it cannot be read.
    """
    text = " ".join(said.split())
    _judge("the force", Quantity("force"), text)
    return text


def _judge(where: str, leaf: TakenReading | Quantity, value: Value) -> None:
    try:
        leaf.read(value)
    except PydanticCustomError as error:
        what, _, right = error.message().partition("; ")
        raise InputError((Problem(where, what, right),)) from None
