"""Twins of many racks, each with a cause of its own, and what the program makes of them.

Run all hundred with `python -m tests.unit.diagnosis.trials 100`.
"""

import sys
from dataclasses import dataclass, fields, replace
from functools import cache

import numpy as np

from frame.casefile.read import parse_rack
from frame.diagnosis.diagnosis import either
from frame.diagnosis.fit import Fit
from frame.diagnosis.forward import Forward
from frame.diagnosis.movements import chief, movements
from frame.diagnosis.unknowns import fit_unknowns
from frame.rack.measured import Measured
from frame.rack.rack import Rack
from frame.rack.stood import NOTHING, Stood
from tests.unit.diagnosis.plastic import bending_gust
from tests.unit.diagnosis.twin import DEG, INCH, SCALE, Truth, Twin

PIPE, PLAY, GROUND, LOCK, BOW, BEND = "beam", "play", "ground", "lock", "bow", "bend"
CAUSES = (PIPE, PLAY, GROUND, LOCK, BOW, BEND)
READ = (
    "droop_left", "droop_right", "unloaded_left", "unloaded_right", "top_moved", "end_moved",
    "end_stayed", "lift_left", "lift_right", "shakes", "lean_along",
)  # fmt: skip
"""Readings that one takes in half an hour."""
STEP = 1e-2
BEAMS = {PIPE: ("2-1/2 in nominal",)}


@dataclass(frozen=True)
class Trial:
    """A twin read off once, and the fit to it."""

    cause: str
    twin: Twin
    measured: Measured
    found: Fit
    bent: float

    @property
    def named(self) -> str | None:
        """The cause the program names."""
        cause = chief(movements(self.found)).cause
        return BEND if cause == BOW and self.bent > 0.5 else cause

    def missed(self) -> dict[str, bool]:
        """Whether the truth of each unknown is outside its band."""
        truth = self.twin.truth
        true = {f.name: getattr(truth, f.name) for f in fields(truth) if "bow" not in f.name}
        true["bow"] = (truth.bow_left + truth.bow_right) / 2
        true["skew"] = (truth.bow_left - truth.bow_right) / 2
        ends = {key: (self.found.band(key), value) for key, value in true.items()}
        return {k: not low <= value <= high for k, ((low, high), value) in ends.items()}


def rack(rng: np.random.Generator, cause: str) -> Rack:
    """A rack on one post, as a builder might have it; limber where its pipe is the cause."""
    beams = BEAMS.get(cause, ("3 in nominal", "3-1/2 in nominal"))
    across = int(rng.integers(4, 5)) if cause == PIPE else int(rng.integers(3, 5))
    width = int(rng.integers(38, 45))
    feet = across * (width + 0.5) / 12 + float(rng.uniform(0, 0.6))
    return parse_rack(
        f"""
tilts = ["{30 if cause == BEND else int(rng.integers(3, 8)) * 5} deg"]
[site]
map_gust = "100 mph"
soil = "{rng.choice(["clay", "sand", "sandy gravel"])}"
[panels]
across = {across}
up = 2
size = "{width} in x {int(rng.integers(58, 70))} in"
weight = "{int(rng.integers(40, 56))} lb"
[post]
pipe = "{rng.choice(["4 in nominal", "5 in nominal"])}"
height = "{int(rng.integers(66, 80))} in"
depth = "{int(rng.integers(48, 72))} in"
hole = "{int(rng.integers(10, 18))} in"
backfill = "{rng.choice(["earth", "concrete"])}"
[sleeve]
length = "{int(rng.integers(7, 11))} in"
[beam]
pipe = "{rng.choice(beams)}"
length = "{feet:.2f} ft"
""",
        "twin.toml",
    )


def truth(rng: np.random.Generator, of: Rack, cause: str) -> Truth:
    """A rack whose movement is all of one cause, the rest being as it should be."""
    slop = of.sleeve.length
    base = Truth(
        ground=float(np.exp(rng.normal(0.1, 0.15))),
        beam_wall=float(rng.uniform(0.93, 1.0)),
        post_wall=float(rng.uniform(0.93, 1.0)),
        sleeve=float(np.exp(rng.normal(0, 0.4))),
        lean_along=float(rng.normal(0, 0.02 * DEG)),
        lean_across=float(rng.normal(0, 0.02 * DEG)),
    )
    if cause == PIPE:
        return replace(base, beam_wall=float(rng.uniform(0.75, 0.9)))
    if cause == PLAY:
        play = float(rng.uniform(0.11, 0.3)) * INCH
        side = float(rng.choice([-1.0, 1.0])) * 0.95 * play / slop
        return replace(base, play=play, rest=side, rest_unloaded=side)
    if cause == GROUND:
        band = of.site.soil.stiffness_stiff / of.site.soil.stiffness_soft
        return replace(base, ground=float(rng.uniform(0.7, 1.0)) / band)
    if cause == LOCK:
        return replace(base, turn=float(rng.uniform(0.8, 2.0)) * DEG)
    if cause == BEND:
        hang = float(rng.uniform(0.8, 1.6)) * INCH
        return replace(base, bow_left=hang, bow_right=hang * float(rng.uniform(0.9, 1.1)))
    bow = float(rng.uniform(0.45, 0.7)) * INCH
    return replace(base, bow_left=bow, bow_right=bow * float(rng.uniform(0.8, 1.2)))


def any_truth(rng: np.random.Generator, of: Rack) -> Truth:
    """A rack that is anything that was thought likely beforehand: for how often bands hold."""
    values = {}
    measured = Twin.conditions(of)
    for u in fit_unknowns(of, measured):
        at = max(u.middle + u.spread * rng.standard_normal(), u.least)
        values[u.key] = u.value(at)
    slop = values["play"] / of.sleeve.length
    for key in ("rest", "rest_unloaded"):
        values[key] = float(rng.uniform(-slop, slop))
    values["bow_left"] = values["bow"] + values["skew"]
    values["bow_right"] = values["bow"] - values["skew"]
    return Truth(**{f.name: float(values[f.name]) for f in fields(Truth)})


@cache
def trial(seed: int, *, anything: bool = False) -> Trial:
    """Make a twin, read it off, and fit."""
    rng = np.random.default_rng(seed)
    cause = CAUSES[seed % len(CAUSES)]
    of = rack(rng, cause)
    true = any_truth(rng, of) if anything else truth(rng, of, cause)
    if cause == BEND and not anything:
        gust = bending_gust(of, true.bow_left)
        of = replace(
            of, stood=Stood(gust=gust, tilt=30 * DEG, fitted=(), panels_on=True, moved=NOTHING)
        )
    twin = Twin(of, true, of.tilts[0])
    measured = twin.read(rng, READ)
    found, bent = either(Forward(of, measured), measured.readings)
    return Trial(cause, twin, measured, found, bent)


def cramer_rao(twin: Twin, found: Fit) -> np.ndarray:
    """Least standard deviations, over those beforehand, of the unknowns of a fit.

    Cramer and Rao's bound of the twin with what was known beforehand (van Trees 1968).
    """
    columns = []
    for u in found.unknowns:
        if u.key.startswith("scale"):
            columns.append([_by_scale(twin, u.key, r.key) for r in found.readings])
            continue
        ends = []
        for sign in (1.0, -1.0):
            other = Twin(twin.rack, _moved(twin.truth, u.key, sign * STEP * u.spread), twin.tilt)
            ends.append(np.array([other.exact[r.key] for r in found.readings]))
        columns.append((ends[0] - ends[1]) / (2 * STEP))
    J = np.array(columns).T / np.array([r.within for r in found.readings])[:, None]
    return np.sqrt(np.diag(np.linalg.inv(np.eye(J.shape[1]) + J.T @ J)))


def _moved(truth: Truth, key: str, by: float) -> Truth:
    if key in ("bow", "skew"):
        right = by if key == "bow" else -by
        return replace(truth, bow_left=truth.bow_left + by, bow_right=truth.bow_right + right)
    was = getattr(truth, key)
    factor = key in ("ground", "beam_wall", "post_wall", "sleeve")
    return replace(truth, **{key: float(was * np.exp(by)) if factor else was + by})


def _by_scale(twin: Twin, scale: str, reading: str) -> float:
    if (scale, reading) == ("scale_pull", "top_moved"):
        return SCALE * twin.exact["top_moved"]
    if (scale, reading) == ("scale_push", "end_moved"):
        return SCALE * (twin.exact["end_moved"] - twin.exact["end_stayed"])
    return 0.0


def main(count: int) -> None:
    """Print how many causes of 20 are named, and how often the truth is outside its band."""
    named = [(t.cause, t.named) for t in map(trial, range(20))]
    right, wrong = sum(a == b for a, b in named), [n for n in named if n[1] not in (n[0], None)]
    say = [f"{right} of 20 causes named, {len(wrong)} wrongly {wrong}"]
    trials = [trial(1000 + i, anything=True) for i in range(count)]
    wide = [
        np.sqrt(np.diag(t.found.covariance)) / cramer_rao(t.twin, t.found) for t in trials[:10]
    ]
    say += [f"bands at most {np.max(wide):.2f} times as wide as the twin's own bound, of 10"]
    missed = [t.missed() for t in trials]
    say += [f"{key:15} {count - sum(m[key] for m in missed)} of {count}" for key in missed[0]]
    sys.stdout.write("\n".join([*say, ""]))


if __name__ == "__main__":
    main(int(sys.argv[1]))
