"""Whether an answer can be, by itself and beside the answers before it."""

import re
from copy import copy
from typing import Any

from frame.casefile.asking.question import Answers, Question, Reply, questions, questions_to_put
from frame.casefile.asking.readers import is_unsure, put_into_file
from frame.casefile.asking.unsure import assumed_answer
from frame.casefile.assemble.rack import assemble
from frame.casefile.buildable.rack import check_rack
from frame.casefile.explain import validate
from frame.casefile.notes import Notes
from frame.casefile.read import system_of
from frame.errors import InputError, Problem


def read_answer(question: Question, text: str, answers: Answers) -> tuple[Reply, tuple[str, ...]]:
    """Return what `text` answers, and what is to be said of it.

    Raises
    ------
    InputError
        For an answer that cannot be, by itself or beside those before.
    """
    unsure = is_unsure(text)
    if unsure and question.never_assumed and _stands(answers):
        return Reply(values={}, known=False, left_open=True), ()
    said = assumed_answer(question, answers) if unsure else text
    answer = Reply(values=put_into_file(question, said), known=not unsure)
    problems, warnings = judged({**answers, question.name: answer})
    mine = tuple(p for p in problems if concerns(question, p))
    if mine:
        raise InputError(mine)
    _, before = judged(answers)
    return answer, tuple(w for w in warnings if w not in before)


def concerns(question: Question, problem: Problem) -> bool:
    """Tell whether a problem is one of a question's own keys, or one that it watches."""
    where = re.split(r"\[", problem.where)[0]
    own = any(where == key or where.startswith(f"{key}.") for key in question.keys)
    return own or where in question.watch


def judged(answers: Answers) -> tuple[tuple[Problem, ...], tuple[str, ...]]:
    """Return all that is wrong with the rack, and warnings, unanswered questions as if unsure.

    What cannot be built counts only where a question watches for it: the others may still mend it.
    """
    every = {q.name: answers[q.name] for q in questions_to_put(answers) if q.name in answers}
    for question in questions_to_put(every):
        if question.name not in every or every[question.name].left_open:
            said = assumed_answer(question, every)
            every[question.name] = Reply(values=put_into_file(question, said))
    raw = file_tables(every)
    notes = Notes(system_of(raw))
    keys, problems = validate(raw)
    rack = assemble(keys, notes, "rack")
    own = len(notes.problems)
    check_rack(rack, notes)
    watched = {where for question in questions() for where in question.watch}
    built = [p for p in notes.problems[own:] if p.where.partition("[")[0] in watched]
    return (*problems, *notes.problems[:own], *built), tuple(notes.warnings)


def file_tables(answers: Answers) -> dict[str, Any]:
    """Return the answers as the plain tables of a rack file."""
    made: dict[str, Any] = {}
    for answer in answers.values():
        for (section, key), value in answer.values.items():
            home = made.setdefault(section, {}) if section else made
            home[key] = copy(value)
    return made


def _stands(answers: Answers) -> bool:
    stands = answers.get("stands")
    return stands is not None and stands.values[("", "stands")] == "yes"
