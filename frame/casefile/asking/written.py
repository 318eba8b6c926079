"""The rack file that the answers make."""

import textwrap

from frame.casefile.asking.question import Answers, Question, questions_to_put
from frame.casefile.asking.readers import put_into_file
from frame.casefile.asking.unsure import assumed_answer
from frame.casefile.keys.rack import SECTIONS
from frame.casefile.write import Where, toml_value

HEAD = """\
# A rack file made of answers. What was not known is marked so: find it out and put it right.
# Bracing to compare goes into sections [knees], [ties], [stays] and [[guys]]: a file written by
# `rack new OTHER.toml` explains them and every other key.
"""
WIDTH = 96


def file_text(answers: Answers) -> str:
    """Return the text of a rack file with all answers in it; what was not known is marked.

    Questions that nobody came to are named at its end, with their keys.
    """
    lines: dict[Where, list[str]] = {}
    for question in questions_to_put(answers):
        if question.name in answers:
            lines |= _lines(question, answers)
    parts = [HEAD]
    for section in ("", *SECTIONS):
        own = [line for (home, _), group in lines.items() if home == section for line in group]
        if own:
            parts.append("\n".join([f"[{section}]", *own] if section else own) + "\n")
    parts += [
        "\n".join(_comment(f"NOT ANSWERED: {', '.join(q.keys)}: {q.find_out}")) + "\n"
        for q in unanswered(answers)
    ]
    return "\n".join(parts)


def unanswered(answers: Answers) -> tuple[Question, ...]:
    """Return the questions without an answer."""
    return tuple(q for q in questions_to_put(answers) if q.name not in answers)


def _lines(question: Question, answers: Answers) -> dict[Where, list[str]]:
    answer = answers[question.name]
    values = answer.values or put_into_file(question, assumed_answer(question, answers))
    mark = "# " if answer.left_open else ""
    made = {where: [f"{mark}{where[1]} = {toml_value(value)}"] for where, value in values.items()}
    if not answer.known:
        what = "NOT KNOWN, to be written here" if answer.left_open else "NOT KNOWN, this was taken"
        first = next(iter(made))
        made[first] = [*_comment(f"{what}: {question.find_out}"), *made[first]]
    return made


def _comment(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="# ", subsequent_indent="#   ")
