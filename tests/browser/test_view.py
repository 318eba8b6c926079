"""The view that a reader turns: every place and number in it is the program's own.

The page works racks out by itself, from unit answers stored in it. Here the same settings are
solved by the program, and what stands in the picture and under it is read back and compared.
"""

import random
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from markupsafe import Markup

from frame.bracing.movement import SERVICE, level_sway, sleeves, weighed, worst_sag
from frame.draw.curve import deflected
from frame.draw.panes import MOST_TIMES, SHARE
from frame.idealize.posts import beam_mark
from frame.page.page import page_templates
from frame.page.view import as_script, view_data
from frame.pictured.choices import ViewChoice, at_tilts
from frame.pictured.flexing import STATIONS, fibre_use
from frame.rack.rack import bracing_title
from frame.solved.alpha import MEDIAN_ALPHA
from frame.units import show
from tests.browser.chromium import needs_chromium, opened
from tests.builders import MPH, SOME_CASES, case, changed

pytestmark = [needs_chromium, pytest.mark.xdist_group("odd page")]
SETTINGS = 20
PIXEL = 1.0
SPEEDS = {"us": MPH, "metric": 1.0}
PULL = 1e-3
"""Share of a guy's pull by which the page may differ."""
LEAST_PULL = 0.5
"""Pull under which a share means nothing [N]."""
USE = 3.0
"""Hundredths of the yield that the page may leave out: the bow of pipes between their nodes."""
NOTHING = {"movement": 1e-6, "force": 0.05, "torque": 0.05}
"""What of a quantity nobody reads, SI."""
PAGE = """<!DOCTYPE html><meta charset="utf-8"><style>{{ css }}</style>
{% include "view/view.html.jinja" %}
{% include "view/scripts.html.jinja" %}"""


def choices_of(rack) -> list[ViewChoice]:
    bares: dict = {}
    made = []
    for bracing in rack.bracings():
        held = at_tilts(rack, bracing, bares)
        made.append(
            ViewChoice(
                title=bracing_title(bracing),
                rack=rack,
                bracing=bracing,
                sag=worst_sag([b for h in held for b in h.blocks]),
                first_slip=None,
                first_break=None,
                held=held,
            )
        )
    return made


@dataclass(frozen=True)
class Set:
    """One setting of the view, and the program's answer to it."""

    choice: int
    tilt: int
    end: int
    wind: int
    gust: int
    alone: bool
    turn: int
    dip: int


def settings(choices: list[ViewChoice], seed: str) -> list[Set]:
    some, rack = random.Random(seed), choices[0].rack
    found = []
    for _ in range(SETTINGS):
        i = some.randrange(len(choices))
        tilt = some.randrange(len(choices[i].held))
        held = choices[i].held[tilt]
        found.append(
            Set(
                choice=i,
                tilt=tilt,
                end=some.randrange(len(held.blocks)),
                wind=some.randrange(len(held.bare.winds)),
                gust=some.randrange(int(rack.site.map_gust / SPEEDS[rack.units])),
                alone=some.random() < 0.5,
                turn=some.randrange(-180, 181),
                dip=some.randrange(-10, 91),
            )
        )
    return found


def page_of(choices: list[ViewChoice], folder: Path, system: str) -> Path:
    rack = choices[0].rack
    data = view_data(choices, rack.site.service_gust, rack.tilts[0], system, 10**7)
    assert len(data["racks"]) == len(choices)
    file = folder / "view.html"
    css = Path("frame/page/view/view.css").read_text("utf-8")
    made = page_templates().from_string(PAGE)
    filled = {"responses": Markup(as_script(data)), "css": Markup(css)}
    file.write_text(made.render(filled, left_out=data["left_out"]), "utf-8")
    few = view_data(choices, rack.site.service_gust, rack.tilts[0], system, 0)
    assert few["left_out"] == (len(choices) > len(few["racks"]))
    return file


READ = """(set) => {
  const at = (name) => document.querySelector(`[data-set="${name}"]`);
  const put = (name, value) => {
    at(name).value = value;
    if (at(name).value !== String(value)) throw new Error(`${name} cannot be ${value}`);
    at(name).dispatchEvent(new Event("input", { bubbles: true }));
  };
  Object.entries(set).forEach(([name, value]) => put(name, value));
  const svg = document.querySelector("#turned svg");
  const numbers = (d) => d.slice(1).split("L").map((p) => p.split(" ").map(Number));
  return {
    ...svg.dataset,
    box: svg.getAttribute("viewBox").split(" ").map(Number),
    members: [...svg.querySelectorAll("[data-member]")].map(
      (p) => [Number(p.dataset.member), numbers(p.getAttribute("d"))]),
    guys: Object.fromEntries([...svg.querySelectorAll("[data-guy]")].map(
      (p) => [p.dataset.guy, Number(p.dataset.pull)])),
    said: Object.fromEntries([...svg.querySelectorAll("[data-name]")].map(
      (t) => [t.dataset.name, [...t.children].map((s) => s.textContent).join(" ")])),
    rows: Object.fromEntries([...document.querySelectorAll("#turned tbody tr")].map(
      (r) => [r.dataset.name, r.children[1].textContent])),
    caption: document.querySelector("[data-out=caption]").textContent,
  };
}"""


def on_paper(points: np.ndarray, set_: Set, got: dict) -> np.ndarray:
    """Turn about the upright, then about the level line to the right; look along what is left."""
    t, d = np.radians([set_.turn, set_.dip])
    about_z = np.array([[np.cos(t), np.sin(t), 0], [-np.sin(t), np.cos(t), 0], [0, 0, 1]])
    about_x = np.array([[1, 0, 0], [0, np.cos(d), -np.sin(d)], [0, np.sin(d), np.cos(d)]])
    middle = np.array([float(v) for v in got["middle"].split()])
    seen = (points - middle) @ (about_x @ about_z).T
    width, height = got["box"][2:]
    scale = float(got["scale"])
    return np.stack([width / 2 + scale * seen[:, 0], height / 2 - scale * seen[:, 2]], axis=1)


def curves(model, moved: np.ndarray) -> list[tuple[np.ndarray, np.ndarray]]:
    """Places and movements of every member, at the stations drawn."""
    found = []
    for m in model.members:
        arms, nodes = np.array(m.setback), list(m.ends)
        ends = np.array([model.nodes[n].xyz for n in nodes]) + arms
        six = moved[nodes]
        carried = six[:, :3] + np.cross(six[:, 3:], arms)
        freed = bool(m.free[0]), bool(m.free[1])
        at = ends[0] + np.linspace(0, 1, STATIONS)[:, None] * (ends[1] - ends[0])
        found.append((at, deflected(ends, carried, six[:, 3:], freed, STATIONS)))
    return found


def fitting(model, lines) -> int:
    """The rule of the two panes: the largest movement no more than a tenth of the rack."""
    xyz = np.array([n.xyz for n in model.nodes])
    room = SHARE * min(np.ptp(xyz[:, 0]), np.ptp(xyz[:, 2]))
    most = max(np.linalg.norm(moved, axis=1).max() for _, moved in lines)
    return next((t for t in MOST_TIMES if t * most <= room), 1)


def program(choices: list[ViewChoice], at: Set):
    held = choices[at.choice].held[at.tilt]
    block = held.blocks[at.end]
    frame = block.frame
    table = frame.cases(SERVICE)
    factors = table.at(frame.pressure(at.gust * SPEEDS[frame.rack.units]))[[at.wind]]
    answer = block.grown(block.answer(factors), MEDIAN_ALPHA)
    return block, answer, block.grown(weighed(block), MEDIAN_ALPHA).displacements[0]


def sunk(block, rest: np.ndarray) -> np.ndarray:
    """What the beam comes down at its posts, as the pane of the weight leaves it out."""
    marks, posts = block.frame.ideal.marks, range(len(block.rack.posts.positions))
    down = np.mean([rest[marks[beam_mark(block.rack, i)], 2] for i in posts])
    return np.array([0, 0, down, 0, 0, 0])


def near(text: str, value: float, kind: str, system: str) -> bool:
    """Whether a text is a value as the program writes it, or one a shade off.

    Numbers are stored in the page to nine figures and two bytes: by that a last figure may turn.
    """
    shade = 1e-4 * abs(value) + NOTHING[kind]
    return text in {show(value + off, kind, system) for off in (-shade, 0.0, shade)}


@pytest.mark.parametrize("name", SOME_CASES)
def test_places_pulls_and_labels_are_the_programs(name: str, tmp_path: Path, started) -> None:
    rack = case(name)
    system, choices = rack.units, choices_of(rack)
    page, heard = opened(started, page_of(choices, tmp_path, system))
    seen = 0
    for at in settings(choices, name):
        got = page.evaluate(
            READ,
            {
                "rack": at.choice, "tilt": at.tilt, "end": at.end, "wind": at.wind,
                "gust": at.gust, "show": "wind" if at.alone else "all",
                "turn": at.turn, "dip": at.dip,
            },
        )  # fmt: skip
        block, answer, rest = program(choices, at)
        model = block.frame.ideal.model
        top = float(level_sway(block, answer)[0])
        if answer.sways_over[0] or top > rack.posts.height:
            assert got["gone"] == "topples", at
            assert "sway" not in got["rows"]
            continue
        assert got["gone"] == ""
        moved = answer.displacements[0] - (rest if at.alone else sunk(block, rest))
        lines = curves(model, moved)
        times = int(got["times"])
        assert times == fitting(model, lines)
        stated = "at its true size" if times == 1 else f"drawn {times} times larger"
        assert stated in got["caption"]
        assert len(got["members"]) == len(model.members)
        for member, drawn in got["members"]:
            place, way = lines[member]
            off = np.array(drawn) - on_paper(place + times * way, at, got)
            assert np.hypot(*off.T).max() < PIXEL, (at, model.members[member].part)
        for guy, pull, there in zip(model.guys, answer.tensions[0], block.fitted, strict=True):
            if there:
                told, drawn = got["rows"][f"guy {guy.name}"], got["guys"][guy.name]
                assert drawn == pytest.approx(float(pull), rel=PULL, abs=LEAST_PULL)
                assert told == "slack" if drawn == 0 else near(told, drawn, "force", system)
        if at.gust:
            assert near(got["rows"]["sway"], top, "movement", system), (at, top)
            assert got["said"]["sway"].endswith(got["rows"]["sway"])
        if len(rack.posts.positions) == 1:
            torque = abs(float(answer.connection_forces[0, sleeves(block)[0], 5]))
            assert near(
                got["rows"].get("swing", show(torque, "torque", system)), torque, "torque", system
            )
        harder = fibre_use(block, answer).max(axis=1)
        for kind, told in ((k.split()[1], v) for k, v in got["rows"].items() if "use" in k):
            kinds = [m.part.kind == kind for m in model.members]
            assert float(told.rstrip(" %")) == pytest.approx(100 * harder[kinds].max(), abs=USE)
        seen += 1
    assert seen > SETTINGS // 2
    assert not heard.errors
    page.close()


def test_names_from_the_file_are_text(tmp_path: Path, started) -> None:
    odd = "</script><b>שמאל</b> 😀"
    rack = changed("orchard_wall", ("[[guys]]\n", f"[[guys]]\nname = '{odd}'\n"))
    page, heard = opened(started, page_of(choices_of(rack), tmp_path, rack.units))
    titles = page.evaluate(
        "[...document.querySelector('[data-set=rack]').options].map((o) => o.textContent)"
    )
    assert titles == [bracing_title(b) for b in rack.bracings()]
    page.locator("[data-set=rack]").select_option(label=odd)
    assert odd in page.locator("#turned-caption").text_content()
    assert page.locator("b").count() == 0
    assert not heard.errors
    page.close()
