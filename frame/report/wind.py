"""What weighs on the rack, and how the map gust becomes force on it, with every factor."""

from collections.abc import Callable, Sequence

from rich.console import Group
from rich.table import Table

from frame.loads.combinations import ASD_WINDY
from frame.loads.expected_winds import ONE_SIDED as EXPECTED_ONE_SIDED
from frame.loads.expected_winds import WIND
from frame.loads.uneven import ONE_SIDED
from frame.loads.wind import DIRECTIONALITY, GUST_EFFECT
from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.report.tables import new_table, once, under_title
from frame.report.words import tilt
from frame.tables.expected import spreads
from frame.units import head_unit, show, show_number
from frame.verdict.weights import lying
from frame.verdict.wind_forces import TiltedWind, wind_forces

SLOW = "26.11.5, at most: it shakes less than once a second in some ground or wind"
CHAIN = "From the map gust to the force on the panels"
WEIGHTS = "What weighs on it beside the wind"


def weights(rack: Rack, system: str) -> Group:
    """Return the rack's own weight, snow, ice and a worker, in units of `system`."""
    made = new_table("load", ">tilt", ">on panels", ">in all", "from")
    for one in lying(rack):
        made.add_row(
            one.words,
            "-" if one.tilt is None else tilt(one.tilt),
            "-" if one.pressure is None else show(one.pressure, "pressure", system),
            show(one.total, "force", system),
            one.source,
        )
    mapped = show(rack.site.snow, "pressure", system)
    snow = (
        f"Snow: 0.7 Ce Ct Cs of the map's {mapped} on the ground, at low tilts the least of "
        "7.3.3; all over, or slid to the lower half, or on one half. "
    )
    return under_title(
        WEIGHTS, made, f"{snow if rack.site.snow > 0 else ''}Whole, before the factors of 2.4.1."
    )


def wind_chain(rack: Rack, results: Sequence[BracingResult], system: str) -> Group:
    """Return the chain gust, velocity pressure, coefficient, force, in units of `system`.

    `results`: of the bracings told of, which may be slow.
    """
    at = wind_forces(rack)
    given = rack.site.pressure > 0
    return under_title(
        CHAIN,
        _given(rack, at, system) if given else _factors(rack, at, _slow(results), system),
        _forces(rack, at, system, given=given),
        *_notes(),
    )


def _given(rack: Rack, at: Sequence[TiltedWind], system: str) -> str:
    given = rack.site.pressure
    pressure, gust = show(given, "pressure", system), show(rack.site.map_gust, "speed", system)
    press = _span(at, lambda a: given / a.share.pressing, "pressure", system)
    lift = _span(at, lambda a: given / a.share.lifting, "pressure", system)
    return (
        f"The file gives it: {pressure} square to the panels in the map gust of {gust}, pressing "
        f"as well as lifting. The standard presses with {press} on the mean of all panels and "
        f"lifts with {lift}: each of its winds, on pipes, single panels, clamps and rails too, is "
        "counted in proportion."
    )


def _slow(results: Sequence[BracingResult]) -> str:
    """Return the gust effect factors over 0.85 that the code's margin counts, "" for none."""
    over = sorted(r.gust_effect for r in results if r.gust_effect > GUST_EFFECT)
    return " to ".join(dict.fromkeys(f"{g:.2f}" for g in (*over[:1], *over[-1:])))


def _factors(rack: Rack, at: Sequence[TiltedWind], slow: str, system: str) -> Table:
    site = rack.site
    made = new_table("what", ">value", "from")
    high = _span(at, lambda a: a.height, "length", system)
    hill = "the hill of the file, Fig. 26.8-1" if site.hill else "hill_factor, 26.8; 1 where flat"
    pressure = _span(at, lambda a: a.pressure, "pressure", system)
    told = [
        ("V, the map gust, 3 s", show(site.map_gust, "speed", system), "the file"),
        (
            f"Kz, exposure {site.exposure}, panels {high} up",
            _span(at, lambda a: a.exposure, "number", system),
            "ASCE/SEI 7-22 Table 26.10-1; nothing under 15 ft (4.6 m) counts lower",
        ),
        ("Kzt, hill", _span(at, lambda a: a.hill, "number", system), hill),
        (
            "Ke, height above the sea",
            _span(at, lambda a: a.elevation, "number", system),
            "Table 26.9-1",
        ),
        ("q = 0.613 Kz Kzt Ke V2 [Pa, m/s]", pressure, "Eq. 26.10-1"),
        ("Kd, direction", f"{DIRECTIONALITY:g}", "Table 26.6-1, once, in p"),
        ("G, gust effect, in F below", f"{GUST_EFFECT:g}", "26.11.1"),
        *([("G in the code's margin", slow, SLOW)] if slow else []),
        ("A, panels without gaps", show(rack.panels.area, "panel area", system), "the file"),
        ("c, panels up the slope", show(rack.panels.chord, "length", system), "the file"),
        ("h, grade to the beam", show(rack.posts.height, "length", system), "the file"),
    ]
    for row in told:
        made.add_row(*row)
    return made


def _forces(rack: Rack, at: Sequence[TiltedWind], system: str, *, given: bool) -> Table:
    force, moment = head_unit("force", system), head_unit("moment", system)
    heads = ("p / q Kd G",) * 2 if given else ("CN low\nhalf", "CN high\nhalf")
    made = new_table(
        "tilt", "wind", *(f">{h}" for h in heads), f">F, square\n{force}", f">level\n{force}",
        f">down\n{force}", f">at grade\n{moment}", f">about beam\n{moment}", f">swing\n{moment}",
    )  # fmt: skip
    tilts = once([tilt(a.tilt) for a in at for _ in a.forces])
    for leaning, one in zip(tilts, (f for a in at for f in a.forces), strict=True):
        forces = [show_number(v, "force", system) for v in (one.square, one.level, one.down)]
        moments = (one.at_grade, one.about_beam, one.swing)
        made.add_row(
            leaning,
            one.wind.name,
            f"{one.low:.2f}",
            f"{one.high:.2f}",
            *forces,
            *(show_number(m, "moment", system) for m in moments),
        )
    return made


def _notes() -> tuple[str, ...]:
    share, off = spreads()[WIND], spreads()[EXPECTED_ONE_SIDED].median
    chain = (
        "F = q Kd G CN A, CN the mean of both halves (Fig. 27.3-4), whole, at the map gust; in "
        "any other gust as its square. Low and high: edges of the panels; lifting negative. "
        "Front: wind in the face; back: from behind; A, B: the figure's cases. The air below is "
        "free, or obstructed: blocked; the worse counts, part by part."
    )
    moments = (
        "About beam: q Kd G A (CN low - CN high) / 2 times c / 4, turning the low edge down: F "
        "acts so far off the middle. At grade: level times h, less about beam; first order, all "
        f"posts, wind on pipes apart. Swing: level times {ONE_SIDED:g} of the panels' spread, a "
        "gust on one half (judgement after Fig. 29.3-1)."
    )
    taken = (
        f"The code's margin takes {ASD_WINDY[0].wind:g} of this (2.4.1); what goes first is "
        f"expected at {share.median:g} of it ({share.low:g} to {share.high:g}), swing at {off:g} "
        "of the spread (judgement). Rails and clamps also meet local gusts, Fig. 30.5-1. Not run: "
        "wind from a quarter (27.3.2 has tables along the two axes only; the gust on one half "
        "stands for it, judgement), wind on bare guys."
    )
    return chain, moments, taken


def _span(
    at: Sequence[TiltedWind], value: Callable[[TiltedWind], float], kind: str, system: str
) -> str:
    """Return a value of every tilt: one, or the least to the largest."""
    values = sorted(value(a) for a in at)
    return " to ".join(dict.fromkeys(show(v, kind, system) for v in (values[0], values[-1])))
