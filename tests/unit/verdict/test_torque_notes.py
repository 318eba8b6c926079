"""Torques beyond what a thread stands, against hand numbers."""

from dataclasses import replace

import pytest

from frame.checks.fasteners.u_bolt import RailLoads, torque_for, u_bolt_grip
from frame.parts.rails.u_bolts import u_bolt
from frame.rack.rack import Rack
from frame.rack.sleeve import SetBolts
from frame.verdict.torque_notes import (
    counted_on_set_bolts,
    counted_on_u_bolts,
    plain_proof_torque,
    torque_notes,
)
from tests.builders import INCH, POUND
from tests.unit.parts.racks import ONE_POST

FOOT_POUND = 12 * INCH * POUND


def test_torque_of_a_tightened_bolt_is_the_textbooks() -> None:
    """Shigley, T = 0.2 F d: a 3/4 in bolt pulled to 25 kip needs 312.5 ft-lb."""
    assert torque_for(25e3 * POUND, 0.75 * INCH) / FOOT_POUND == pytest.approx(312.5)


def test_proof_torque_of_half_inch_mild_bolts_by_hand() -> None:
    """0.1419 in2 (ASME B1.1) at 0.55 of 48 ksi is 3746 lb; 0.2 x 0.5 in of it 31.2 ft-lb."""
    assert plain_proof_torque(0.5 * INCH) / FOOT_POUND == pytest.approx(31.2, abs=0.05)


def tightened(u_bolts: float, set_bolts: float) -> Rack:
    """Half-inch bolts tightened to so much [ft-lb]."""
    rods = replace(ONE_POST.rails.u_bolts, diameter=0.5 * INCH, torque=u_bolts * FOOT_POUND)
    lock = replace(ONE_POST.sleeve.lock, diameter=0.5 * INCH, torque=set_bolts * FOOT_POUND)
    return replace(
        ONE_POST,
        rails=replace(ONE_POST.rails, u_bolts=rods),
        sleeve=replace(ONE_POST.sleeve, lock=lock),
    )


def test_within_what_the_thread_stands_nothing_is_said() -> None:
    assert torque_notes(tightened(30, 30)) == ()


def test_a_u_bolt_over_its_proof_torque_is_told_with_that_torque() -> None:
    (note,) = torque_notes(tightened(40, 30))
    assert note.startswith("U-bolt nuts at 40 ft-lb would stretch the rods")
    assert "31.2 ft-lb" in note
    # Nine tenths of 31.2: what the new rods are to be tightened to.
    assert "tighten the new ones to 28 ft-lb" in note


def test_torque_counted_is_the_proof_torque_and_what_is_kept_without_jam_nuts() -> None:
    assert counted_on_u_bolts(tightened(40, 30)) / FOOT_POUND == pytest.approx(31.2, abs=0.05)
    assert counted_on_u_bolts(tightened(20, 30)) / FOOT_POUND == pytest.approx(20)
    rack = tightened(20, 64)
    lock = rack.sleeve.lock
    assert isinstance(lock, SetBolts)
    counted = []
    for nuts in (True, False):
        sleeve = replace(rack.sleeve, lock=replace(lock, jam_nuts=nuts))
        torque = counted_on_set_bolts(replace(rack, sleeve=sleeve))
        assert torque is not None
        counted.append(torque / FOOT_POUND)
    # 5 in. post, 0.93 of 0.258 in, 30 ksi: dented by 5426 lb, 0.2 x 0.5 in of it 45.2 ft-lb,
    # which is less than the three quarters kept with jam nuts (judgement).
    assert counted == pytest.approx([45.2, 32.0], abs=0.05)


def test_more_torque_on_that_u_bolt_adds_no_grip() -> None:
    still = RailLoads(turning=0.0, sliding=0.0, lift=0.0)
    once, more = (u_bolt_grip(still, u_bolt(tightened(x, 30))) for x in (40, 60))
    assert once.nominal == more.nominal


def thick(rack: Rack) -> Rack:
    """Give the rack a post that no set bolt dents."""
    return replace(rack, posts=replace(rack.posts, pipe=replace(rack.posts.pipe, wall=INCH)))


def test_set_bolts_over_proof_must_be_hardened_and_over_the_table_gain_nothing() -> None:
    """Seating torque of 1/2 in set screws: 620 in-lb, 51.7 ft-lb (Shigley Table 7-4)."""
    (hard,) = torque_notes(thick(tightened(30, 50)))
    assert "only if they are marked as hardened" in hard
    assert "31.2 ft-lb" in hard
    _, wasted = torque_notes(thick(tightened(30, 60)))
    assert "no more grip than at 51.7 ft-lb is counted" in wasted
    _, dented = torque_notes(tightened(30, 50))
    assert "no more grip than at 45.2 ft-lb is counted" in dented
