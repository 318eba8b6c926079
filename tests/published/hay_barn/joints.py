"""The hay barn's beam, rails, bolts and joints, by hand."""

from math import cos, hypot, pi, sin, tanh

from tests.published.hay_barn.given import (
    AREA,
    BEAM,
    HALF_AT,
    LOCAL,
    ON_TOP,
    PANELS,
    RAIL,
    ROD,
    TENSILE_AREA,
    Inputs,
    Pipe,
    Wind,
    pipe_use,
)


def set_bolt(w: Wind, g: Inputs) -> float:
    """Thrust T / K d (Shigley Eq. 8-27), 75 ft-lb by hand; at most what dents the wall."""
    thrust = 75 * 12 / (g["set bolt threads"] * 0.75) / 1000 * g["set bolt kept"]
    thrust = min(thrust, pi * g["yield"] * Pipe(g["wall"]).t ** 2)
    return w.swing / (thrust * g["set bolt friction"] * 2 + 0.25 * ON_TOP * 1.9)


def harder(w: Wind) -> float:
    """Wind on the side struck harder."""
    return (1 + w.more) / 2 * w.normal


def beam_bending(w: Wind) -> float:
    """At the sleeve's wall, 2.27 in. beside the post's axis."""
    arm, free = HALF_AT - 2.27, 82.5 - 2.27
    down = harder(w) * arm * cos(w.tilt) + (PANELS + 8 * RAIL) / 2 * arm + BEAM / 165 * free**2 / 2
    level = harder(w) * arm * sin(w.tilt) + w.drag / 165 * free**2 / 2
    return hypot(down, level)


def beam(w: Wind, g: Inputs) -> float:
    twist, shear = (1 + w.more) / 2 * abs(w.couple), abs(harder(w)) + ON_TOP / 2
    return pipe_use(Pipe(g["wall"]), g["yield"], beam_bending(w), twist, shear, 0)


def rail_strength(g: Inputs) -> float:
    """45 ksi, shape factor 1.15, 0.88 left by the slots, S 0.202 in3 (MFMA-4 trade tables)."""
    return 45 * 1.15 * 0.88 * 0.202 * g["rail"]


def rail_weight(w: Wind) -> float:
    """Bending of one arm of a rail over the beam by weight: half a column of panels, itself."""
    return (PANELS / 16 * 31.25 + RAIL / 2 * 31.5) * cos(w.tilt)


def rail(w: Wind, g: Inputs) -> float:
    """One of sixteen arms, on the side struck harder."""
    pressures = (w.low, w.high)
    arms = [(1 + w.more) * w.q * AREA / 16 * c * 31.25 + rail_weight(w) for c in pressures]
    return max(map(abs, arms)) / rail_strength(g)


def local_of(w: Wind) -> tuple[float, float, float]:
    return LOCAL[round(w.tilt * 180 / pi)]


def rail_local(w: Wind, g: Inputs) -> float:
    press, lift, _ = local_of(w)
    arm = w.q * 20 * 62 * (press if w.front else lift) * 31.25 + rail_weight(w)
    return abs(arm) / rail_strength(g)


def u_bolt_grip(w: Wind, g: Inputs) -> float:
    """Rod round the beam as a belt round a drum, T1 = T2 e^(mu pi), T1 + T2 = 2 F; rail pressed
    on by 2 F: mu 2 F there and 2 F tanh(mu pi / 2) round the rod, times the beam's radius.
    """
    mu = g["U-bolt friction"]
    legs = 2 * 30 * 12 / (g["U-bolt threads"] * 0.5) / 1000 * g["U-bolt kept"]
    lift = max(-w.normal - (PANELS + 8 * RAIL) * cos(w.tilt), 0)
    return abs(w.couple) / ((8 * legs * (mu + tanh(mu * pi / 2)) - mu * lift) * 2)


def u_bolt_tension(w: Wind, g: Inputs) -> float:
    """The rail rocks on the beam's crown and one leg, 2.25 in. off, holds it; 1.48 of the mean.

    Held to what the rod rubs round the beam before it slips: bare and rusty, 0.32 (handbooks, from
    memory), the tight leg e^(0.32 pi) = 2.733 times the slack one, so 0.732 and 0.268 of both.
    Both have at most their proof load, 0.55 of breaking (SAE J429 grade 1, from memory), or what
    lifts the rail if that is more.
    """
    leg = ROD * TENSILE_AREA["1/2"]
    weight = (PANELS / 8 + RAIL) * cos(w.tilt)
    lift = max((1 + w.more) * -w.normal / 8 - weight, 0)
    couple = (1 + w.more) * abs(w.couple) / 8
    couple = min(couple, (0.732 - 0.268) * max(2 * 0.55 * leg, lift) * 2.25)
    worse = max(lift / 2 + couple / 4.5, 2 * couple / 4.5)
    return worse / (leg * g["rod"])


def clamp(w: Wind, g: Inputs) -> float:
    """A quarter of a panel at a corner; the clamp's heel makes the bolt pull twice (statics).

    A 1/4 in. channel nut is rated at 450 lb, tests over three (trade tables, from memory).
    """
    lift = max(-local_of(w)[2] * w.q * 40 * 62 - 0.047 * cos(w.tilt), 0) / 4
    holds = min(ROD * TENSILE_AREA["1/4"], 3 * 0.45) * g["clamp"]
    return 0 if w.front else 2 * lift / holds


def left_by(stress_share: float) -> float:
    """Qf of AISC 360-22 K2-4 (from memory), no more than yield counted."""
    share = min(stress_share, 1)
    return 1 - 0.3 * share * (1 + share)


def chord_wall(w: Wind, g: Inputs) -> float:
    """AISC 360-22 Tables K3.1, K4.1 (from memory), T joint; the sleeve is as wide as the beam."""
    pipe, fy = Pipe(g["wall"]), g["yield"]
    wall = fy * pipe.t**2 * g["chord"] * left_by(beam_bending(w) / pipe.S / fy)
    slender = 4 / (2 * pipe.t)
    axial = abs(ON_TOP + w.press) / (wall * (3.1 + 15.6) * slender**0.2)
    in_plane = w.rock / (wall * 5.39 * slender**0.5 * 4)
    out_of_plane = abs(w.bending(2)[0]) / (wall * 4 * 3 / (1 - 0.81))
    return axial + in_plane**2 + out_of_plane


def sleeve_push(w: Wind, foot: bool) -> float:
    """Contact at an end of 8 in. of sleeve, its middle 6 in. below the beam's axis.

    Pressure in straight lines, resultants 2/3 of the length apart. The wind pushes above the
    sleeve: its upper end bears the couple and half of the push, its foot the couple less the
    other half (equilibrium).
    """
    across, along = w.bending(6)
    arm = 2 * 8 / 3
    return hypot(across / arm - (-w.side if foot else w.side) / 2, along / arm)


def bears(g: Inputs) -> float:
    """A line of contact, AISC 360-22 Table K2.1 (from memory), times what lies between that and
    contact at the very ends, an arm of the whole length: 1.5 of it; ends of the range judgement.
    """
    return g["bearing"] * 5.5 * g["yield"] * Pipe(g["wall"]).t ** 2


def post_at_foot(w: Wind, g: Inputs) -> float:
    pipe, fy = Pipe(g["wall"]), g["yield"]
    own = hypot(*w.bending(10)) / pipe.S + abs(ON_TOP + w.press) / pipe.A
    return sleeve_push(w, foot=True) / (bears(g) * left_by(own / fy))


def post_at_top(w: Wind, g: Inputs) -> float:
    """At an open end half of the wall is there to help."""
    return sleeve_push(w, foot=False) / (bears(g) / 2)


def sleeve_at_foot(w: Wind, g: Inputs) -> float:
    return sleeve_push(w, foot=True) / (bears(g) / 2)
