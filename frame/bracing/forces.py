"""Forces in braces and guys over every case of one bracing.

Of second order, as every check of them has it; infinite where the rack sways over.
"""

from collections.abc import Sequence

import numpy as np

from frame.idealize.bands import guy_groups
from frame.idealize.build import Idealized
from frame.loads.cases import WindCase
from frame.named.part import Part
from frame.parts.guys.guys import fitted_guys
from frame.parts.steel.braces import brace_parts
from frame.records.results import BraceForce, GuyForce
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.solved.worst import worst_case


def brace_forces(nows: Sequence[Situation]) -> tuple[BraceForce, ...]:
    """Largest pull and push along every brace over all cases [N]."""
    best: dict[Part, dict[int, tuple[float, str]]] = {}
    for now in nows:
        for name, _, _ in brace_parts(now):
            N = now.along(name).N.reshape(len(now.case), -1)
            ends = best.setdefault(name, {1: (0.0, ""), -1: (0.0, "")})
            for sign, value in ends.items():
                most = force_or_infinite(now, (sign * N).max(axis=1))
                case = worst_case(most)
                ends[sign] = max(value, (float(most[case]), now.table.words[case]))
    return tuple(
        BraceForce(
            name=name,
            tension=ends[1][0],
            compression=ends[-1][0],
            tension_words=ends[1][1],
            compression_words=ends[-1][1],
        )
        for name, ends in best.items()
    )


def guy_forces(nows: Sequence[Situation]) -> tuple[GuyForce, ...]:
    """Largest pull on every guy fitted [N], and the winds in which it hangs slack."""
    ideal = nows[0].block.frame.ideal
    bracing = nows[0].block.bracing
    pulls = [{line.name: line.pull for line in fitted_guys(now)} for now in nows]
    found = []
    for i, (guy, group) in enumerate(zip(ideal.model.guys, guy_groups(ideal), strict=True)):
        if group not in bracing:
            continue
        best: tuple[float, str] = (0.0, "")
        slack: dict[str, WindCase] = {}
        for now, pull in zip(nows, pulls, strict=True):
            most = pull[guy.name]
            most = force_or_infinite(now, most)
            case = worst_case(most)
            best = max(best, (float(most[case]), now.table.words[case]))
            for row in np.flatnonzero(now.answer.tensions[:, i] <= 0.0):
                wind = now.table.winds[row]
                if wind is not None:
                    slack.setdefault(wind.words, wind)
        given = next(g.pretension for g in ideal.rack.guys if g.name == group)
        found.append(
            GuyForce(
                name=guy.name,
                tension=best[0],
                uplift=best[0] * _rise(ideal, i),
                pretension=given,
                words=best[1],
                slack_winds=tuple(slack.values()),
            )
        )
    return tuple(found)


def force_or_infinite(now: Situation, force: FloatArray) -> FloatArray:
    """Return forces (n,) [N] as they are, infinite where the rack sways over."""
    return np.where(now.topples & (force > 0), np.inf, force)


def _rise(ideal: Idealized, guy: int) -> float:
    """Upward part of a guy's pull on its anchor [1]."""
    line = ideal.model.guys[guy]
    up = np.array(ideal.model.nodes[line.node].xyz) - line.anchor
    return float(up[2] / np.linalg.norm(up))
