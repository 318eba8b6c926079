"""`rack draw --json`: the numbers of the panes, which are those of the figure's artists."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.cli.draw import command
from frame.draw.two_panes import two_panes
from frame.units import show
from tests.builders import case, path_of
from tests.decided import set_beside
from tests.drawn import named

NAME = "orchard_wall"
BRACED = ("knees", "guys")


@pytest.mark.usefixtures("solved_once")
def test_its_numbers_are_those_of_the_picture(tmp_path: Path) -> None:
    words = ["--bracing", "knees,guys", "--json", "-o", str(tmp_path / "a.png")]
    done = CliRunner().invoke(command, [str(path_of(NAME)), *words], catch_exceptions=False)
    assert done.exit_code == 0, done.output
    told = json.loads(done.stdout)
    assert done.stderr.startswith("Wrote ")
    assert (told["schema"], told["rack"]) == (1, "orchard wall")
    shown = set_beside(case(NAME), BRACED)
    system = shown.rack.units
    figure = two_panes(shown, system)
    figure.canvas.draw()
    drawn = named(figure)
    assert [one["title"] for one in told["racks"]] == ["bare", "knees + guys"]
    for one in told["racks"]:
        title, weight, wind = one["title"], one["weight"], one["wind"]
        assert show(weight["droop"], "movement", system) in drawn[f"sag {title}"]
        assert show(wind["sway"], "movement", system) in drawn[f"sway {title}"]
        assert show(wind["torque"], "torque", system) in drawn[f"swing {title}"]
        parts = {f["part"] for f in (*weight["flexes"], *wind["flexes"])}
        said = re.findall(r"flexes here: the (\w+)", drawn[f"flex {title}"].lower())
        assert said
        assert {s.rstrip("s") for s in said} <= parts
    assert [g["name"] for g in told["racks"][1]["wind"]["guys"]]
    assert not told["racks"][0]["wind"]["guys"]
