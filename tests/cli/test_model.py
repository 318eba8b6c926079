"""`rack model`: the document alone must be enough to rebuild the frame and meet its answers."""

import json
from math import atan2, degrees
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from click.testing import CliRunner
from Pynite import FEModel3D

from frame.cli.model import command
from frame.errors import InputError
from tests.cli.rebuilt import rebuild

CASES = Path(__file__).parents[2] / "cases"
SIX = ("DX", "DY", "DZ", "RX", "RY", "RZ")
KEYS = ("displacements", "member_forces", "connection_forces", "guy_tensions", "reactions")
PINNED_AFTER = ('ends = "welded"\nfitted = "jacked"', 'ends = "pinned"\nfitted = "after"')
PINNED_BEFORE = ('ends = "welded"\nfitted = "jacked"', 'ends = "pinned"\nfitted = "before"')
STAYS = """
[stays]
from = "beam ends"
pipe = "1-1/4 in nominal"
out = "4 ft"
along = "1 ft"
fitted = "after"
"""


def run(*words: str) -> str:
    done = CliRunner().invoke(command, list(words), catch_exceptions=False)
    assert done.exit_code == 0
    return done.output


def model(file: Path, *words: str) -> dict[str, Any]:
    return json.loads(run(str(file), "--json", *words))


def variant(folder: Path, change: tuple[str, str], more: str = "") -> Path:
    text = (CASES / "boat_shed.toml").read_text(encoding="utf-8")
    lines = [line.split("  #")[0].rstrip() for line in text.splitlines()]
    plain = "\n".join(lines)
    assert change[0] in plain
    path = folder / "variant.toml"
    path.write_text(plain.replace(*change) + more, encoding="utf-8")
    return path


def meets(document: dict[str, Any]) -> float:
    """Worst difference from the rebuilt frame over the largest of its kind in the case.

    Forces that are next to nothing beside those in the members have only rounding to compare.
    """
    worst = 0.0
    for case, found in zip(document["cases"], rebuild(document), strict=True):
        told = {key: np.array(case[key], dtype=float) for key in KEYS if key != "reactions"}
        told["reactions"] = np.array([six for _, six in case["reactions"]])
        for half in (np.s_[:, :3], np.s_[:, 3:]):
            least = 1e-3 * np.abs(found["member_forces"].reshape(-1, 6)[half]).max()
            for key in KEYS:
                ours, theirs = (halved(part[key], half) for part in (told, found))
                floor = 0.0 if key == "displacements" else least
                scale = max(np.abs(theirs).max(initial=0.0), floor)
                worst = max(worst, np.abs(ours - theirs).max(initial=0.0) / scale)
    return worst


def halved(values: np.ndarray, half: tuple[slice, slice]) -> np.ndarray:
    """Forces or moments, movements or turns; guy tensions are both."""
    return values if values.ndim == 1 else values.reshape(-1, 6)[half]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("boat_shed", ()),
        ("boat_shed", ("--bracing", "knees,guys", "--tilt", "35")),
        ("wash_house", ("--bracing", "knees,ties", "--gust", "30 m/s")),
        ("fifteen_lines", ()),
        ("salvage_yard", ("--bracing", "post-top guys,beam-end guys,corner guys", "--tilt", "22")),
    ],
)
def test_the_document_alone_rebuilds_every_case(name: str, words: tuple[str, ...]) -> None:
    assert meets(model(CASES / f"{name}.toml", *words)) < 1e-6


def test_it_rebuilds_parts_fitted_after_pinned_knees_and_stays(tmp_path: Path) -> None:
    document = model(variant(tmp_path, PINNED_AFTER, STAYS), "--bracing", "knees,stays,guys")
    assert {m["fitted"] for m in document["members"]} == {"before", "after"}
    assert any(m["free"] != [[], []] for m in document["members"])
    assert any(any(map(any, m["setback"])) for m in document["members"])
    assert any(s["fitted"] == "after" and all(s["fixed"]) for s in document["supports"])
    assert meets(document) < 1e-6


SLIGHT = 2e-3
STIFF = 1e3


def test_it_meets_pynite_bare() -> None:
    meets_pynite(model(CASES / "boat_shed.toml"))


def test_it_meets_pynite_with_setbacks_and_pinned_ends(tmp_path: Path) -> None:
    document = model(variant(tmp_path, PINNED_BEFORE), "--bracing", "knees", "--tilt", "35")
    assert all(m["fitted"] == "before" for m in document["members"])
    assert sum(m["free"] != [[], []] for m in document["members"]) == 2
    assert sum(any(map(any, m["setback"])) for m in document["members"]) == 2
    meets_pynite(document)


def meets_pynite(document: dict[str, Any]) -> None:
    """Movements of two cases within 0.5 %, PyNite (a general frame library) told the JSON."""
    names = ("D + W, front, A, gust left", "0.6D + 0.6W, back, B")
    cases = [c for c in document["cases"] if c["name"] in names]
    assert len(cases) == 2
    other = as_pynite(document, cases)
    for i, case in enumerate(cases):
        theirs = np.array(
            [
                [getattr(other.nodes[f"n{n}"], f)[f"case {i}"] for f in SIX]
                for n in range(len(document["nodes"]))
            ],
            dtype=float,
        )
        ours = np.array(case["displacements"])
        for half in (np.s_[:, :3], np.s_[:, 3:]):
            assert np.abs(ours[half] - theirs[half]).max() < 5e-3 * np.abs(theirs[half]).max()


def as_pynite(document: dict[str, Any], cases: list[dict[str, Any]]) -> FEModel3D:
    """Rigid arms and setbacks become stiff stubs, a sprung joint a short stub as soft in bending.

    The second node of a sprung joint has to stand `SLIGHT` above its first for that.
    """
    other = FEModel3D()
    sample = document["members"][0]
    other.add_material("steel", sample["E"], sample["G"], 0.3, 0.0)
    xyz = np.array([n["xyz"] for n in document["nodes"]], dtype=float)
    for joint in document["connections"]:
        if not (xyz[joint["ends"][1]] - xyz[joint["ends"][0]]).any():
            xyz[joint["ends"][1]] += (0.0, 0.0, SLIGHT)
    for i, at in enumerate(xyz):
        other.add_node(f"n{i}", *at)
    beam = next(m for m in document["members"] if m["part"] == "beam")
    rigid = {key: STIFF * beam[key] for key in ("A", "Iy", "Iz", "J")}
    for j, joint in enumerate(document["connections"]):
        add_joint(other, f"joint {j}", joint, rigid)
    for m, member in enumerate(document["members"]):
        add_member(other, f"m{m}", member, xyz, rigid)
    for support in document["supports"]:
        add_support(other, support)
    for load in document["unit_loads"]:
        add_load(other, load)
    for i, case in enumerate(cases):
        other.add_load_combo(f"case {i}", case["factors"])
    other.analyze_linear(check_stability=False)
    return other


def add_support(to: FEModel3D, support: dict[str, Any]) -> None:
    assert not any(support["fixed"])
    for freedom, k in zip(SIX, support["k"], strict=True):
        if k:
            to.def_support_spring(f"n{support['node']}", freedom, k)


def add_load(to: FEModel3D, load: dict[str, Any]) -> None:
    for node, six in load["nodes"]:
        for way, value in zip(("FX", "FY", "FZ", "MX", "MY", "MZ"), six, strict=True):
            to.add_node_load(f"n{node}", way, value, load["name"])
    for member, w in load["members"]:
        for way, value in zip(("FX", "FY", "FZ"), w, strict=True):
            to.add_member_dist_load(f"m{member}", way, value, value, case=load["name"])


def add_joint(to: FEModel3D, name: str, joint: dict[str, Any], rigid: dict[str, float]) -> None:
    assert joint["k"][:3] == [None] * 3
    assert joint["k"][5] is None
    section, bending = dict(rigid), joint["k"][3:5]
    if None not in bending:
        E = to.materials["steel"].E
        section["Iy"] = section["Iz"] = bending[0] * SLIGHT / E
    ends = tuple(f"n{n}" for n in joint["ends"])
    place(to, name, ends, section, np.array([0.3, 1.0, 0.2]))


def add_member(
    to: FEModel3D, name: str, member: dict[str, Any], xyz: np.ndarray, rigid: dict[str, float]
) -> None:
    ends = []
    for end, (node, arm) in enumerate(zip(member["ends"], member["setback"], strict=True)):
        ends.append(f"n{node}")
        if any(arm):
            ends[-1] = f"{name} end {end}"
            to.add_node(ends[-1], *(xyz[node] + arm))
            stub = (f"n{node}", ends[-1])
            place(to, f"{name} stub {end}", stub, rigid, np.array([0.0, 1.0, 0.0]))
    place(to, name, (ends[0], ends[1]), member, np.array(member["y_axis"]))
    flags = {
        f"R{f[1]}{e}": True for e, free in zip("ij", member["free"], strict=True) for f in free
    }
    if flags:
        to.def_releases(name, **flags)


def place(
    to: FEModel3D, name: str, ends: tuple[str, str], section: dict[str, Any], y: np.ndarray
) -> None:
    """Add a member rolled so that its local y lies as the document says."""
    to.add_section(name, section["A"], section["Iy"], section["Iz"], section["J"])
    to.add_member(name, *ends, "steel", name)
    axes = to.members[name].T()[:3, :3]
    to.members[name].rotation = degrees(atan2(axes[2] @ y, axes[1] @ y))


def test_it_says_what_it_is() -> None:
    document = model(CASES / "salvage_yard.toml", "--bracing", "corner guys", "--tilt", "30")
    assert document["schema"] == 1
    assert document["rack"] == "salvage yard"
    assert document["bracing"] == "corner guys"
    assert document["tilt_deg"] == pytest.approx(30.0)
    assert set(document["state"]) >= {"soil", "wall", "friction", "pretension"}
    assert len(document["guys"]) == 4
    cases = document["cases"]
    assert len({c["name"] for c in cases}) == len(cases)
    assert all(all(c["factors"].values()) for c in cases)
    still = next(c for c in cases if c["name"] == "D")
    assert still["gust"] is None
    # Still air: a gauge on each guy reads what the file asks for, 100 lb.
    assert still["guy_tensions"] == pytest.approx([100 * 4.4482216152605] * 4)
    gusts = {c["gust"] for c in cases} - {None}
    assert gusts == {document["gust"]}
    assert document["gust"] == pytest.approx(105 * 0.44704)


def test_defaults_are_bare_first_tilt_and_map_gust() -> None:
    document = model(CASES / "boat_shed.toml")
    assert document["bracing"] == "bare"
    assert document["guys"] == []
    assert document["tilt_deg"] == pytest.approx(15.0)
    assert document["gust"] == pytest.approx(110 * 0.44704)
    assert document == model(CASES / "boat_shed.toml", "--tilt", "15 deg", "--gust", "110 mph")


def test_the_weight_goes_into_the_ground() -> None:
    # Eight panels of 49 lb; the steel's own weight is what the members' lines of it add up to.
    document = model(CASES / "boat_shed.toml")
    loads = {load["name"]: load for load in document["unit_loads"]}
    panels = sum(six[2] for _, six in loads["panel weight"]["nodes"])
    assert panels == pytest.approx(-8 * 49 * 4.4482216152605)
    xyz = np.array([n["xyz"] for n in document["nodes"]])
    lengths = [np.linalg.norm(np.subtract(*xyz[m["ends"]])) for m in document["members"]]
    steel = sum(w[2] * lengths[m] for m, w in loads["steel weight"]["members"])
    steel += sum(six[2] for _, six in loads["steel weight"]["nodes"])
    still = next(c for c in document["cases"] if c["name"] == "D")
    up = sum(six[2] for _, six in still["reactions"])
    assert up == pytest.approx(-panels - steel)


def test_without_json_it_prints_a_short_page() -> None:
    page = run(str(CASES / "wash_house.toml"), "--bracing", "knees")
    assert page.startswith("wash house, knees, tilt 20 deg, gust 42 m/s")
    assert "load cases" in page
    assert "--json" in page
    assert len(page.splitlines()) < 25
    assert "mph" in run(str(CASES / "wash_house.toml"), "--units", "us")


def test_a_tilt_the_wind_tables_do_not_cover_is_said() -> None:
    assert "not covered by the wind tables" in run(str(CASES / "boat_shed.toml"), "--tilt", "50")


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--bracing", "knes"), '"knes" is not described'),
        (("--bracing", "bare,knees"), '"bare" stands alone'),
        (("--tilt", "120"), "--tilt: 120 deg is out of range; give a tilt from 0 deg"),
        (("--tilt", "steep"), '--tilt: "steep" is not an angle'),
        (("--tilt", "nan"), "--tilt: "),
        (("--tilt", "35 mph"), "--tilt: "),
        (("--gust", "78"), '--gust: "78" has no unit'),
        (("--gust", "0 mph"), '--gust: "0 mph" is out of range; give a gust above nil'),
        (("--gust", "900 mph"), '--gust: "900 mph" is out of range'),
        (("--gust", "-5 m/s"), "--gust: "),
    ],
)
def test_what_cannot_be_is_one_clear_message(words: tuple[str, ...], message: str) -> None:
    done = CliRunner().invoke(command, [str(CASES / "boat_shed.toml"), *words])
    assert isinstance(done.exception, InputError)
    assert message in str(done.exception)
    assert done.output == ""


def test_a_tilt_that_digs_in_is_refused(tmp_path: Path) -> None:
    low = variant(tmp_path, ('height = "6 ft 6 in"', 'height = "4 ft 6 in"'))
    done = CliRunner().invoke(command, [str(low), "--tilt", "60"])
    assert isinstance(done.exception, InputError)
    assert "--tilt: at 60 deg the low edge is" in str(done.exception)
