"""Movements against their limits, and what shaking says about the wind load itself.

These are flags, not strengths: nothing lets go at a limit of movement, so `nominal` is infinite.
"""

import math

import numpy as np

from frame.checks.check import Check, Numbers, Step

RIGID_FREQUENCY = 1.0
"""Lowest frequency [Hz] at which the gust-effect factor of rigid structures may be used."""
NEAR_FLAT = math.radians(8.0)
"""Tilts below this [rad] are where flat plates start to gallop in torsion (common practice)."""
ONSET = (3.0, 10.0)
"""Onset of torsional galloping over frequency times chord [1], low, high (common practice)."""

LIMIT = "limit of movement named in the rack file, or the assumed house rule"
GUST = "ASCE/SEI 7-22 26.2 and 26.11: rigid means at least 1 Hz"
GALLOP = "onset V = (3 to 10) f c, common practice, no source: a warning, never a safe speed"


def sag(elastic: Numbers, arm: Numbers, per_arm: Numbers, slop: Numbers = 0.0) -> Check:
    """Vertical movement of a beam end against the beam at the post.

    Parameters
    ----------
    elastic : float or array
        Sag from bending and give [m], any sign.
    arm : float or array
        Length from post to beam end [m].
    per_arm : float or array
        Limit per length of the arm [1], 1/180 or the file's own.
    slop : float or array
        Further droop that sleeve play allows at the beam end [m].

    Returns
    -------
    Check
        Movement [m] against arm x limit; a flag, nothing lets go.

    Notes
    -----
    IBC 2021 Table 1604.3 is where 1/180 and 1/120 come from (roof members); the choice among them
    is a house rule. Limits: small movements, per_arm > 0.
    """
    return _movement("sag of the beam end", elastic, slop, arm, per_arm)


def sway(elastic: Numbers, height: Numbers, per_height: Numbers, slop: Numbers = 0.0) -> Check:
    """Movement of the post top along the wind at the service gust.

    Parameters
    ----------
    elastic : float or array
        Movement of the post top [m], any sign.
    height : float or array
        Height of the post top above grade [m].
    per_height : float or array
        Limit per height [1], 1/60 to 1/100 (house rule) or the file's own.
    slop : float or array
        Further play at the foot [m].

    Returns
    -------
    Check
        Movement [m] against height x limit; a flag, nothing lets go.

    Notes
    -----
    No code sets this limit for a rack: house rule. Service gust by IBC 2021 Table 1604.3 note f.
    """
    return _movement("sway of the post top", elastic, slop, height, per_height)


def swing(rotation: Numbers, arm: Numbers, per_arm: Numbers, slop: Numbers = 0.0) -> Check:
    """Movement of the beam end as the beam turns about the post.

    Parameters
    ----------
    rotation : float or array
        Rotation of beam against ground about the post's axis [rad], any sign.
    arm : float or array
        Length from post to beam end [m].
    per_arm : float or array
        Limit of the movement per length of the arm [1] (house rule).
    slop : float or array
        Play about the post's axis [rad], from bolt holes.

    Returns
    -------
    Check
        Movement of the beam end [m] against arm x limit; a flag. Whether the sleeve slips is the
        check of its bolts, not this one.
    """
    ends = np.multiply(rotation, arm), np.multiply(slop, arm)
    return _movement("swing of the beam end", *ends, arm, per_arm)


def slop(clearance: Numbers, length: Numbers, arm: Numbers, per_arm: Numbers) -> Check:
    """Play of the sleeve alone at the beam end, against the limit of sag.

    Parameters
    ----------
    clearance : float or array
        Bore of the sleeve less post diameter [m].
    length : float or array
        Length of the sleeve over the post [m].
    arm, per_arm : float or array
        Length to the beam end [m]; limit per length of arm [1].

    Returns
    -------
    Check
        Movement from stop to stop, clearance / length x arm [m]; a flag. `extra`: the tilt [rad].

    Notes
    -----
    Geometry of a rigid sleeve on a rigid post touching at two ends, small angles (clearance less
    than a fifth of the length).
    """
    tilt = np.divide(clearance, length)
    demand, allowable = tilt * arm, np.multiply(per_arm, arm)
    steps = (
        Step("c", "clearance of bore over post", "", clearance, "m"),
        Step("l", "length of the sleeve", "", length, "m"),
        Step("a", "arm", "", arm, "m"),
        Step("k", "limit per arm", "", per_arm, "1", LIMIT),
        Step("phi", "tilt from stop to stop", "c/l", tilt, "rad"),
        Step("d", "movement of the beam end", "phi*a", demand, "m"),
        Step("d_a", "limit", "k*a", allowable, "m"),
        Step("use", "share of the limit", "d/d_a", demand / allowable, "1"),
    )
    return Check(
        name="slop of the sleeve at the beam end",
        demand=demand,
        allowable=allowable,
        nominal=np.inf,
        unit="m",
        source=f"geometry; {LIMIT}",
        steps=steps,
        covered=np.less(tilt, 0.2),
        extra={"tilt": tilt},
    )


def frequency(first: Numbers) -> Check:
    """Lowest frequency of the rack against the 1 Hz under which gusts are amplified.

    Parameters
    ----------
    first : float or array
        Lowest natural frequency, slop included where there is any [Hz].

    Returns
    -------
    Check
        1 Hz against `first`: at a use of 1 or more the gust-effect factor 0.85 no longer holds and
        every wind load of the rack is too low. A flag on the loads, nothing lets go.

    Notes
    -----
    ASCE/SEI 7-22 26.2 (rigid: fundamental frequency of at least 1 Hz) and 26.11.4; the factor for
    flexible structures (26.11.5) is not worked out here. Covered: first > 0.
    """
    floor = RIGID_FREQUENCY
    with np.errstate(divide="ignore"):
        use = np.divide(floor, first)
    steps = (
        Step("f_1", "lowest frequency of the rack", "", first, "Hz"),
        Step("f_r", "least frequency of a rigid structure", "", floor, "Hz", GUST),
        Step("use", "share", "f_r/f_1", use, "1"),
    )
    return Check(
        name="frequency for which the gust factor holds",
        demand=floor,
        allowable=first,
        nominal=np.inf,
        unit="Hz",
        source=GUST,
        steps=steps,
        covered=np.greater(first, 0.0),
        note="under 1 Hz the gust factor 0.85 no longer holds: real loads are higher",
    )


def galloping(gust: Numbers, first: Numbers, chord: Numbers, tilt: Numbers) -> Check:
    """Twisting of a near-flat deck of panels that the wind itself feeds.

    Parameters
    ----------
    gust : float or array
        Gust at the deck [m/s].
    first : float or array
        Lowest frequency of the deck's twist about the beam, slop included [Hz].
    chord : float or array
        Panels from lower to upper edge [m].
    tilt : float or array
        Tilt of the panels [rad].

    Returns
    -------
    Check
        Gust against the low onset speed 3 f c [m/s]; a warning flag, nominal infinite. `extra`:
        "near_flat" 1 where the tilt is under 8 degrees (parked so, the deck may gallop whatever
        its stiffness), "onset_low" and "onset_high" [m/s].

    Notes
    -----
    Common practice, no source: the range of the coefficient is wide. Never a speed to rely on.
    """
    low, high = (k * np.multiply(first, chord) for k in ONSET)
    near_flat = np.less(np.abs(tilt), NEAR_FLAT)
    with np.errstate(divide="ignore", invalid="ignore"):
        use = np.divide(gust, low)
    steps = (
        Step("V", "gust at the deck", "", gust, "m/s"),
        Step("f_1", "lowest frequency in twist", "", first, "Hz"),
        Step("c", "chord of the deck", "", chord, "m"),
        Step("V_0", "lowest onset speed", "3*f_1*c", low, "m/s", GALLOP),
        Step("use", "share", "V/V_0", use, "1"),
    )
    return Check(
        name="galloping of the deck",
        demand=gust,
        allowable=low,
        nominal=np.inf,
        unit="m/s",
        source=GALLOP,
        steps=steps,
        covered=np.greater(first, 0.0),
        note="a warning, never a safe speed; do not park the deck at less than 8 degrees of tilt",
        extra={"near_flat": np.where(near_flat, 1.0, 0.0), "onset_low": low, "onset_high": high},
    )


def _movement(name: str, elastic: Numbers, play: Numbers, length: Numbers, per: Numbers) -> Check:
    demand, allowable = np.abs(elastic) + np.abs(play), np.multiply(length, per)
    steps = (
        Step("d_e", "movement by bending and give", "", elastic, "m"),
        Step("d_s", "movement by slop", "", play, "m"),
        Step("l", "arm or height", "", length, "m"),
        Step("k", "limit per length", "", per, "1", LIMIT),
        Step("d", "movement", "abs(d_e) + abs(d_s)", demand, "m"),
        Step("d_a", "limit", "k*l", allowable, "m"),
        Step("use", "share of the limit", "d/d_a", demand / allowable, "1"),
    )
    return Check(
        name=name,
        demand=demand,
        allowable=allowable,
        nominal=np.inf,
        unit="m",
        source=LIMIT,
        steps=steps,
        covered=np.greater(per, 0.0),
        extra={"elastic": elastic, "slop": play},
    )
