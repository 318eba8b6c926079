"""What an answer says, by the way its question reads it."""

import re
from collections.abc import Callable

from frame.casefile.asking.question import Question
from frame.casefile.write import Value, Where
from frame.errors import InputError, Problem
from frame.units import UnitError, parse
from frame.units.parse import plain_text

UNSURE = re.compile(
    r"\?+|(?:i )?(?:do not|don'?t) know|(?:i'?m |i am )?not sure|unsure|unknown|no idea|dunno"
)


def is_unsure(text: str) -> bool:
    """Tell whether an answer says that it is not known."""
    return bool(UNSURE.fullmatch(plain_text(text)))


def put_into_file(question: Question, text: str) -> dict[Where, Value]:
    """Return what an answer puts into the file.

    Raises
    ------
    InputError
        For an answer that has not the form asked for.
    """
    return READERS[question.reads](question, text)


def _places(question: Question) -> list[Where]:
    found = []
    for key in question.keys:
        section, _, name = key.rpartition(".")
        found.append((section, name))
    return found


def _refused(question: Question, text: str, right: str) -> InputError:
    shown = " ".join(text.split())
    return InputError((Problem(question.name, f'"{shown[:40]}" cannot be read', right),))


def _plain(question: Question, text: str) -> dict[Where, Value]:
    (place,) = _places(question)
    return {place: " ".join(text.split())}


def _yes_or_no(question: Question, text: str) -> dict[Where, Value]:
    (place,) = _places(question)
    word = text.strip().lower()
    if word not in ("y", "yes", "n", "no"):
        raise _refused(question, text, 'answer "yes" or "no"')
    return {place: "yes" if word[0] == "y" else "no"}


def _count(question: Question, text: str) -> dict[Where, Value]:
    (place,) = _places(question)
    if not re.fullmatch(r"\s*\d{1,4}\s*", text):
        raise _refused(question, text, f"answer with a whole number, as {question.like}")
    return {place: int(text)}


def _grid(question: Question, text: str) -> dict[Where, Value]:
    across, up = _places(question)
    found = re.fullmatch(
        r"\s*(\d{1,4})\s*(?:x|\*|by|across,?)\s*(\d{1,4})(?: up)?\s*", plain_text(text)
    )
    if not found:
        right = f"write panels along the beam x panels up the slope, as {question.like}"
        raise _refused(question, text, right)
    return {across: int(found[1]), up: int(found[2])}


def _size(question: Question, text: str) -> dict[Where, Value]:
    size, way = _places(question)
    try:
        along, slope = parse(text, "size")
    except UnitError as error:
        what, _, right = str(error).partition("; ")
        raise InputError((Problem(question.name, what, right),)) from None
    return {
        size: " ".join(text.split()),
        way: "along the beam" if along > slope else "up the slope",
    }


def _pipe(question: Question, text: str) -> dict[Where, Value]:
    (place,) = _places(question)
    parts = [part.strip() for part in re.split(r"(?<=[\w\"']) *[xX*\u00d7] *(?=[\d.])", text)]
    if len(parts) == 2 and all(parts):
        return {place: {"od": parts[0], "wall": parts[1]}}
    return {place: " ".join(text.split())}


def _tilts(question: Question, text: str) -> dict[Where, Value]:
    (place,) = _places(question)
    parts = [part.strip() for part in re.split(r",|;|\band\b", text) if part.strip()]
    bare = re.compile(r"[\d.]+")
    return {place: [f"{part} deg" if bare.fullmatch(part) else part for part in parts]}


def _lock(question: Question, text: str) -> dict[Where, Value]:
    count, size, pin = _places(question)
    said = plain_text(text)
    if found := re.fullmatch(r"pin[ ,]*(.+)|(.+) pin", said):
        return {pin: found[1] or found[2]}
    found = re.fullmatch(r"(\d{1,2}) ?(?:x|\*|by|of) ?(.+)", said)
    if not found:
        raise _refused(question, text, 'write "2 x 1/2 in" for set bolts, "pin 5/8 in" for a pin')
    return {count: int(found[1]), size: found[2]}


READERS: dict[str, Callable[[Question, str], dict[Where, Value]]] = {
    "plain": _plain,
    "yes or no": _yes_or_no,
    "count": _count,
    "grid": _grid,
    "size": _size,
    "pipe": _pipe,
    "tilts": _tilts,
    "lock": _lock,
}
