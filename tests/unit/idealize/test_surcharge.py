"""Snow, ice, a worker, the least pressure, a hill and a given pressure, by hand."""

from dataclasses import replace
from math import cos, exp, pi, radians, sin

import numpy as np
import pytest

from frame.idealize.deck import Slope
from frame.idealize.surcharge import surcharges, worker_places
from frame.loads.combinations import ASD_SNOW, ASD_WINDY, WHOLE_WIND
from frame.named.load_kind import LoadKind
from frame.parts.ground.posts import at_grade
from frame.rack.rack import Rack
from frame.rack.site import Hill
from frame.solved.frames import Frame
from frame.solved.situation import Situation, situation, wintry
from frame.verdict.verdict import LOADS
from tests.unit.parts.racks import FOOT, INCH, MPH, ONE_POST, POUND, at, block, first_order, solved

TILT = radians(15)
AREA = 8 * 41 * 69 / 144
"""Of the panels [ft2]."""
PSF = POUND / FOOT**2


def site(**change: object) -> Rack:
    return replace(ONE_POST, site=replace(ONE_POST.site, **change))


def fixed(rack: Rack = ONE_POST, tilt: float = TILT) -> Situation:
    one = block(rack, (), tilt)
    return first_order(situation(one, one.frame.fixed_cases(), [0.0]))


def pushed(now: Situation, label: str) -> float:
    """Push on the ground beyond that of the weight alone [lb]."""
    down = at_grade(now, 0).down
    return float(down[at(now, label)] - down[at(now, "D, leaning along")]) / POUND


def test_a_worker_hangs_at_the_end_of_the_beam() -> None:
    """300 lb (ASCE/SEI 7-22 Table 4.3-1) at half of 170.5 in from the post."""
    now = fixed()
    assert pushed(now, "D + Lr, worker, beam end, left") == pytest.approx(300, rel=1e-9)
    along = at_grade(now, 0)
    case, still = at(now, "D + Lr, worker, beam end, left"), at(now, "D, leaning along")
    across = 8 * 49.0 * (2.8125 + 0.8125) + 8 * 138.5 / 12 * 1.89 * 2.8125
    expected = np.hypot(300 * 170.5 / 2, across * sin(TILT))
    assert along.moment[case] == pytest.approx(expected * POUND * INCH, rel=2e-3)
    assert along.shear[case] == pytest.approx(0.0, abs=0.5)
    assert along.shear[still] > 1.0


def test_the_worker_is_tried_at_both_ends_of_the_beam() -> None:
    assert len(worker_places(ONE_POST)) == 2
    labels = fixed().table.labels
    assert sum("worker" in label for label in labels) == 2


def test_what_only_some_sites_have_is_told_from_what_loads_every_rack() -> None:
    """Whoever stops at a rack short of its wind still has to see what its site asks for beside."""
    mild, harsh = ONE_POST, site(snow=25 * PSF, ice=INCH / 2, ice_gust=40 * MPH)
    by_rack = {rack: block(rack, (), TILT).frame for rack in (mild, harsh)}
    leaning = {LoadKind.LEANING}
    kinds = {r: {a.kind for a in surcharges(r, Slope(TILT))} | leaning for r in by_rack}
    assert kinds[mild] == {kind for kind in LoadKind if not kind.of_site}
    assert kinds[harsh] == set(LoadKind)
    assert [f.site_loads for f in by_rack.values()] == [False, True]
    for given in ({"snow": PSF}, {"ice": INCH / 4, "ice_gust": 30 * MPH}):
        assert block(site(**given), (), TILT).frame.site_loads


def test_every_load_has_a_name_in_the_answer() -> None:
    assert set(LOADS) == {None, *LoadKind}


def test_snow_whole_slid_and_half() -> None:
    """ASCE/SEI 7-22: ps = 0.7 Ce Ct pg with Ct 1.2, Ce 1, Cs 1 under 45 deg; 0.7 S; level area."""
    now = fixed(site(snow=25 * PSF), radians(35))
    whole = 0.7 * 0.7 * 1.2 * 25 * AREA * cos(radians(35))
    for name, share in (("snow", 1.0), ("snow slid down", 1.0), ("snow left", 0.5)):
        assert pushed(now, f"D + 0.7S, {name}") == pytest.approx(share * whole, rel=1e-6)
    slid, even = (
        at_grade(now, 0).moment[at(now, f"D + 0.7S, {n}")] for n in ("snow slid down", "snow")
    )
    assert slid > 2 * even


def test_no_snow_no_case() -> None:
    assert not [label for label in fixed().table.labels if "S" in label or "Di" in label]


def test_snow_stands_beside_three_quarters_of_the_wind_when_asked_for() -> None:
    one = block(site(snow=25 * PSF), (), TILT).frame
    labels = one.cases(ASD_SNOW).labels
    assert len(labels) == 4 + 32 * 4
    assert "D + 0.75(0.6W) + 0.75(0.7S), front, A, snow" in labels


def test_ice_by_hand() -> None:
    """ASCE/SEI 7-22 10.4: td = t (z/33 ft)^0.10, pi td (D + td) at 56 pcf, plates 0.6 pi td.

    0.5 in on 78 in of 5.563 in post, 170.5 in of 4 in beam, eight rails of 138.5 in whose circle
    is 1.625 sqrt 2, the panels; and half of four guys of 1/4 in, 115.5 in long.
    """
    z = 78 + 2.8125 * cos(TILT)
    t = 0.5 * (z * INCH / 10) ** 0.10
    guy = (2 * 66**2 + 68**2) ** 0.5
    bars = ((78, 5.563), (170.5, 4.0), (8 * 138.5, 1.625 * 2**0.5), (4 * guy / 2, 0.25))
    volume = sum(length * pi * t * (d + t) for length, d in bars) + 0.6 * pi * t * AREA * 144
    now = fixed(site(ice=0.5 * INCH))
    assert pushed(now, "D + 0.7Di, ice") == pytest.approx(0.7 * volume * 56 / 1728, rel=1e-6)


ICY = replace(
    site(ice=0.5 * INCH, ice_gust=50 * MPH),
    guys=(replace(ONE_POST.guys[0], along=40 * INCH),),
)
"""Guys less far along the beam than across it, so that they face wind along it the more."""
THICK = 0.5 * ((78 + 2.8125 * cos(TILT)) * INCH / 10) ** 0.10
"""Ice at the panels [in], ASCE/SEI 7-22 Eq. 10.4-4 and 10.4-5."""


def iced_area(axis: int) -> float:
    """Drag area [in2] of the iced rack along x (0) or y (1): Cf 1.2, on edges 2.0.

    78 in of 5.563 in post, 170.5 in of 4 in beam, eight rails of 1.625 in, four columns of 138 in
    of panels 1.375 in thick, half of four guys of 1/4 in that run 40 in along, 66 in across and
    68 in up: wind does not feel the run it blows along.
    """
    t, guys = 2 * THICK, 4 / 2 * np.hypot((66, 40)[axis], 68)
    bars = ((78, 5.563), (guys, 0.25)) if axis == 0 else ((78, 5.563), (170.5, 4.0), (guys, 0.25))
    edges = ((8 * 138.5, 1.625), (4 * 138, 1.375)) if axis == 0 else ()
    return sum(1.2 * n * (d + t) for n, d in bars) + sum(2.0 * n * (d + t) for n, d in edges)


def test_drag_of_the_iced_rack_by_hand() -> None:
    response = block(ICY, (), TILT).frame.response
    index = response.model.load_index
    for axis, name in ((0, "drag along, iced"), (1, "drag across, iced")):
        total = -response.reactions[index[name]].sum(axis=0)
        assert total[axis] == pytest.approx(iced_area(axis) * INCH**2, rel=1e-6)
        assert total[1 - axis] == pytest.approx(0.0, abs=1e-9)


def test_wind_on_ice() -> None:
    """ASCE/SEI 7-22 2.4.3: 0.7 of the wind at the ice's own gust; the panels take what they took.

    The level push is that of 0.6 W at the same gust, less the bare and more the iced drag.
    """
    icy = first_order(*wintry(block(ICY, (), TILT)))
    bare = first_order(solved(ICY, (), TILT, ASD_WINDY[:1], 50 * MPH))
    q = icy.pressure[0]
    assert q == pytest.approx(icy.block.frame.pressure(50 * MPH))
    before = at_grade(bare, 0).shear[at(bare, "D + 0.6W, front, A")] / 0.6
    drag = (iced_area(1) - 1.2 * (4.0 * 170.5 + 5.563 * 78)) * INCH**2
    level = 0.7 * (before + 0.85 * 0.85 * q * drag)
    for label in ("D + 0.7Di + 0.7Wi + S, front, A, ice", "0.6D + 0.7Di + 0.7Wi, front, A, ice"):
        assert at_grade(icy, 0).shear[at(icy, label)] == pytest.approx(level, rel=1e-3)


def test_snow_counts_whole_beside_ice_and_its_wind() -> None:
    """Without wind: 0.7 of the ice and the whole snow, ASCE/SEI 7-22 2.4.3 (from memory)."""
    both = site(ice=0.5 * INCH, snow=25 * PSF)
    one = block(both, (), TILT)
    still = fixed(both)
    snow, ice = (pushed(still, f"D + 0.7{name}") / 0.7 for name in ("S, snow", "Di, ice"))
    icy = first_order(wintry(one)[1])
    labels = [x for x in icy.table.labels if x.startswith("D + 0.7Di + 0.7Wi + S, front, A, ice")]
    assert len(labels) == 4
    down = at_grade(icy, 0).down[at(icy, labels[0])] - at_grade(still, 0).down[0]
    assert down / POUND == pytest.approx(0.7 * ice + snow, rel=1e-6)


def test_least_pressure_of_the_standard() -> None:
    """16 psf (ASCE/SEI 7-22 27.1.5), 0.6 of it, on the area seen and on the pipes (Cf 1.2)."""
    now = fixed()
    pipes = 1.2 * (4.0 * 170.5 + 5.563 * 78) / 144
    level = 0.6 * 16 * (AREA * sin(TILT) + pipes)
    for way in ("front", "back"):
        shear = at_grade(now, 0).shear[at(now, f"D + 0.6W, {way}, least")]
        assert shear == pytest.approx(level * POUND, rel=1e-3)
        assert pushed(now, f"D + 0.6W, {way}, least") == pytest.approx(0.0, abs=1e-6)


def test_what_is_fixed_does_not_grow_with_the_gust() -> None:
    assert not block(site(snow=1e3, ice=0.01), (), TILT).frame.fixed_cases().per_pressure.any()


def frame_on(hill: Hill | None) -> Frame:
    return block(site(hill=hill), (), TILT).frame


def test_a_ridge_speeds_the_wind_up() -> None:
    """ASCE/SEI 7-22 Fig. 26.8-1, ridge, exposure C: K1 = 1.45 x 0.3, K3 = exp(-3 z / Lh)."""
    height = (78 + 2.8125 * cos(TILT)) * INCH
    ridge = Hill(shape="ridge", height=18.0, half_length=60.0, distance=0.0)
    factor = (1 + 1.45 * 0.3 * exp(-3 * height / 60)) ** 2
    grown = frame_on(ridge).pressure(40.0) / frame_on(None).pressure(40.0)
    assert grown == pytest.approx(factor, rel=1e-6)


def test_the_worse_side_of_a_bluff_counts() -> None:
    """Downwind of an escarpment K2 = 1 - x / (4 Lh), upwind 1 - x / (1.5 Lh)."""
    height = (78 + 2.8125 * cos(TILT)) * INCH
    bluff = Hill(shape="escarpment", height=18.0, half_length=60.0, distance=45.0)
    factor = (1 + 0.85 * 0.3 * (1 - 45 / 240) * exp(-2.5 * height / 60)) ** 2
    grown = frame_on(bluff).pressure(40.0) / frame_on(None).pressure(40.0)
    assert grown == pytest.approx(factor, rel=1e-6)


@pytest.mark.parametrize(("gust", "share"), [(110.0, 1.0), (55.0, 0.25)])
def test_a_given_pressure_is_that_of_the_map_gust(gust: float, share: float) -> None:
    """Fig. 27.3-4 at 15 deg: 1.3 and 1.6 pressing in case A, clear; -2.1 and -0.6 in B, blocked.

    The given pressure is their mean, on the panels; on the pipes it is the q Kd G that belongs to
    it by CN, times Cf 1.2.
    """
    now = first_order(solved(site(pressure=20 * PSF), (), TILT, WHOLE_WIND, gust * MPH))
    pipes = 1.2 * (4.0 * 170.5 + 5.563 * 78) / 144
    for label, net in (("D + W, front, A", 1.45), ("D + W, back, B, obstructed", 1.35)):
        level = share * 20 * (AREA * sin(TILT) + pipes / net)
        assert at_grade(now, 0).shear[at(now, label)] == pytest.approx(level * POUND, rel=1e-3)
