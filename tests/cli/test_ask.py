"""`rack new FILE --ask`: questions one at a time, each answer checked at once."""

import math
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from frame.casefile.asking.question import questions, questions_to_put
from frame.casefile.read import read_rack
from frame.cli import compare
from frame.cli.new import command as new
from frame.errors import InputError
from frame.rack.sleeve import Pin, SetBolts

INCH, FOOT, MPH, POUND = 0.0254, 0.3048, 0.44704, 4.4482216152605  # NIST SP 811, appendix B
ANSWERS = {
    "stands": "no",
    "gust": "105 mph",
    "soil": "sandy gravel",
    "grid": "4 x 2",
    "size": "41 in x 69 in",
    "weight": "49 lb",
    "beam": "3-1/2 in nominal",
    "beam length": "14 ft 2 in",
    "posts": "1",
    "spacing": "7 ft",
    "post": "4-1/2 in x 0.237 in",
    "height": "6' 6\"",
    "depth": "5 ft",
    "fill": "concrete",
    "lock": "2 x 1/2 in",
    "tilts": "15, 35 deg",
}
"""One good answer to each question, by its name."""


def typed(changes: dict[str, list[str]], *, end: str = "n") -> str:
    """Keys typed in a sitting: good answers, but those of `changes`; no comparison."""
    lines = []
    for question in questions():
        several = changes.get("posts", ["1"])[-1] != "1"
        if not question.only or several:
            lines += changes.get(question.name, [ANSWERS[question.name]])
    return "\n".join([*lines, end, ""])


def sit(path: Path, changes: dict[str, list[str]] | None = None, *, end: str = "n") -> Result:
    return CliRunner().invoke(new, [str(path), "--ask"], input=typed(changes or {}, end=end))


def test_good_answers_make_the_rack(tmp_path: Path) -> None:
    path = tmp_path / "answered.toml"
    done = sit(path)
    assert done.exit_code == 0, done.output
    rack = read_rack(path)
    assert rack.name == "answered"
    assert not rack.stands
    assert rack.site.map_gust == pytest.approx(105 * MPH)
    assert rack.site.soil.name == "sandy gravel"
    assert (rack.panels.across, rack.panels.up) == (4, 2)
    assert (rack.panels.width, rack.panels.height) == pytest.approx((41 * INCH, 69 * INCH))
    assert rack.panels.weight == pytest.approx(49 * POUND)
    assert rack.beam.pipe.label.startswith("3-1/2 in nominal")
    assert rack.beam.length == pytest.approx(170 * INCH)
    assert (rack.posts.pipe.od, rack.posts.pipe.wall) == pytest.approx((4.5 * INCH, 0.237 * INCH))
    assert rack.posts.height == pytest.approx(6.5 * FOOT)
    assert rack.posts.footing.depth == pytest.approx(5 * FOOT)
    assert rack.posts.footing.backfill == "concrete"
    assert isinstance(rack.sleeve.lock, SetBolts)
    assert rack.sleeve.lock.count == 2
    assert rack.tilts == pytest.approx((math.radians(15), math.radians(35)))
    assert "NOT KNOWN" not in path.read_text(encoding="utf-8")


def test_there_are_ten_to_fifteen_questions_that_fit_a_terminal(tmp_path: Path) -> None:
    assert 10 <= len(questions_to_put({})) <= 15
    done = sit(tmp_path / "a.toml")
    assert max(len(line) for line in done.output.splitlines()[:-2]) <= 80
    assert len(questions_to_put({})) == done.output.count(f" of {len(questions_to_put({}))}. ")


@pytest.mark.parametrize("question", questions(), ids=lambda q: q.name)
def test_every_example_and_every_value_taken_is_an_answer(
    question: object, tmp_path: Path
) -> None:
    name = question.name  # type: ignore[attr-defined]
    posts = {"posts": ["2"]} if name == "spacing" else {}
    for number, said in enumerate((question.like, "don't know")):  # type: ignore[attr-defined]
        path = tmp_path / f"{number}.toml"
        done = sit(path, {**posts, name: [said]})
        assert done.exit_code == 0, done.output
        assert ("NOT KNOWN" in path.read_text(encoding="utf-8")) == (number == 1)
        assert read_rack(path)


@pytest.mark.parametrize("said", ["?", "don't know", "I don\u2019t know", "Not sure", "no idea"])
def test_what_is_not_known_is_taken_marked_and_said(tmp_path: Path, said: str) -> None:
    path = tmp_path / "a.toml"
    done = sit(path, {"soil": [said]})
    assert "NOT KNOWN, this was taken: dig a foot down" in path.read_text(encoding="utf-8")
    assert "Not known: soil, clay taken." in done.output
    assert read_rack(path).site.soil.name == "clay"


def test_the_weight_taken_goes_with_the_size_of_a_panel(tmp_path: Path) -> None:
    """2.6 lb a square foot (judgement) of 2 ft x 4 ft is 21 lb."""
    path = tmp_path / "a.toml"
    sit(path, {"size": ["24 in x 48 in"], "weight": ["?"]})
    assert read_rack(path).panels.weight == pytest.approx(21 * POUND)


def test_the_depth_of_a_rack_that_stands_is_never_taken(tmp_path: Path) -> None:
    path = tmp_path / "my rack.toml"
    done = sit(path, {"stands": ["yes"], "depth": ["?"]})
    assert done.exit_code == 0
    assert "decides too much to be guessed" in " ".join(done.output.split())
    assert f'then: rack compare "{path}"' in " ".join(done.output.split())
    assert "Compare bracings now?" not in done.output
    with pytest.raises(InputError, match=r"post.depth: is missing"):
        read_rack(path)
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("# depth", "depth"), encoding="utf-8")
    assert read_rack(path).stands


@pytest.mark.parametrize(
    ("name", "wrong", "says"),
    [
        ("stands", "perhaps", 'answer "yes" or "no"'),
        ("gust", "105", "has no unit"),
        ("soil", "peat", "no ground to reckon with"),
        ("grid", "eight", "4 x 2"),
        ("size", "41 in", "not a size"),
        ("weight", "392 lb", "Then one weighs 49 lb"),
        ("beam", "4 in", "does not say which pipe"),
        ("beam length", "9 ft", "past each end of the beam"),
        ("posts", "nine", "whole number"),
        ("posts", "9", "whole number from 1 to 4"),
        ("post", "4-1/2 in x 3 in", "does not fit in the pipe"),
        ("height", "6 ft 2 1/2", "no unit after 2 1/2"),
        ("depth", "6 in", "leaves no post in soil that counts"),
        ("fill", "sand", '"concrete" or "earth" or "gravel"'),
        ("lock", "bolts", "pin 5/8 in"),
        ("tilts", "80 deg", "is out of range"),
    ],
)
def test_a_wrong_answer_is_told_at_once_and_asked_again(
    tmp_path: Path, name: str, wrong: str, says: str
) -> None:
    path = tmp_path / "a.toml"
    done = sit(path, {name: [wrong, ANSWERS[name]]})
    assert done.exit_code == 0, done.output
    asked = next(q.ask for q in questions() if q.name == name)
    flat = " ".join(done.output.split())
    behind = flat[flat.index(" ".join(asked.split())) :]
    upto = behind.split(f" of {len(questions_to_put({}))}. ")[0]
    assert says in upto
    sit(tmp_path / "plain.toml")
    assert path.read_text("utf-8") == (tmp_path / "plain.toml").read_text("utf-8")


def test_nothing_said_is_asked_again(tmp_path: Path) -> None:
    done = sit(tmp_path / "a.toml", {"gust": ["", "105 mph"]})
    assert done.exit_code == 0
    assert 'write "?" if you don\'t know' in done.output


def test_a_doubtful_answer_is_taken_with_its_warning(tmp_path: Path) -> None:
    done = sit(tmp_path / "a.toml", {"gust": ["60 mph"]})
    assert "not the worst wind remembered" in " ".join(done.output.split())


def test_a_tilt_that_digs_into_the_ground_is_told_at_once(tmp_path: Path) -> None:
    """Panels of 11 ft 6 in up the slope reach 5 ft below the beam at 60 deg, by the sine."""
    changes = {"height": ["4 ft 6 in"], "tilts": ["60 deg", "15 deg"]}
    done = sit(tmp_path / "a.toml", changes)
    assert done.exit_code == 0
    assert "below grade" in done.output


def test_back_puts_the_question_before_again(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    broken_off = {"soil": ["sand", "back"], "grid": [], "weight": ["49 lb"], "size": []}
    assert sit(tmp_path / "b.toml", broken_off).exit_code != 0
    lines = ["yes", "105 mph", "back", "90 mph", "clay"]
    rest = typed({}).split("\n")[3:]
    done = CliRunner().invoke(new, [str(path), "--ask"], input="\n".join([*lines, *rest]))
    assert done.exit_code == 0, done.output
    assert read_rack(path).site.map_gust == pytest.approx(90 * MPH)


def test_two_posts_are_asked_how_far_apart(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    done = sit(path, {"posts": ["2"], "lock": ["pin 5/8 in"]})
    assert done.exit_code == 0, done.output
    rack = read_rack(path)
    assert rack.posts.positions == pytest.approx((-3.5 * FOOT, 3.5 * FOOT))
    assert isinstance(rack.sleeve.lock, Pin)


def test_answers_that_do_not_fit_together_can_be_put_right(tmp_path: Path) -> None:
    """A hole of 10 in is taken: no post of 10.75 in outside goes into it."""
    path = tmp_path / "a.toml"
    lines = typed({"post": ["10.75 in x 0.365 in"]}).split("\n")[:-2]
    again = str(next(n for n, q in enumerate(questions_to_put({}), 1) if q.name == "post"))
    done = CliRunner().invoke(
        new, [str(path), "--ask"], input="\n".join([*lines, again, "4 in nominal", "n", ""])
    )
    assert done.exit_code == 0, done.output
    assert "do not fit together" in done.output
    assert read_rack(path).posts.pipe.label.startswith("4 in nominal")


def test_nothing_is_asked_where_the_file_could_not_be_written(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("precious", encoding="utf-8")
    done = sit(path)
    assert isinstance(done.exception, InputError)
    assert "exists already" in str(done.exception)
    assert "of 15" not in done.output
    lost = sit(tmp_path / "nowhere" / "a.toml")
    assert isinstance(lost.exception, InputError)


def test_it_goes_on_to_compare_if_wanted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    compared = []
    monkeypatch.setattr(compare.command, "callback", lambda **options: compared.append(options))
    path = tmp_path / "a.toml"
    assert sit(path, end="y").exit_code == 0
    assert [options["file"] for options in compared] == [path]


def test_what_was_answered_before_the_end_of_the_input_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "half.toml"
    done = CliRunner().invoke(new, [str(path), "--ask"], input="no\n105 mph\nsand\n4 x 2\n")
    assert done.exit_code != 0
    assert "has what was answered. Still open: size, weight," in " ".join(done.output.split())
    text = path.read_text(encoding="utf-8")
    assert 'map_gust = "105 mph"' in text
    assert "# NOT ANSWERED: beam.length: measure it" in text
    with pytest.raises(InputError) as wrong:
        read_rack(path)
    assert "tilts: is missing" in str(wrong.value)


def test_nothing_is_written_where_nothing_was_answered(tmp_path: Path) -> None:
    path = tmp_path / "none.toml"
    done = CliRunner().invoke(new, [str(path), "--ask"], input="")
    assert done.exit_code != 0
    assert "no file is written" in done.output
    assert not path.exists()
