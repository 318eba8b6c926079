"""Panel clamps: lift at each corner, the clamp bolt, and the panel's own rating."""

import numpy as np

from frame.checks.check import Check, Numbers
from frame.checks.sheet import Sheet
from frame.named.limit_state import LimitState

BOLT_OMEGA = 2.0
NUT_RESERVE = 2.0
"""Channel-nut nominal strength over its rating: ratings carry 3 on mean tests, of which two thirds
are counted on (judgement)."""
NUT_TESTS = 3.0
"""The same of what is expected: the mean of the tests that ratings are taken from."""

WIND = "ASCE/SEI 7-22 chapter 30, open buildings, net pressure coefficients of components"
BOLT = "AISC 360-22 J3.6 (tension 0.75 Fu Ab, safety factor 2.0); from memory of the standard"
NUT = "channel makers' pull-out ratings, safety factor 3 on tests; from memory, low confidence"
RATING = "IEC 61215-2 MQT 16 (test load 1.5 times design load); from memory of the standard"


def corner_uplift(
    pressure: Numbers, coefficients: Numbers, area: Numbers, weight: Numbers, panels: Numbers = 1.0
) -> Numbers:
    """Force lifting a panel off the clamp at one corner [N], never below zero.

    Parameters
    ----------
    pressure : float or array
        Velocity pressure times Kd G and the load factor of the case [Pa].
    coefficients : float or array
        Net pressure coefficient CN in the zone of that corner, negative lifts [1].
    area : float or array
        Area of one panel [m2]; a quarter of it hangs on the corner.
    weight : float or array
        Weight of one panel square to its face times the dead factor of the case [N].
    panels : float or array
        Panels that the clamp holds: 1 for an end clamp, 2 for a mid clamp.

    Notes
    -----
    ASCE/SEI 7-22 chapter 30 (30.1.5 and the open-building figures): p = qh Kd G CN. The whole
    quarter takes the coefficient of its corner, on the safe side where the zone is smaller.
    Limits: rigid panel on four clamps.
    """
    return np.maximum((-np.multiply(coefficients, pressure) * area - weight) / 4 * panels, 0.0)


def hold_down(
    uplift: Numbers,
    lever: Numbers,
    bolt_area: Numbers,
    tensile_strength: Numbers,
    nut_rating: Numbers = np.inf,
    expected: Numbers | None = None,
) -> Check:
    """Clamp bolt under the lift of a panel corner.

    Parameters
    ----------
    uplift : float or array
        Lift at the clamp [N], from `corner_uplift`.
    lever : float or array
        Bolt pull over lift [1]: 1 for a mid clamp pulled evenly, (a + b) / b for an end clamp
        whose bolt stands `a` from the panel edge and `b` from the heel.
    bolt_area : float or array
        Gross area of the bolt shank [m2].
    tensile_strength : float or array
        Fu of the bolt [Pa].
    nut_rating : float or array
        Rated (allowable) pull-out of the channel nut [N]; infinite for a through-bolt, nan for a
        nut without a rating, which is not covered.
    expected : float or array
        Share of the nominal strength to expect [1]: then that is the strength, without factors.

    Returns
    -------
    Check
        Bolt pull against the lesser of bolt tension and nut pull-out [N].

    Notes
    -----
    Source: AISC 360-22 J3.6; nut ratings as the maker gives them. Limits: lever >= 1; the
    clamp body is not covered, nor a panel that bows until its edge walks out of the clamp.
    """
    sheet = Sheet()
    sheet.given("U", "lift at the clamp", uplift, "N", WIND)
    sheet.given("k", "bolt pull over lift", lever, "1")
    sheet.given("A_b", "area of the bolt", bolt_area, "m2")
    sheet.given("F_u", "tensile strength of the bolt", tensile_strength, "Pa")
    sheet.given("N_r", "rated pull-out of the channel nut", nut_rating, "N", NUT)
    sheet.work("T", "bolt pull", "k*U", "N")
    sheet.work("T_n", "bolt strength in tension", "0.75*F_u*A_b", "N", BOLT)
    if expected is None:
        sheet.work("T_a", "allowable pull", f"min(T_n/{BOLT_OMEGA:g}, N_r)", "N")
        nominal = sheet.value(f"min(T_n, {NUT_RESERVE:g}*N_r)")
    else:
        sheet.given("m", "expected over nominal strength", expected, "1", "judgement")
        nominal = sheet.work("T_a", "expected", f"m*min(T_n, {NUT_TESTS:g}*N_r)", "N")
    sheet.use("use", "use", "T", "T_a", "1")
    return Check(
        name=LimitState.CLAMP_LIFT,
        demand=sheet["T"],
        allowable=sheet["T_a"],
        nominal=nominal,
        unit="N",
        source=f"{BOLT}; {NUT}",
        steps=tuple(sheet.steps),
        covered=np.greater_equal(lever, 1.0) & ~np.isnan(nut_rating),
        note="a bowing panel can walk out of a clamp that holds: through-bolt the panel frame",
    )


def panel_rating(
    pressure: Numbers,
    coefficients: Numbers,
    rating: Numbers,
    safety: Numbers = 1.5,
    source: str = WIND,
    expected: Numbers | None = None,
) -> Check:
    """Pressure on a panel against the pressure it was tested for.

    Parameters
    ----------
    pressure : float or array
        Velocity pressure times Kd G and the load factor of the case [Pa].
    coefficients : float or array
        Net pressure coefficient over the panel [1], any sign.
    rating : float or array
        Test pressure of the panel for that side [Pa].
    safety : float or array
        Test pressure over design pressure [1]: 1.5; 1 where the maker prints a design pressure.
    source : str
        Of the coefficients.
    expected : float or array
        Pressure at which it breaks over the test pressure [1]: then that is the strength, without
        factors.

    Returns
    -------
    Check
        Pressure [Pa] against rating / safety; nominal strength is the rating itself, or what is
        expected.

    Notes
    -----
    Source: IEC 61215-2 MQT 16, for panels clamped where the maker says; other clamp places and
    panels without a rating are not covered (give no rating: nan).
    """
    sheet = Sheet()
    sheet.given("q", "velocity pressure with factors", pressure, "Pa")
    sheet.given("C_N", "net pressure coefficient", coefficients, "1", source)
    sheet.given("p_t", "test pressure of the panel", rating, "Pa")
    sheet.work("p", "pressure on the panel", "abs(q*C_N)", "Pa")
    if expected is None:
        sheet.given("f", "test over design pressure", safety, "1", RATING)
        sheet.work("p_a", "allowable pressure", "p_t/f", "Pa")
        nominal = rating
    else:
        sheet.given("m", "breaking over test pressure", expected, "1", "judgement")
        nominal = sheet.work("p_a", "expected", "m*p_t", "Pa")
    sheet.use("use", "use", "p", "p_a", "1")
    return Check(
        name=LimitState.PANEL_RATING,
        demand=sheet["p"],
        allowable=sheet["p_a"],
        nominal=nominal,
        unit="Pa",
        source=RATING,
        steps=tuple(sheet.steps),
        covered=np.greater(rating, 0.0) & np.greater_equal(safety, 1.0),
    )
