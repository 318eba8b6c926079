"""What stands for "don't know", worked out of the answers before where it depends on them."""

from collections.abc import Callable, Mapping

from frame.casefile.asking.question import Answers, Question, questions
from frame.casefile.asking.readers import put_into_file
from frame.casefile.write import Value, Where
from frame.units import INCH, LB, PSF, parse

USUAL_WEIGHT = 2.6 * PSF
"""Weight of panels over their area where nobody has weighed one: judgement."""
GAP = "1/2 in"


def assumed_answer(question: Question, answers: Answers) -> str:
    """Return what stands for "don't know", worked out of the answers before where it depends."""
    worked_out: dict[str, Callable[[Answers], str]] = {
        "{weight}": _weight,
        "{beam}": _beam,
        "{spacing}": _spacing,
    }
    found = worked_out.get(question.taken)
    return found(answers) if found else question.taken


def _answered(answers: Answers, name: str) -> Mapping[Where, Value]:
    """Return what a question before was answered with, or is taken as."""
    if name in answers:
        return answers[name].values
    question = next(q for q in questions() if q.name == name)
    return put_into_file(question, assumed_answer(question, answers))


def _sides(answers: Answers) -> tuple[float, float]:
    """Sides of a panel along the beam and up the slope [m]."""
    text = _answered(answers, "size")[("panels", "size")]
    return parse(text, "size")


def _weight(answers: Answers) -> str:
    along, slope = _sides(answers)
    return f"{USUAL_WEIGHT * along * slope / LB:.0f} lb"


def _beam(answers: Answers) -> str:
    """Length of a beam that reaches as far as the panels."""
    across = _answered(answers, "grid")[("panels", "across")]
    assert isinstance(across, int)
    along, _ = _sides(answers)
    length = across * along + (across - 1) * parse(GAP, "length")
    return f"{length / INCH:.0f} in"


def _spacing(answers: Answers) -> str:
    """Space between posts that leaves half of it over at both ends of the beam."""
    count = _answered(answers, "posts")[("post", "count")]
    length = _answered(answers, "beam length")[("beam", "length")]
    assert isinstance(count, int)
    return f"{parse(length, 'length') / count / INCH:.0f} in"
