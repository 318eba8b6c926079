"""How fast each bracing lets the rack shake, how near it is to buckling, and what follows."""

import math

from rich.console import Group
from rich.text import Text

from frame.loads.gust import RIGID_FROM
from frame.loads.wind import GUST_EFFECT
from frame.records.motion import Shaking, Stability
from frame.records.results import BracingResult, Study
from frame.report import words
from frame.report.tables import flagged, new_table, under_title

LIVELY = 3.0
"""Frequency [Hz] under which a light rack is said to answer gusts (judgement)."""
BUCKLES = 2.0
"""Factor down to which second order leaves something, 0.8 lambda > 1.6 of AISC 360-22 C2."""
FAR = 100.0
"""Buckling factor from which the number itself says nothing."""


def shaking_table(study: Study) -> Group:
    """Return frequencies and buckling factors side by side, with what they mean in sentences."""
    told = [r for r in study.results if r.shaking and r.stability]
    made = new_table(
        "Bracing", ">at rest,\na second", ">all guys\nslack", ">play in\nthe sleeve",
        ">buckles at\nloads times", "worst case for buckling",
    )  # fmt: skip
    for r in told:
        if r.shaking and r.stability:
            made.add_row(r.title, *_rates(r.shaking), *_factor(r.stability))
    if not told:
        return Group()
    return under_title(
        "Shaking: how many times a second it sways or swings by itself, in soft ground",
        made,
        "Play: rocking from stop to stop in the service gust, set bolts not counted on for that; "
        "smaller gusts rock it more slowly.",
        *(_slow(r, given=study.rack.site.pressure > 0) for r in told),
        _left_out(told),
        _lively(told),
    )


def _rates(shakes: Shaking) -> list[Text]:
    loose = shakes.slack[0] if shakes.slack else None
    return [_rate(f) for f in (shakes.at_rest[0], loose, shakes.play)]


def _rate(frequency: float | None) -> Text:
    if frequency is None:
        return Text("-")
    return flagged(_down(frequency), over=frequency < RIGID_FROM, word="SLOW")


def _down(frequency: float) -> str:
    """Round down, so that 0.96 never reads as once a second."""
    return f"{math.floor(10 * frequency) / 10:.1f}"


def _factor(found: Stability) -> list[Text]:
    number = f"over {FAR:.0f}" if found.factor > FAR else f"{math.floor(10 * found.factor) / 10:g}"
    return [
        flagged(number, over=found.factor <= BUCKLES, word="BUCKLES"),
        Text(words.when(found.words, found.tilt)),
    ]


def _slow(result: BracingResult, *, given: bool) -> str:
    """Say what shaking slower than once a second does to the code's wind; empty if it does not."""
    shakes = result.shaking
    if shakes is None or shakes.lowest >= RIGID_FROM:
        return ""
    start = f"{result.title}: shakes {_state(shakes)} less than once a second."
    if given:
        return f"{start} Ask whoever gave the wind pressure whether it allows for that."
    if result.gust_effect <= GUST_EFFECT:
        return (
            f"{start} In the map gust, with the guys that stay taut in it and the sleeve pressed "
            f"to one stop, no gust factor over {GUST_EFFECT} comes of it."
        )
    more = words.percent(result.gust_effect / GUST_EFFECT - 1)
    return (
        f"{start} The code's margin counts for it a gust factor of up to "
        f"{result.gust_effect:.2f}, with the damping of the air, not {GUST_EFFECT}: "
        f"{more} more wind force."
    )


def _left_out(told: list[BracingResult]) -> str:
    """Say that movements know of no gust factor of slow racks; empty where none is counted."""
    if all(r.gust_effect <= GUST_EFFECT for r in told):
        return ""
    return f"Movements are told with {GUST_EFFECT} all the same."


def _state(shakes: Shaking) -> str:
    if shakes.at_rest[0] < RIGID_FROM:
        return "even at rest"
    if shakes.slack and shakes.slack[0] < RIGID_FROM:
        return "with its guys slack"
    return "with play in the sleeve"


def _lively(told: list[BracingResult]) -> str:
    """Caution of racks that shake once to three times a second."""
    if not any(r.shaking and RIGID_FROM <= r.shaking.lowest < LIVELY for r in told):
        return ""
    return (
        f"Under {LIVELY:g} times a second a light rack answers gusts more than the standard's "
        f"factor {GUST_EFFECT} supposes, though the standard allows it down to "
        f"{RIGID_FROM:g} (judgement): leave some margin."
    )
