"""The whole answer to the readings of a rack file: which movement it is, and what that changes."""

import math
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from frame.casefile.read import parse_rack
from frame.casefile.write import Value, Where, edited
from frame.diagnosis.candidates import Proposal, propose
from frame.diagnosis.contradictions import Consistency, consistency
from frame.diagnosis.effect import Effect, break_slopes, effect
from frame.diagnosis.expected_readings import tellable, with_tests
from frame.diagnosis.fit import Fit, fit
from frame.diagnosis.forward import Forward
from frame.diagnosis.movements import MovementFound, chief, movements
from frame.diagnosis.unknowns import BEAM_WALL, POST_WALL, fit_unknowns
from frame.diagnosis.written import Fitted, fitted_values, with_fitted
from frame.diagnosis.yielding import Yielding, yieldings
from frame.errors import InputError, Problem
from frame.named.part import PartKind
from frame.rack.measured import Measured, Reading
from frame.rack.rack import Rack
from frame.tables import soils

HARDLY = 0.02
"""Chance of a bend past yield below which it is not looked for (judgement)."""
FITTED: tuple[Where, ...] = (
    ("site", "ground_stiffness"),
    ("sleeve", "play"),
    ("sleeve", "stiffness"),
    ("beam", "bow"),
)
"""Keys of the file that hold nothing but fitted values."""
NOTHING_TOLD = Problem(
    "measured",
    "nothing read tells anything of this rack",
    "`rack measure FILE` lists what does: droop, a side pull, shakes, plumb",
)
NO_READINGS = Problem(
    "measured",
    "no reading is told",
    "`rack measure FILE` says what to read and how; write it under [measured]",
)


@dataclass(frozen=True, kw_only=True)
class Diagnosis:
    """What was found of a rack.

    `found`: the fit; `movements` in shares, `chief` among them; `yieldings` of pipes, `bent`: the
    chance that the beam keeps a bend from yielding [1]; `consistency` of the readings, `left_out`
    the one that contradicts; `fitted`: values for the file, `text` with them, None where it is
    laid out in a way that cannot be edited; `effect` on the plan, None where it was not asked for,
    and the reading to take next, None where no other tells anything.
    """

    rack: Rack
    found: Fit
    movements: tuple[MovementFound, ...]
    chief: MovementFound
    yieldings: tuple[Yielding, ...]
    bent: float
    consistency: Consistency
    left_out: Reading | None
    fitted: tuple[Fitted, ...]
    text: str | None
    effect: Effect | None
    proposal: Proposal | None

    def __repr__(self) -> str:
        """Name the rack, what moves it most and the likely cause."""
        told = f"{self.chief.kind} by {self.chief.cause or 'several'}"
        return f"Diagnosis({self.rack.name!r}, {len(self.found.readings)} readings, {told})"


def diagnose(
    text: str, name: str, units: str | None = None, *, plans: bool = True, processes: int = 1
) -> Diagnosis:
    """Diagnose a rack file's `text`, called `name` in messages; with its `plans` or without.

    With two `processes` the plans are made at once.

    Raises
    ------
    FrameError
        Where the file is wrong or has no readings.
    """
    rack = parse_rack(text, name, units)
    if rack.measured is None or not rack.measured.taken:
        raise InputError((NO_READINGS,))
    measured = with_tests(rack.measured)
    rack = as_described(replace(rack, measured=measured))
    found, bent, said, left_out = _fitted(rack, measured)
    told = movements(found)
    some = fitted_values(found, text)
    after = _written(text, some, rack.units)
    both = effect(_unfitted(text), after, name, processes) if plans and after else None
    end = both.after.end if both else None
    at = (end.rack, end.bracing) if end else (rack, measured.fitted)
    slopes = break_slopes(found, *at)
    refused = [r.key for r in measured.readings if r.value is None]
    refused += [left_out.key] if left_out else []
    return Diagnosis(
        rack=rack,
        found=found,
        movements=told,
        chief=chief(told),
        yieldings=_yieldings(rack, found),
        bent=bent,
        consistency=said,
        left_out=left_out,
        fitted=some,
        text=after,
        effect=both,
        proposal=propose(found, slopes, chief(told), refused),
    )


def _written(text: str, some: tuple[Fitted, ...], units: str) -> str | None:
    try:
        return with_fitted(text, some, units)
    except InputError:
        return None


def _unfitted(text: str) -> str:
    """Return a file's text without what was fitted before."""
    raw = tomllib.loads(text.replace("\r\n", "\n"))
    edits: dict[Where, Value] = {
        where: None for where in FITTED if where[1] in raw.get(where[0], {})
    }
    for part in ("beam", "post"):
        pipe = raw[part]["pipe"]
        if isinstance(pipe, dict) and "fitted" in pipe:
            edits[part, "pipe"] = {k: v for k, v in pipe.items() if k != "fitted"}
    return edited(text, edits) if edits else text


def as_described(rack: Rack) -> Rack:
    """Return a rack as its builder described it, without what was fitted to it before.

    But for the pull of guys, which is written over what stood there.
    """
    beam, posts, sleeve = rack.beam, rack.posts, rack.sleeve
    return replace(
        rack,
        site=replace(rack.site, soil=soils.find(rack.site.soil.name)),
        beam=replace(beam, bow=0.0, pipe=replace(beam.pipe, fitted=0.0)),
        posts=replace(posts, pipe=replace(posts.pipe, fitted=0.0)),
        sleeve=replace(sleeve, clearance=sleeve.as_built, stiffness=1.0),
    )


def _fitted(rack: Rack, measured: Measured) -> tuple[Fit, float, Consistency, Reading | None]:
    """Fit the readings, without the one that contradicts the others if one does."""
    forward = Forward(rack, measured)
    some = [r for r in measured.taken if r.key in tellable(rack, measured)]
    if not some:
        raise InputError((NOTHING_TOLD,))
    found, bent = either(forward, some)
    said = consistency(found)
    if said.suspect is None or len(some) < 3:
        return found, bent, said, None
    left_out = next(r for r in some if r.key == said.suspect)
    found, bent = either(forward, [r for r in some if r is not left_out])
    return found, bent, said, left_out


def either(forward: Forward, readings: Sequence[Reading]) -> tuple[Fit, float]:
    """Fit with a straight beam and, where it may have yielded, with a bent one.

    Return the likelier, and the chance that it is bent: by how well either explains the readings,
    and how likely a bend was beforehand (Bayes).
    """
    rack, measured = forward.rack, forward.measured
    straight = fit(forward, fit_unknowns(rack, measured), readings)
    before = max(y.chance for y in _yieldings(rack, straight) if y.part == "beam")
    if before < HARDLY:
        return straight, 0.0
    bent = fit(forward, fit_unknowns(rack, measured, bent=True), readings)
    odds = math.log(before / max(1.0 - before, 1e-9)) + evidence(bent) - evidence(straight)
    chance = 1.0 / (1.0 + math.exp(-min(max(odds, -50.0), 50.0)))
    return (bent if chance > 0.5 else straight), chance


def evidence(found: Fit) -> float:
    """Logarithm of how likely the readings were beforehand, less a constant (Laplace)."""
    _, shrunk = np.linalg.slogdet(found.covariance)
    size = float(found.misses @ found.misses + found.place @ found.place)
    return float(0.5 * shrunk - 0.5 * size - np.log(found.sigma).sum())


def _yieldings(rack: Rack, found: Fit) -> tuple[Yielding, ...]:
    walls = {PartKind.BEAM: found.values[BEAM_WALL], PartKind.POST: found.values[POST_WALL]}
    return yieldings(rack, walls)
