"""How fast a rack shakes, what that says about its wind loads, and how far it is from buckling."""

import math
from collections.abc import Iterable, Sequence

import numpy as np

from frame.bracing.movement import SERVICE, sleeves
from frame.idealize.state import SOFT, STIFF
from frame.loads.wind import GUST_EFFECT
from frame.records.motion import Shaking, Stability
from frame.solved.blocks import Block
from frame.solved.frames import FloatArray
from frame.solved.situation import Situation
from frame.solved.swaying import TILTS

COUNT = 3
"""How many frequencies are told."""
LEAST_MOMENT = 1e-3
"""Moment on a sleeve [N m] taken where the gust leaves none, so that rocking has an end."""


def shaking(blocks: Iterable[Block]) -> Shaking:
    """Lowest natural frequencies of one bracing, each at the tilt where it is lowest.

    Undamped and first order (weight on the post lowers f by 1 / (2 lambda)); masses lumped at
    nodes, panels with the inertia of their pieces; the set bolts hold the swing. Soft ground,
    fitted guys taut at the soft end of their band; then all of them slack; then taut with play in
    the sleeve, see `play_give`. Clough and Penzien, Dynamics of Structures, 2nd ed., sec. 11-2.
    """
    blocks = tuple(blocks)
    found = [_shaking(b) for b in blocks if b.state.soil == SOFT and b.state.guys != STIFF]
    counted = max(b.gust_effect for b in blocks)
    return Shaking(
        at_rest=min(rest for rest, _, _ in found),
        slack=min(slack for _, slack, _ in found),
        play=min((play for _, _, play in found if play is not None), default=None),
        gust_effect=counted if counted > GUST_EFFECT else None,
    )


def _shaking(block: Block) -> tuple[tuple[float, ...], tuple[float, ...], float | None]:
    """Frequencies [Hz] at rest, with all guys slack, and the lowest with play in the sleeve."""
    sways, springs = block.frame.free_sway, sleeves(block)
    body, k = sways.body, sways.rocking
    taut = [i for i in sways.guys if block.fitted[i]]
    pull = 1.0 / block.response.slackness[block.fitted]
    play = None
    if block.frame.rack.sleeve.clearance > 0.0:
        rocking = [len(sways.guys) + i for i in range(len(k))]
        turned = body.give([i + len(k) for i in rocking], taut, pull)
        give = play_give(block.frame.rack.sleeve.slop, _service_moments(block, springs), turned)
        lost = -k * (k * give) / (1.0 + k * give)
        rocked = body.frequencies([*taut, *rocking], np.concatenate([pull, lost]), 1)
        play = float(rocked[0])
    return (
        tuple(body.frequencies(taut, pull, COUNT).tolist()),
        tuple(body.frequencies([], np.zeros(0), COUNT).tolist()) if taut else (),
        play,
    )


def play_give(slop: float, moment: FloatArray, turned: FloatArray) -> FloatArray:
    """Give [rad/(N m)] that stands for the play of a sleeve that rocks from stop to stop.

    A mass on a spring that turns `turned` c [rad/(N m)], free over `slop` s [rad] each way from
    the middle, driven as far as to strain it by `moment` M [N m]: crossing the play at
    v = omega M c makes the period 2 pi / omega (1 + a / c) with a = 2 s / (pi M), the period of a
    spring that gives c (1 + a / c)^2 = c + 2 a + a^2 / c. Exact for that mass; for a whole rack a
    judgement. In smaller gusts it rocks more slowly still; pressed to one stop, as at rest.
    """
    a = 2.0 * slop / (math.pi * np.maximum(moment, LEAST_MOMENT))
    return 2.0 * a + a**2 / turned


def stability(nows: Iterable[Situation]) -> Stability:
    """Lowest buckling factor of one bracing over the cases solved, with its case in words."""
    worst: tuple[float, Situation, int] | None = None
    for now in nows:
        case = int(now.lowest.argmin())
        if worst is None or now.lowest[case] < worst[0]:
            worst = float(now.lowest[case]), now, case
    if worst is None:
        raise ValueError("no cases to look for buckling in")
    factor, now, case = worst
    return Stability(
        factor=factor,
        gust=float(now.gust[case]),
        words=now.table.words[case],
        tilt=now.block.frame.ideal.tilt,
    )


def _service_moments(block: Block, springs: Sequence[int]) -> FloatArray:
    """Largest moment (k,) [N m] on each sleeve in the service gust, either way."""
    table, site = block.frame.cases(SERVICE), block.frame.rack.site
    answer = block.answer(table.at(block.frame.pressure(site.service_gust)))
    moments = np.abs(answer.connection_forces[:, springs][:, :, list(TILTS)]).max(axis=0)
    return np.asarray(moments).ravel()
