"""Rails and their U-bolts under local gusts, stronger than the average on the whole rack."""

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from frame.checks.check import Check, Step
from frame.named.limit_state import LimitState
from frame.named.part import RAILS, U_BOLT
from frame.parts.checker import PartCheck
from frame.parts.rails.local_wind import LocalWind, local_wind
from frame.parts.rails.rails import bending_of, rail_stock
from frame.parts.rails.strips import FASTENER, Strips, coefficients, strips
from frame.parts.rails.u_bolts import pulled_apart
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation

Steps = tuple[Step, ...]


def local_rail_checks(now: Situation) -> Iterator[PartCheck]:
    """Bending of the worst rail over its U-bolts, and the pull on them, each rail by itself.

    The end zones of a rail take the coefficients of corner or edge, the rest those of edge or
    interior, at the area of one arm for bending and of the whole rail for the pull. Both arms are
    loaded alike, so that nothing turns the rail about the beam. A local gust is no part of a
    one-sided one: it strikes as hard wherever the rest of the gust does.
    """
    rack = now.rack
    wind, on = local_wind(now), strips(rack, now.block.frame.ideal.tilt)
    per_area = rack.panels.weight / (rack.panels.width * rack.panels.height)
    square = (per_area * on.width + rack.rails.channel.weight) * math.cos(on.tilt)
    weight = square * wind.dead[:, None]
    yield RAILS, _bending(now, wind, on, weight)
    yield U_BOLT, _pull(now, wind, on, weight)


def _bending(now: Situation, wind: LocalWind, on: Strips, weight: FloatArray) -> Check:
    q, L, b = wind.pressure[:, None], on.arm, on.width
    ends, rest = coefficients(wind, on, L)
    share = 1 - (1 - on.zone / L) ** 2
    press, lift = (share * e + (1 - share) * r for e, r in zip(ends, rest, strict=True))
    load = np.maximum(q * press * b + weight, -q * lift * b - weight)
    moment = load * L**2 / 2
    made = rail_stock(now, 2)
    check = bending_of(now, made, moment, 0.0)
    lead = (
        *_lead(q, on, weight),
        Step("g", "share of the moment from the end zone", "1 - (1 - a/L)^2", share, "1"),
        *_net("P", "pressing", ends[0], rest[0], share, wind.source),
        *_net("U", "lifting", ends[1], rest[1], share, wind.source),
        Step("p", "load along the rail", "max(q*C_P*b + w, -q*C_U*b - w)", load, "N/m"),
    )
    steps = tuple(s._replace(formula="p*L^2/2") if s.symbol == "M1" else s for s in check.steps)
    source = f"{check.source}; {wind.source}"
    return replace(check, name=LimitState.RAIL_LOCAL, steps=(*lead, *steps), source=source)


def _pull(now: Situation, wind: LocalWind, on: Strips, weight: FloatArray) -> Check:
    q, L, b, count = wind.pressure[:, None], on.arm, on.width, now.rack.rails.u_bolts.count
    ends, rest = (c[1] for c in coefficients(wind, on, 2 * L, FASTENER))
    share = on.zone / L
    lift = np.maximum(-q * (share * ends + (1 - share) * rest) * b - weight, 0.0) * 2 * L / count
    check = pulled_apart(now, lift, np.zeros_like(lift))
    lead = (
        *_lead(q, on, weight),
        Step("g", "share of the rail in the end zones", "a/L", share, "1"),
        *_net("U", "lifting", ends, rest, share, wind.source),
        Step("n", "U-bolts on the rail", "", count, "1"),
    )
    formula = "max(-q*C_U*b - w, 0)*2*L/n"
    steps = tuple(s._replace(formula=formula) if s.symbol == "U" else s for s in check.steps)
    source = f"{check.source}; {wind.source}"
    return replace(check, name=LimitState.U_BOLT_LOCAL, steps=(*lead, *steps), source=source)


def _lead(q: FloatArray, on: Strips, weight: FloatArray) -> Steps:
    return (
        Step("q", "velocity pressure with Kd, G and the wind's factor", "", q, "Pa"),
        Step("b", "width of panels on the rail", "", on.width, "m"),
        Step("w", "weight square to the rail with the dead factor", "", weight, "N/m"),
        Step("L", "arm of the rail, half the chord", "", on.arm, "m"),
        Step("a", "length of the zone at its end", "", on.zone, "m"),
    )


def _net(
    name: str, words: str, ends: FloatArray, rest: FloatArray, share: float, source: str
) -> Steps:
    """Write the net coefficient C_`name`: the `share` g of the end zones at `ends`."""
    first, second = f"C_{name}1", f"C_{name}2"
    return (
        Step(first, f"net coefficient {words}, end zones", "", ends, "1", source),
        Step(second, "same, between them", "", rest, "1", source),
        Step(
            f"C_{name}",
            "together",
            f"g*{first} + (1 - g)*{second}",
            share * ends + (1 - share) * rest,
            "1",
        ),
    )
