"""Wind on the panels and pipes: velocity pressure and net pressure coefficients.

ASCE/SEI 7-22 chapters 26, 27 and 29. In this edition the directionality factor is no part of the
velocity pressure; it stands in the equation of the pressure, p = qh Kd G CN, and is used once.
"""

import math
from functools import cache

import numpy as np
import numpy.typing as npt

from frame.loads.terrain import terrain
from frame.tables.reader import rows
from frame.units import PSF

Numbers = float | npt.NDArray[np.float64]
Pair = tuple[float, float]
Triple = tuple[float, float, float]

HALF_AIR_DENSITY = 0.613
"""Pressure per square of speed [Pa s2/m2], ASCE/SEI 7-22 Eq. 26.10-1.SI."""
DIRECTIONALITY = 0.85
"""Kd of open roofs, signs and lattices, ASCE/SEI 7-22 Table 26.6-1."""
GUST_EFFECT = 0.85
"""G of a structure that shakes once a second or quicker, ASCE/SEI 7-22 26.11.1."""
PIPE_DRAG = 1.2
"""Cf of a round pipe, D sqrt(qz) up to 5.3 m sqrt(Pa), ASCE/SEI 7-22 Fig. 29.4-1; at any gust."""
FLAT_EDGE_DRAG = 2.0
"""Cf of a channel seen on edge, ASCE/SEI 7-22 Fig. 29.4-2, open lattice under 0.1 solid."""

LEAST_PRESSURE = 16 * PSF
"""On the area seen along the wind [Pa], ASCE/SEI 7-22 27.1.5 (from memory of the standard)."""
LEAST_HEIGHT = 4.6
"""Height under which the gust profile is constant [m], ASCE/SEI 7-22 Table 26.10-1."""
FLAT_BELOW = math.radians(7.5)
STEEPEST = math.radians(45)


def exposure_factor(height: Numbers, exposure: str, *, component: bool = False) -> Numbers:
    """Kz [1] at `height` [m] above ground, any shape; exposure "B", "C" or "D".

    ASCE/SEI 7-22 Table 26.10-1 note 1: 2.41 (max(z, 4.6 m) / zg)^(2 / alpha), up to zg. For a
    `component` (panel, clamp, rail) in exposure B it is at least 0.70, footnote of that table.
    """
    ground = terrain(exposure)
    z = np.clip(height, LEAST_HEIGHT, ground.gradient_height)
    factor = 2.41 * (z / ground.gradient_height) ** (2 / ground.alpha)
    return np.maximum(factor, 0.70) if component and exposure == "B" else factor


def elevation_factor(elevation: Numbers) -> Numbers:
    """Ke [1] for ground `elevation` [m] above sea, any shape; ASCE/SEI 7-22 Table 26.9-1 note 2.

    Below sea level it stays 1.
    """
    return np.exp(-0.000119 * np.maximum(elevation, 0.0))


def velocity_pressure(
    gust: Numbers,
    height: Numbers,
    exposure: str,
    elevation: float = 0.0,
    hill_factor: float = 1.0,
) -> Numbers:
    """Velocity pressure qz [Pa], without Kd; ASCE/SEI 7-22 Eq. 26.10-1.

    `gust`: 3-second gust in open ground [m/s]; `height` [m]; both broadcast. `elevation` of the
    ground [m], `hill_factor` Kzt [1].
    """
    profile = exposure_factor(height, exposure) * elevation_factor(elevation) * hill_factor
    return HALF_AIR_DENSITY * profile * np.square(gust)


def monoslope_coefficients(tilt: float, direction: str, case: str, flow: str) -> Pair:
    """Net pressure coefficients (CNW, CNL) of the windward and leeward half of the chord [1].

    Positive presses on the top face. `tilt` [rad]; `direction` "front" (wind strikes the low
    edge, the figure's 180 deg: presses) or "back" (strikes the underside, 0 deg: lifts); `case`
    "A" or "B"; `flow` "clear" or "obstructed". ASCE/SEI 7-22 Fig. 27.3-4: linear between the
    rows from 7.5 to 45 deg, the flat row below 7.5 deg. Above 45 deg the values of 45 deg are
    held, which the figure does not cover: `outside` says so.
    """
    tilts, values = _monoslope(direction, case, flow)
    if tilt < FLAT_BELOW - 1e-9:
        return float(values[0, 0]), float(values[0, 1])
    windward, leeward = (np.interp(tilt, tilts[1:], values[1:, i]) for i in (0, 1))
    return float(windward), float(leeward)


def along_beam_coefficients(case: str, flow: str) -> Triple:
    """Net pressure coefficients with the wind along the beam, positive pressing [1].

    On the strips up to h, from h to 2 h and beyond 2 h from the windward edge, h the mean height
    of the panels. ASCE/SEI 7-22 Fig. 27.3-7.
    """
    for row in rows("along_beam_net_pressure"):
        if (row["case"], row["flow"]) == (case, flow):
            return float(row["within_h"]), float(row["h_to_2h"]), float(row["beyond_2h"])
    raise ValueError(f"no coefficients for case {case!r}, flow {flow!r}")


def edge_width(least_width: float, height: float) -> float:
    """Width a [m] of the edge zone of a roof `least_width` wide at mean `height` [m].

    ASCE/SEI 7-22 Fig. 30.5-1: the smaller of 0.1 least width and 0.4 h, but at least 0.04 least
    width and 0.9 m. On a small rack the 0.9 m decides.
    """
    return max(min(0.1 * least_width, 0.4 * height), 0.04 * least_width, 0.9)


def component_coefficients(tilt: float, zone: str, area: float, edge: float, flow: str) -> Pair:
    """Net pressure coefficients of a panel, clamp or rail: pressing, and lifting (negative) [1].

    `zone` "corner", "edge" or "interior"; effective wind `area` [m2]; `edge` width a [m], see
    `edge_width`. ASCE/SEI 7-22 Fig. 30.5-1, p = qh Kd G CN, 0.25 <= h/L <= 1; linear between
    the tilts; above 45 deg the values of 45 deg are held (not covered).
    """
    size = "up to a2" if area <= edge**2 else "a2 to 4 a2" if area <= 4 * edge**2 else "over 4 a2"
    table = [r for r in rows("component_net_pressure") if (r["area"], r["flow"]) == (size, flow)]
    tilts = [math.radians(float(r["tilt_deg"])) for r in table]
    press, lift = (
        float(np.interp(tilt, tilts, [float(r[f"{zone}_{sense}"]) for r in table]))
        for sense in ("press", "lift")
    )
    return press, lift


def gap_factor(solidity: Numbers) -> Numbers:
    """Force on a plate with gaps over that on a whole one of equal outline [1].

    `solidity` is solid over gross area, at least 0.7 (below: not covered, nan). ASCE/SEI 7-22
    29.3.1: 1 - (1 - e)^1.5. Never less than the solid area alone would give.
    """
    part = np.asarray(solidity, dtype=np.float64)
    inside = (part >= 0.7) & (part <= 1)
    return np.where(inside, 1 - np.clip(1 - part, 0, 1) ** 1.5, np.nan)


def outside(tilt: float, height: float, chord: float) -> tuple[str, ...]:
    """Sentences on what the wind tables do not cover for this rack; any rack has at least one.

    `tilt` [rad], mean `height` of the panels and their `chord` up the slope [m].
    """
    notes = [
        (
            "The wind standard has no table for one small rack standing alone; the table for "
            "open single-slope roofs is used as the nearest (judgement)."
        )
    ]
    slenderness = height / (chord * math.cos(tilt))
    if not 0.25 <= slenderness <= 1:
        notes.append(
            "The table is for roofs whose height is 0.25 to 1 times their depth along the wind; "
            f"here it is {slenderness:.2g} times. The table is kept (judgement)."
        )
    if tilt > STEEPEST + 1e-9:
        notes.append(
            "The table ends at a tilt of 45 degrees; the values for 45 are held above it, "
            "which no standard covers."
        )
    if tilt < math.radians(8):
        notes.append(
            "Panels tilted less than 8 degrees can flutter in a strong wind; no answer for "
            "steady wind covers that."
        )
    return tuple(notes)


@cache
def _monoslope(
    direction: str, case: str, flow: str
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """Tilts [rad] (n,) and coefficients (n, 2), both ascending in tilt."""
    wanted = (direction, case, flow)
    table = [
        (math.radians(float(r["tilt_deg"])), float(r["windward"]), float(r["leeward"]))
        for r in rows("monoslope_net_pressure")
        if (r["direction"], r["case"], r["flow"]) == wanted
    ]
    if not table:
        raise ValueError(f"no coefficients for {', '.join(wanted)}")
    array = np.array(sorted(table))
    array.setflags(write=False)
    return array[:, 0], array[:, 1:]
