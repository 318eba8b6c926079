"""Editing a rack file: what TOML reads back is what was asked for, and all else stays."""

import tomllib
from pathlib import Path

import pytest

from frame.casefile.write import edited, without_section, write_rack
from frame.errors import InputError

CASES = Path(__file__).parents[3] / "cases"
TEXT = """# head
name = "one"   # its name
[post]
# about the post
pipe = "4 in nominal"
depth = "5 ft"   # from grade

[[guys]]
wire = "a"
[[guys]]
wire = "b"
"""


def test_values_change_and_comments_stay() -> None:
    made = edited(TEXT, {("post", "depth"): "6 ft", ("guys 2", "wire"): "c", ("", "name"): "two"})
    read = tomllib.loads(made)
    assert read == {
        "name": "two",
        "post": {"pipe": "4 in nominal", "depth": "6 ft"},
        "guys": [{"wire": "a"}, {"wire": "c"}],
    }
    assert "# head" in made
    assert "# about the post" in made


def test_keys_come_and_go_and_sections_are_made() -> None:
    made = edited(
        TEXT,
        {
            ("post", "hole"): "12 in",
            ("post", "depth"): None,
            ("sleeve", "pin"): "5/8 in",
            ("rails", "u_bolts"): 2,
            ("rails", "positions"): ["-1 in", "1 in"],
            ("guys 1", "anchor"): {"kind": "deadman", "depth": "4 ft"},
        },
    )
    read = tomllib.loads(made)
    assert read["post"] == {"pipe": "4 in nominal", "hole": "12 in"}
    assert read["sleeve"] == {"pin": "5/8 in"}
    assert read["rails"] == {"u_bolts": 2, "positions": ["-1 in", "1 in"]}
    assert read["guys"][0]["anchor"] == {"kind": "deadman", "depth": "4 ft"}
    assert read["guys"][1] == {"wire": "b"}


@pytest.mark.parametrize("case", sorted(CASES.glob("*.toml")), ids=lambda p: p.stem)
def test_every_case_file_can_be_edited(case: Path) -> None:
    text = case.read_text(encoding="utf-8")
    wanted = tomllib.loads(text)
    wanted["beam"]["length"] = "12 ft"
    assert tomllib.loads(edited(text, {("beam", "length"): "12 ft"})) == wanted
    assert edited(text, {}) == text


@pytest.mark.parametrize(
    "text",
    [
        'post = { pipe = "4 in nominal", depth = "5 ft" }\n',
        'post.depth = "5 ft"\n',
        '[post]\ndepth = """\n5 ft"""\n',
    ],
)
def test_a_layout_that_cannot_be_edited_safely_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="then size it again"):
        edited(text, {("post", "depth"): "6 ft"})


def test_a_section_goes_with_the_comments_above_it() -> None:
    stood = '\n# it stood that\n[stood]\ngust = "50 mph"\n# guys\n[[guys]]'
    text = TEXT.replace("\n[[guys]]", stood, 1)
    made = without_section(text, "stood")
    assert "stood" not in made
    assert "# guys\n[[guys]]" in made
    assert tomllib.loads(made) == tomllib.loads(TEXT)
    assert without_section(made, "stood") == made


def test_no_file_is_written_over_without_force(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    write_rack(path, "a = 1\n")
    with pytest.raises(InputError, match="--force"):
        write_rack(path, "a = 2\n")
    assert path.read_text() == "a = 1\n"
    write_rack(path, "a = 2\n", force=True)
    assert path.read_text() == "a = 2\n"
    with pytest.raises(InputError, match="cannot be written"):
        write_rack(tmp_path / "none" / "new.toml", "a = 1\n")
