"""The questions of `rack new FILE --ask` and their answers."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from frame.casefile.write import Value, Where


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question: `ask` in plain words, `keys` of the file it answers, how it `reads`.

    `like` is an example; `taken` stands for "don't know", and `find_out` says how to know;
    `never_assumed` of a rack that stands. `watch` are keys whose faults this answer may cause.
    """

    name: str
    ask: str
    reads: str
    keys: tuple[str, ...]
    like: str
    taken: str
    find_out: str
    sketch: str = ""
    only: str = ""
    watch: tuple[str, ...] = ()
    never_assumed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """What an answer puts into the file; `known` False where it was "don't know".

    `left_open`: nothing was taken in its place.
    """

    values: Mapping[Where, Value]
    known: bool = True
    left_open: bool = False


Answers = Mapping[str, Reply]


@cache
def questions() -> tuple[Question, ...]:
    """Load every question, in the order they are put."""
    file = resources.files("frame.casefile.asking") / "questions.toml"
    rows = tomllib.loads(file.read_text(encoding="utf-8"))["question"]
    made: list[dict[str, Any]] = [
        {k: tuple(v) if isinstance(v, list) else v for k, v in row.items()} for row in rows
    ]
    return tuple(Question(**row) for row in made)


def questions_to_put(answers: Answers) -> tuple[Question, ...]:
    """Return the questions that are to be put, by the answers so far."""
    posts = answers.get("posts")
    several = posts is not None and posts.values[("post", "count")] != 1
    return tuple(q for q in questions() if not q.only or several)
