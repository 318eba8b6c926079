"""Put the questions that make a rack file, one at a time, each answer checked at once."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from frame.casefile.asking.question import Answers, Question, Reply

WIDTH = 78
BACK, UNKNOWN = "back", "?"


def make_file(path: Path, *, force: bool) -> bool:
    """Ask, write the file, and return whether to go on to compare.

    Nothing is asked where the file could not be written. Where the answers stop in the middle,
    what was answered is written, with the rest named.

    Raises
    ------
    click.Abort
        Where they stopped; the file is written, if there was an answer.
    """
    from frame.casefile.asking.question import questions_to_put
    from frame.casefile.asking.unsure import assumed_answer
    from frame.casefile.asking.written import file_text
    from frame.casefile.write import refuse_existing, write_rack
    from frame.report.typed import typed

    if not force:
        refuse_existing(path)
    so_far: dict[str, Reply] = {}
    try:
        answers = _all_answers(path, so_far)
    except click.Abort:
        _keep(path, so_far, force=force)
        raise
    write_rack(path, file_text(answers), force=force)
    click.echo(f"\nWrote {path}.")
    unknown = [q for q in questions_to_put(answers) if not answers[q.name].known]
    for question in unknown:
        if answers[question.name].left_open:
            _say(f"Left open: {question.name}. Find it out: {question.find_out}.")
        else:
            instead = assumed_answer(question, answers)
            _say(f"Not known: {question.name}, {instead} taken. {_sentence(question.find_out)}")
    if any(answer.left_open for answer in answers.values()):
        click.echo(f"Write it into the file, then: rack compare {typed(path)}")
        return False
    return click.confirm("Compare bracings now?", default=True)


def _keep(path: Path, answers: "Answers", *, force: bool) -> None:
    """Write what was answered before the questions were broken off, and say so."""
    from frame.casefile.asking.written import file_text, unanswered
    from frame.casefile.write import write_rack
    from frame.report.typed import typed

    if not answers:
        click.echo("\nNothing was answered: no file is written.")
        return
    write_rack(path, file_text(answers), force=force)
    names = ", ".join(question.name for question in unanswered(answers))
    still = f" Still open: {names}. Write them into it, each is named at its end;" if names else ""
    click.echo()
    _say(
        f"Stopped: {path} has what was answered.{still or ' Put it right in there,'} or start "
        f"over: rack new {typed(path)} --ask --force"
    )


def _all_answers(path: Path, answers: "dict[str, Reply]") -> "Answers":
    from frame.casefile.asking.question import questions_to_put

    number = len(questions_to_put(answers))
    _say(
        f"{number} questions; a tape and a level will help. Write units as you say them: 6 ft 2 "
        f'in, 49 lb, 105 mph. Answer "{UNKNOWN}" for what you don\'t know, "{BACK}" to go back '
        "one."
    )
    position = 0
    while True:
        asked = questions_to_put(answers)
        if position == len(asked):
            wrong = _which_is_wrong(path, answers)
            if wrong is None:
                return {question.name: answers[question.name] for question in asked}
            position = wrong
        question = asked[position]
        answer = _answer(question, f"{position + 1} of {len(asked)}", answers)
        if answer is None:
            position = max(position - 1, 0)
            continue
        answers[question.name] = answer
        while (
            position < len(questions_to_put(answers))
            and questions_to_put(answers)[position].name in answers
        ):
            position += 1


def _answer(question: "Question", number: str, answers: "Answers") -> "Reply | None":
    """Ask until the answer can be; None to go back."""
    from frame.casefile.asking.judge import read_answer
    from frame.errors import InputError

    before = {name: answer for name, answer in answers.items() if name != question.name}
    click.echo()
    _say(f"{number}. {question.ask}")
    if question.sketch:
        click.echo(question.sketch.rstrip("\n"))
    _say(f"For example: {question.like}")
    while True:
        said = click.prompt(">", prompt_suffix=" ", default="", show_default=False).strip()
        if said.lower() == BACK:
            return None
        if not said:
            _say(f'Answer, or write "{UNKNOWN}" if you don\'t know.')
            continue
        try:
            answer, warnings = read_answer(question, said, before)
        except InputError as error:
            for problem in error.problems:
                _say(f"{_capital(problem.what)}: {problem.right}.")
            continue
        for warning in warnings:
            _say(warning)
        if answer.left_open:
            _say(f"It decides too much to be guessed. {_sentence(question.find_out)}")
        return answer


def _which_is_wrong(path: Path, answers: "Answers") -> int | None:
    """Return the place of the question to put again; None if all is well, or to be left so."""
    from frame.casefile.asking.question import questions_to_put
    from frame.casefile.asking.written import file_text
    from frame.casefile.read import parse_rack
    from frame.errors import InputError

    asked = questions_to_put(answers)
    left_open = {key for q in asked if answers[q.name].left_open for key in q.keys}
    try:
        parse_rack(file_text(answers), path.name)
    except InputError as error:
        problems = [p for p in error.problems if p.where not in left_open]
    else:
        problems = []
    if not problems:
        return None
    click.echo()
    _say("These answers do not fit together:")
    for problem in problems:
        _say(str(problem))
    _say(", ".join(f"{number} {question.name}" for number, question in enumerate(asked, 1)))
    which = click.prompt(
        "Number of the answer to put right, or Enter to write the file as it is",
        type=click.IntRange(0, len(asked)), default=0, show_default=False,
    )  # fmt: skip
    return which - 1 if which else None


def _say(text: str) -> None:
    click.echo(click.wrap_text(text, WIDTH))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _sentence(text: str) -> str:
    return f"{_capital(text)}."
