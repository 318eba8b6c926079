"""Every part under a pressure that the file gives, by the code and as expected.

Of the one-post rack at 30 degrees the standard's hardest winds press with 2.1 and lift with 1.8
(ASCE/SEI 7-22 Fig. 27.3-4, case A, clear) times 26.16 psf Kd G 0.7225: 39.69 and 34.02 psf.
"""

from itertools import pairwise
from math import radians

import numpy as np
import pytest

from frame.loads.cases import QUARTER_LOADS
from frame.parts.rails.clamps import clamp_checks
from frame.parts.rails.local_rails import local_rail_checks
from frame.parts.rails.local_wind import local_wind
from frame.parts.rails.rails import rail_checks
from frame.parts.rails.u_bolts import u_bolt_checks
from frame.parts.steel.pipes import pipe_checks
from frame.parts.steel.sleeve import sleeve_checks
from frame.parts.welds.welds import weld_checks
from tests.unit.parts.racks import first_order
from tests.unit.parts.solved import ONE_POST_30, POUND, expected, found, solved, value

CLAMP = ("panel clamp", "clamp bolt against lift")
PANEL = ("panel", "the panel's own pressure rating")
RATED = ("[panels] rating", 'rating = "5400 Pa"')
CHECKERS = (
    clamp_checks, local_rail_checks, rail_checks, u_bolt_checks, pipe_checks, sleeve_checks,
    weld_checks,
)  # fmt: skip
MODELS = pytest.mark.parametrize("model", [solved, expected])
PRESSING, LIFTING = 2.1, 1.8
PANELS = (*QUARTER_LOADS, "strip 1 from left", "strip 1 from right")


def under(model, psf: float | None):
    given = () if psf is None else (("[site]", f'pressure = "{psf!r} psf"'),)
    return first_order(model("one_post", (), (*ONE_POST_30, RATED, *given)))


def standard(net: float) -> float:
    """Mean net pressure of the standard [psf], from the velocity pressure that is counted."""
    frame = under(solved, None).block.frame
    return frame.pressure(frame.rack.site.map_gust) * 0.85 * 0.85 * net / 47.880259


def test_what_the_standard_presses_and_lifts_with():
    assert standard(PRESSING) == pytest.approx(39.69, rel=2e-3)
    assert standard(LIFTING) == pytest.approx(34.02, rel=2e-3)


def test_clamp_panel_and_rail_by_hand():
    """20 psf lift with 5.0 / 1.8 and press with 3.9 / 2.1 of it locally (Fig. 30.5-1): 0.6 W.

    A clamp: (0.6 x 20 x 5.0 / 1.8 x 19.65 ft2 - 0.6 x 49 lb cos 30) / 4. The panel, pressed:
    0.6 x 20 x 3.9 / 2.1 = 22.3 psf, less than it is lifted with, 3.8 / 1.8 of it: 25.3 psf.
    """
    now = under(solved, 20.0)
    checks = found(clamp_checks, now)
    lift = value(now, checks[CLAMP], "U", "0.6D + 0.6W, back, A")[0] / POUND
    assert lift == pytest.approx((12 * 5 / 1.8 * 19.65 - 0.6 * 49 * 0.866) / 4, rel=3e-3)
    assert np.max(checks[PANEL].demand) / 47.88 == pytest.approx(12 * 3.8 / 1.8, rel=1e-3)


@MODELS
def test_local_gusts_are_in_proportion_to_the_pressure(model):
    """What 40 and 20 psf add to the weight alone is as two to one."""
    twice, once = (found(clamp_checks, under(model, p))[PANEL].demand for p in (40.0, 20.0))
    assert twice == pytest.approx(2 * np.asarray(once), rel=1e-9)
    now = [under(model, p) for p in (60.0, 40.0, 20.0)]
    lifts = [np.ravel(found(clamp_checks, n)[CLAMP].demand) for n in now]
    lifted = lifts[2] > 0
    assert lifted.any()
    grown = (lifts[0] - lifts[1])[lifted]
    assert grown == pytest.approx((lifts[1] - lifts[2])[lifted], rel=1e-9)


@MODELS
@pytest.mark.parametrize(("net", "sense"), [(PRESSING, "pressing"), (LIFTING, "lifting")])
def test_as_much_as_the_standard_s_gives_the_standard_s_answer(model, net, sense):
    """In every wind that presses, or lifts, the panels over all their halves."""
    plain, given = under(model, None), under(model, standard(net))
    assert plain.table.labels == given.table.labels
    assert getattr(given.block.frame.wind_share, sense) == pytest.approx(1.0, rel=1e-6)
    sign = 1 if sense == "pressing" else -1
    panels = [i for i, n in enumerate(given.block.frame.ideal.model.load_index) if n in PANELS]
    alike = (sign * plain.per_pressure[:, panels] >= 0).all(axis=1) & (
        plain.per_pressure[:, panels] != 0
    ).any(axis=1)
    assert alike.sum() > len(alike) / 4
    for checker in (u_bolt_checks, pipe_checks, sleeve_checks, weld_checks):
        before, after = found(checker, plain), found(checker, given)
        for name, check in before.items():
            shape = np.shape(check.utilisation)
            a, b = (np.broadcast_to(c.utilisation, shape)[alike] for c in (check, after[name]))
            np.testing.assert_allclose(b, a, rtol=1e-5, atol=1e-9, err_msg=str(name))
    for zone in ("corner", "edge", "interior"):
        one, other = (
            wind.pressure * wind.coefficients(radians(30), zone, 1.0, 0.9)[sense == "lifting"]
            for wind in (local_wind(plain), local_wind(given))
        )
        np.testing.assert_allclose(other, one, rtol=1e-6)


@MODELS
def test_more_pressure_uses_every_part_more(model):
    worst = []
    for psf in (10.0, 20.0, 40.0):
        now = under(model, psf)
        all_of_it = {n: c for checker in CHECKERS for n, c in found(checker, now).items()}
        worst.append({n: np.nanmax(c.utilisation) for n, c in all_of_it.items()})
    for less, more in pairwise(worst):
        assert all(more[n] >= less[n] * (1 - 1e-9) for n in less)
    tilted = ("U-bolt", "grip of the U-bolt")
    assert worst[2][tilted] > 1.9 * worst[1][tilted] > 3.5 * worst[0][tilted]


@MODELS
def test_the_wind_along_the_beam_and_case_b_are_there(model):
    labels = " ".join(under(model, 20.0).table.labels)
    for wind in ("front, B", "back, B, gust left", "left, A", "right, B"):
        assert wind in labels
