"""Gust effect factor of a rack that answers the gusts slowly, ASCE/SEI 7-22 26.11.5."""

import math
from dataclasses import dataclass

from frame.loads.terrain import Terrain
from frame.loads.wind import GUST_EFFECT

RIGID_FROM = 1.0
"""Lowest natural frequency [Hz] of a rigid structure, ASCE/SEI 7-22 26.2."""
DAMPING = 0.01
"""Share of critical damping of welded steel, ASCE/SEI 7-22 C26.11."""
PEAK = 3.4
"""gQ and gv."""
TEN_METRES = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Outline in the wind: mean `height` h, `width` B across the wind, `depth` L along it [m]."""

    height: float
    width: float
    depth: float


def gust_effect(
    frequency: float, gust: float, block: Block, ground: Terrain, damping: float = DAMPING
) -> float:
    """G [1]: 0.85 from 1 Hz up; under it the flexible factor, but no less than 0.85 (safe side).

    `frequency` n1 [Hz], `gust` the 3-second gust in open ground [m/s].
    """
    if frequency >= RIGID_FROM:
        return GUST_EFFECT
    return max(GUST_EFFECT, flexible_gust_effect(frequency, gust, block, ground, damping))


def flexible_gust_effect(
    frequency: float, gust: float, block: Block, ground: Terrain, damping: float
) -> float:
    """Gf [1], ASCE/SEI 7-22 Eq. 26.11-10 to 26.11-16 (from memory of the standard)."""
    z = max(0.6 * block.height, ground.least_height)
    turbulence = ground.turbulence * (TEN_METRES / z) ** (1 / 6)
    scale = ground.scale * (z / TEN_METRES) ** ground.scale_exponent
    wind = ground.mean_factor * (z / TEN_METRES) ** ground.mean_exponent * gust
    background = 1 / (1 + 0.63 * ((block.width + block.height) / scale) ** 0.63)
    reduced = frequency * scale / wind
    spectrum = 7.47 * reduced / (1 + 10.3 * reduced) ** (5 / 3)
    rate = frequency / wind
    up, across = _reduction(4.6 * rate * block.height), _reduction(4.6 * rate * block.width)
    along = _reduction(15.4 * rate * block.depth)
    resonance = spectrum * up * across * (0.53 + 0.47 * along) / damping
    cycles = math.sqrt(2 * math.log(3600 * frequency))
    resonant_peak = cycles + 0.577 / cycles
    gusts = math.sqrt(PEAK**2 * background + resonant_peak**2 * resonance)
    return float(0.925 * (1 + 1.7 * turbulence * gusts) / (1 + 1.7 * PEAK * turbulence))


def _reduction(eta: float) -> float:
    """R of a size, ASCE/SEI 7-22 Eq. 26.11-15."""
    return 1 / eta - (1 - math.exp(-2 * eta)) / (2 * eta**2) if eta > 1e-6 else 1.0
