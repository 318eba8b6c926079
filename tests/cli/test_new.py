"""`rack new` and `rack schema`."""

import json
import re
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.casefile.read import parse_rack, read_rack
from frame.casefile.starter import starter_text
from frame.cli.new import command as new
from frame.cli.schema import command as schema
from frame.errors import InputError
from frame.rack.sleeve import Pin

KEY = re.compile(r"(?:# )?([a-z_]+) = (.*)")


def options() -> list[tuple[int, str, str]]:
    """Line, section and key of every key the starter shows commented out."""
    found, section = [], ""
    for number, line in enumerate(starter_text().splitlines()):
        if head := re.match(r"(?:# )?\[+([a-z]+)\]+", line):
            section = head[1]
        elif line.startswith("# ") and (match := KEY.match(line)):
            found.append((number, section, match[1]))
    return found


def uncommented(*numbers: int) -> str:
    lines = starter_text().splitlines()
    for number in numbers:
        lines[number] = lines[number].removeprefix("# ")
    return "\n".join(lines)


def test_new_writes_a_file_that_reads(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    done = CliRunner().invoke(new, [str(path)])
    assert done.exit_code == 0
    assert str(path) in done.output
    rack = read_rack(path)
    assert rack.name == "my rack"
    assert rack.bracing_names == ("knees", "guys")


def test_a_name_with_a_blank_is_quoted_in_what_to_type_next(tmp_path: Path) -> None:
    path = tmp_path / "my rack.toml"
    done = CliRunner().invoke(new, [str(path)])
    assert f'rack compare "{path}"' in done.output


def test_new_never_writes_over_a_file(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("precious", encoding="utf-8")
    refused = CliRunner().invoke(new, [str(path)])
    assert isinstance(refused.exception, InputError)
    assert str(refused.exception) == (
        f"{path}: exists already; choose another name, or add --force to write over it"
    )
    assert path.read_text(encoding="utf-8") == "precious"


def test_new_writes_over_a_file_when_told_to(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("old", encoding="utf-8")
    assert CliRunner().invoke(new, [str(path), "--force"]).exit_code == 0
    assert path.read_text(encoding="utf-8") == starter_text()


@pytest.mark.parametrize("place", ["", "no such folder/mine.toml"])
def test_new_says_why_it_cannot_write(tmp_path: Path, place: str) -> None:
    refused = CliRunner().invoke(new, [str(tmp_path / place), "--force"])
    assert isinstance(refused.exception, InputError)
    assert "cannot be written" in str(refused.exception)


@pytest.mark.parametrize(("number", "section", "key"), options())
def test_every_key_the_starter_comments_out_can_be_taken_in(
    number: int, section: str, key: str
) -> None:
    wanted = [number]
    if section in ("ties", "stays", "prices", "stock", "sticks", "stood", "measured"):
        wanted = [n for n, s, _ in options() if s == section]
        lines = starter_text().splitlines()
        wanted += [n for n, line in enumerate(lines) if re.match(rf"# \[+{section}\]", line)]
    text = uncommented(*wanted)
    if key == "spacing":
        text = text.replace("# count = 1 ", "count = 2 ")
    if key == "positions":
        places = ("-6 ft", "-4 ft", "-30 in", "-1 ft", "1 ft", "30 in", "4 ft", "6 ft")
        text = re.sub(r"positions = \[.*\]", f"positions = {json.dumps(places)}", text)
    rack = parse_rack(text, "mine.toml")
    if key not in ("listed", "pin"):
        assert f"{section}.{key}" not in {a.key for a in rack.assumptions}
    assert isinstance(rack.sleeve.lock, Pin) == (key == "pin")


def described() -> dict[str, dict[str, object]]:
    return json.loads(CliRunner().invoke(schema).output)


def test_the_schema_is_json_schema_and_describes_every_key() -> None:
    found = described()
    assert found["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert found["type"] == "object"
    models = {"rack": found, **found["$defs"]}
    assert len(models) == 21
    for model in models.values():
        assert model["additionalProperties"] is False
        assert model["description"]
        assert set(model.get("required", ())) <= set(model["properties"])
        for key, value in model["properties"].items():
            target = json.dumps(value)
            assert "description" in value or "#/$defs/" in target, key


def test_the_starter_explains_every_key_of_the_schema() -> None:
    found, text = described(), starter_text()
    shown = {match[1] for line in text.splitlines() if (match := KEY.match(line))}
    shown |= set(re.findall(r"\b([a-z_]+) = ", text)) | set(tomllib.loads(text))
    keys = {key for model in (found, *found["$defs"].values()) for key in model["properties"]}
    optional = {"ties", "stays", "prices", "stock", "sticks", "stood", "measured"}
    assert keys - shown <= optional
    assert all(f"[{section}]" in text for section in optional)
