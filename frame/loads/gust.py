"""Gust effect factor of small racks, quick and slow, ASCE/SEI 7-22 26.11.4 and 26.11.5."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from frame.loads.terrain import Terrain
from frame.loads.wind import HALF_AIR_DENSITY, Numbers

RIGID_FROM = 1.0
"""Lowest natural frequency [Hz] of a rigid structure, ASCE/SEI 7-22 26.2."""
DAMPING = 0.01
"""Share of critical damping of welded steel, ASCE/SEI 7-22 C26.11."""
PEAK = 3.4
"""gQ and gv."""
TEN_METRES = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Outline in the wind: mean `height` h, `width` B across the wind, `depth` L along it [m]."""

    height: float
    width: float
    depth: float


def rigid_gust_effect(outline: Outline, ground: Terrain) -> float:
    """G [1] of a structure quicker than 1 Hz by its size, ASCE/SEI 7-22 Eq. 26.11-6 to 26.11-9.

    From memory of the standard. 0.925 for a point; the 0.85 allowed in its place (26.11.1) is what
    a building some 20 m wide and high comes to in exposure B.
    """
    turbulence = _turbulence(outline, ground)
    whole = 1 + 1.7 * PEAK * turbulence * math.sqrt(_background(outline, ground))
    return float(0.925 * whole / (1 + 1.7 * PEAK * turbulence))


def flexible_gust_effect(
    frequency: Numbers,
    gust: float,
    outline: Outline,
    ground: Terrain,
    damping: Numbers,
    share: Numbers = 1.0,
) -> float:
    """Gf [1], ASCE/SEI 7-22 Eq. 26.11-10 to 26.11-16 (from memory of the standard).

    `frequency` n1 [Hz] and `damping` [1] of each shape (k,) or of one; `gust` the 3-second gust
    in open ground [m/s]. `share` [1] of what the wind bends the structure that goes into each
    shape. The standard knows one shape, with all of it; what several answer by resonance is added
    by squares, as for random motions of different frequency (any text on vibration, from memory).
    """
    turbulence, scale = _turbulence(outline, ground), _scale(outline, ground)
    rate = np.asarray(frequency) / mean_wind(gust, outline, ground)
    reduced = rate * scale
    spectrum = 7.47 * reduced / (1 + 10.3 * reduced) ** (5 / 3)
    up, across = _reduction(4.6 * rate * outline.height), _reduction(4.6 * rate * outline.width)
    along = _reduction(15.4 * rate * outline.depth)
    resonance = spectrum * up * across * (0.53 + 0.47 * along) / damping
    cycles = np.sqrt(2 * np.log(3600 * np.asarray(frequency)))
    resonant_peak = share * (cycles + 0.577 / cycles)
    gusts = PEAK**2 * _background(outline, ground) + (resonant_peak**2 * resonance).sum()
    return float(0.925 * (1 + 1.7 * turbulence * math.sqrt(gusts)) / (1 + 1.7 * PEAK * turbulence))


def air_damping(
    coefficient: Numbers, facing: Numbers, mass: Numbers, wind: Numbers, frequency: Numbers
) -> Numbers:
    """Share of critical damping [1] that the air gives a plate swaying along the wind.

    Quasi-steady: drag 1/2 rho CN A (V - v)^2 of a plate moving at v gives way by rho CN A V v, a
    damper c = rho CN A V, and zeta = c / (2 m omega); Simiu and Scanlan, Wind Effects on
    Structures, 3rd ed., ch. 5 (derived here). `coefficient` CN of the plate [1]; `facing` its area
    as seen along the wind, A sin(tilt) [m2]; `mass` that moves [kg]; mean `wind` V [m/s];
    `frequency` [Hz]. All broadcast. Holds for v far under V. A plate that moves out of its plane
    meets the wind at another slope too, which below the stall damps it further: not counted.
    """
    damper = 2 * HALF_AIR_DENSITY * np.multiply(coefficient, facing) * wind
    zeta: Numbers = damper / (4 * math.pi * np.multiply(frequency, mass))
    return zeta


def mean_wind(gust: float, outline: Outline, ground: Terrain) -> float:
    """Mean wind of the hour at the outline [m/s], ASCE/SEI 7-22 Eq. 26.11-16; `gust` [m/s]."""
    height = _height(outline, ground) / TEN_METRES
    return float(ground.mean_factor * height**ground.mean_exponent * gust)


def _height(outline: Outline, ground: Terrain) -> float:
    return max(0.6 * outline.height, ground.least_height)


def _turbulence(outline: Outline, ground: Terrain) -> float:
    """Iz of ASCE/SEI 7-22 Eq. 26.11-7."""
    return float(ground.turbulence * (TEN_METRES / _height(outline, ground)) ** (1 / 6))


def _scale(outline: Outline, ground: Terrain) -> float:
    """Lz [m] of ASCE/SEI 7-22 Eq. 26.11-9."""
    return float(ground.scale * (_height(outline, ground) / TEN_METRES) ** ground.scale_exponent)


def _background(outline: Outline, ground: Terrain) -> float:
    """Q squared of ASCE/SEI 7-22 Eq. 26.11-8."""
    size = (outline.width + outline.height) / _scale(outline, ground)
    return float(1 / (1 + 0.63 * size**0.63))


def _reduction(eta: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """R of a size, ASCE/SEI 7-22 Eq. 26.11-15."""
    wide = np.maximum(eta, 1e-6)
    return np.where(eta > 1e-6, 1 / wide + np.expm1(-2 * wide) / (2 * wide**2), 1.0)
