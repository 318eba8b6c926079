"""What is made of a fit: causes, contradictions, bends left by yielding, what to read next."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from frame.casefile.read import parse_rack, read_rack
from frame.diagnosis.candidates import propose, readings_left
from frame.diagnosis.contradictions import consistency
from frame.diagnosis.diagnosis import Diagnosis, diagnose
from frame.diagnosis.effect import break_slopes
from frame.diagnosis.fit import Fit, fit
from frame.diagnosis.forward import Forward
from frame.diagnosis.movements import chief, movements
from frame.diagnosis.predict import PREDICTED
from frame.diagnosis.unknowns import fit_unknowns
from frame.diagnosis.yielding import yieldings
from frame.errors import InputError
from frame.rack.measured import Measured, Reading
from frame.tables.readings import reading_kinds, tools
from tests.unit.diagnosis.plastic import hang_after
from tests.unit.diagnosis.told import measured_text
from tests.unit.diagnosis.trials import CAUSES, READ, trial
from tests.unit.diagnosis.twin import INCH, LB, Truth, Twin

CASES = Path(__file__).parents[3] / "cases"
HAY_BARN = (CASES / "hay_barn.toml").read_text("utf-8")
BARN = parse_rack(HAY_BARN, "hay_barn.toml")
MPH = 0.44704  # NIST SP 811, appendix B


@pytest.mark.parametrize("seed", range(len(CAUSES)), ids=CAUSES)
def test_the_cause_of_a_blind_twin_is_named_or_left_open(seed: int) -> None:
    """Twenty by `trials.main`."""
    found = trial(seed)
    assert found.named in (found.cause, None)


def test_most_causes_are_named() -> None:
    named = [t.named == t.cause for t in map(trial, (1, 3, 4, 7))]
    assert sum(named) >= 3


def barn_twin(truth: Truth, seed: int, keys: tuple[str, ...] = READ) -> tuple[Twin, Measured]:
    rack = read_rack(CASES / "hay_barn.toml")
    twin = Twin(rack, truth, rack.tilts[0])
    return twin, twin.read(np.random.default_rng(seed), keys)


def fitted(twin: Twin, measured: Measured) -> Fit:
    forward = Forward(twin.rack, measured)
    return fit(forward, fit_unknowns(twin.rack, measured), measured.readings)


def test_sound_readings_agree() -> None:
    for seed in (1, 2):
        twin, measured = barn_twin(Truth(ground=0.8), seed)
        assert consistency(fitted(twin, measured)).suspect is None


@pytest.mark.parametrize("key", ["top_moved", "unloaded_right", "shakes"])
def test_a_spoiled_reading_is_the_one_to_take_again(key: str) -> None:
    twin, measured = barn_twin(Truth(ground=0.8), 5)
    spoiled = tuple(
        replace(r, value=r.value * 2.5 + 10 * r.within) if r.key == key else r
        for r in measured.readings
    )
    said = consistency(fitted(twin, replace(measured, readings=spoiled)))
    assert said.suspect == key
    assert said.chance < 0.01


def test_the_one_to_take_again_is_left_out() -> None:
    _, measured = barn_twin(Truth(ground=0.8), 5)
    spoiled = tuple(
        replace(r, value=r.value + 20 * r.within) if r.key == "shakes" else r
        for r in measured.readings
    )
    text = HAY_BARN + measured_text(replace(measured, readings=spoiled))
    found = diagnose(text, "hay_barn.toml", plans=False)
    assert found.left_out is not None
    assert found.left_out.key == "shakes"
    assert "shakes" not in [r.key for r in found.found.readings]


@cache
def read_twice() -> tuple[Twin, Measured, Fit, np.ndarray]:
    """A barn of which two readings are taken, the fit, and what each unknown does to its break."""
    twin, measured = barn_twin(Truth(ground=0.8), 6, ("droop_left", "top_moved"))
    found = fitted(twin, measured)
    return twin, measured, found, break_slopes(found, twin.rack, ())


def test_the_reading_proposed_narrows_the_first_break_most_of_all() -> None:
    """Each is taken in turn, as expected, and everything fitted anew."""
    twin, measured, found, slopes = read_twice()
    proposal = propose(found, slopes, chief(movements(found)))
    assert proposal is not None
    assert proposal.for_break
    spreads = {}
    for key in readings_left(found, ()):
        kind = reading_kinds()[key]
        taken = Reading(
            key=key,
            value=PREDICTED[key](found.yard),
            within=tools()[kind.tool].within,
            tool=kind.tool,
        )
        after = fitted(twin, replace(measured, readings=(*measured.readings, taken)))
        spreads[key] = float(slopes @ after.covariance @ slopes)
    assert set(spreads) == {c.key for c in proposal.tried}
    assert proposal.best.key == min(spreads, key=lambda key: spreads[key])


def test_a_reading_nobody_can_take_is_not_proposed() -> None:
    _, _, found, slopes = read_twice()
    first = propose(found, slopes, chief(movements(found)))
    assert first is not None
    second = propose(found, slopes, chief(movements(found)), [first.best.key])
    assert second is None or second.best.key != first.best.key


def test_yield_by_hand() -> None:
    """Half the weight of panels, rails and beam on an arm, at its quarter points and over it.

    Panels of 8 x 47 lb and rails of 8 x 10 ft 6 in at 1.9 lb/ft (the catalog's channel) stand on
    the beam at the quarter points of four columns of 40-1/2 in; 3-1/2 in. nominal pipe, 4 in. by
    0.226 in., 9.11 lb/ft (ASME B36.10), of 45 ksi (judgement).
    """
    rack = parse_rack(HAY_BARN, "hay_barn.toml")
    rail = rack.rails.channel.weight * rack.rails.length
    each = 2 * 47 * LB / 2 + rail
    pitch, quarter = 40.5 * INCH, 10 * INCH
    places = [quarter + 0.25 * INCH, 30.25 * INCH, pitch + 10.25 * INCH, pitch + 30.25 * INCH]
    arm = 165 * INCH / 2
    moment = each * sum(places) + 9.11 * LB / (12 * INCH) * arm**2 / 2
    modulus = np.pi / 32 * (4.0**4 - (4 - 2 * 0.226) ** 4) / 4.0 * INCH**3
    worst = {(y.part, y.under): y for y in yieldings(rack, {"beam": 1.0, "post": 1.0})}
    use = moment / modulus / (45e3 * LB / INCH**2)
    assert worst["beam", "weight"].use == pytest.approx(use, rel=0.02)
    assert worst["beam", "weight"].chance < 0.01
    assert set(worst) == {("beam", "weight"), ("post", "weight")}


def storm(gust: int, bow: float, seed: int) -> Diagnosis:
    """A barn whose beam ends hang by `bow` after a gust [mph]."""
    _, measured = barn_twin(Truth(ground=0.9, bow_left=bow, bow_right=bow), seed)
    stood = f'\n[stood]\ngust = "{gust} mph"\ntilt = "30 deg"\n'
    text = HAY_BARN + stood + measured_text(measured)
    return diagnose(text, "hay_barn.toml", plans=False)


def test_a_beam_bent_in_a_known_gust_shows_as_bent() -> None:
    """Its bend by another route: the moments along the arm through a yielding section's fibres."""
    hang = hang_after(BARN, 95 * MPH)
    assert hang > 0.4 * INCH
    found = storm(95, hang, 8)
    assert found.bent > 0.5
    assert chief(found.movements).cause == "bow"
    assert max(y.chance for y in found.yieldings if y.part == "beam") > 0.5


def test_a_beam_that_sags_elastically_shows_as_normal() -> None:
    hang = hang_after(BARN, 40 * MPH)
    assert hang == pytest.approx(0.0, abs=1e-6)
    found = storm(40, hang, 9)
    assert found.bent < 0.5
    droop = found.movements[0]
    assert droop.beyond_normal <= 1.0
    assert droop.cause in ("beam", None)


def test_a_beam_drawn_crooked_and_never_loaded_hard_is_not_told_as_bent() -> None:
    found = storm(40, 0.6 * INCH, 10)
    assert found.bent < 0.5
    assert chief(found.movements).cause == "bow"


def test_a_file_without_readings_says_what_to_do() -> None:
    with pytest.raises(InputError, match="no reading is told; `rack measure FILE`"):
        diagnose(HAY_BARN, "hay_barn.toml")


def test_a_post_that_leaned_in_a_storm_may_be_further_out_of_plumb() -> None:
    rack = parse_rack(HAY_BARN, "h.toml")
    stood = '\n[stood]\ngust = "45 mph"\ntilt = "30 deg"\nmoved = "leaned"\n'
    leaned = parse_rack(HAY_BARN + stood, "h.toml")
    spreads = [
        {u.key: u.spread for u in fit_unknowns(r, Twin.conditions(r))} for r in (rack, leaned)
    ]
    assert spreads[1]["lean_along"] > spreads[0]["lean_along"]
    assert spreads[1]["turn"] == spreads[0]["turn"]


def test_several_posts_leave_out_what_tells_nothing() -> None:
    text = (CASES / "wash_house.toml").read_text("utf-8")
    only = '\n[measured]\nlift_left = "10 mm"\n'
    with pytest.raises(InputError, match="nothing read tells anything of this rack"):
        diagnose(text + only, "wash_house.toml", plans=False)
    found = diagnose(text + only + 'droop_left = "5 mm"\n', "wash_house.toml", plans=False)
    assert [r.key for r in found.found.readings] == ["droop_left"]
    assert [m.kind for m in found.movements] == ["droop", "sway"]
