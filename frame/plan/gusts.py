"""At which forecast gust panels go low or come off, and everything told beside that card."""

from collections.abc import Sequence
from dataclasses import dataclass

from frame.plan.decides import Deciding, deciding
from frame.plan.decision import as_it_is
from frame.rack.rack import Rack, bracing_title
from frame.search.weakest import learned_of, weakest
from frame.solved.blocks import solved_models
from frame.solved.frames import Bracing
from frame.whatif.imperfect import Flaw, flaws
from frame.whatif.known_better import KnownBetter, known_better, ladder_of
from frame.whatif.losses import Loss, losses
from frame.whatif.tilts import Deed, TiltCurve, lay_down, tilt_curves


@dataclass(frozen=True, slots=True, kw_only=True)
class Gusts:
    """The whole answer: curves of every bracing, and for that of the card (`why` that one) more.

    `curve` and `stages` make the card; `losses`, `flaws` of building; `known`: what knowing more
    lifts the code's margin by; `decides`: what moves it most when it goes.
    """

    rack: Rack
    curves: Sequence[TiltCurve]
    curve: TiltCurve
    why: str
    stages: Sequence[Deed]
    losses: Sequence[Loss]
    flaws: Sequence[Flaw]
    known: KnownBetter
    decides: Sequence[Deciding]

    def __repr__(self) -> str:
        """Name the rack, the bracing of the card and its stages."""
        title = bracing_title(self.curve.bracing)
        return f"Gusts({self.rack.name!r}, {title!r}, {len(self.stages)} stages)"


def gusts_of(rack: Rack, asked: Bracing | None) -> Gusts:
    """Work out the card of the bracing asked for, or of the rack as it is."""
    learned = learned_of(rack)
    if asked is not None:
        fitted, why = asked, "as --bracing asks"
    else:
        fitted = as_it_is(rack)
        why = "as it stands" if rack.stands else "add --bracing NAMES for what is fitted"
    others = tuple(b for b in rack.bracings() if b != fitted and asked is None)
    (curve,) = tilt_curves(rack, (fitted,), learned=learned)
    beside = tilt_curves(rack, others, rack.tilts, learned) if others else ()
    whole = weakest(solved_models(rack, fitted), learned)
    worst = min(p.limit_gust for p in curve.points if p.own)
    return Gusts(
        rack=rack,
        curves=(curve, *beside),
        curve=curve,
        why=why,
        stages=lay_down(curve),
        losses=losses(rack, fitted, whole=whole, learned=learned),
        flaws=flaws(rack, fitted, whole, learned),
        known=known_better(rack, fitted, worst),
        decides=deciding(ladder_of(rack, fitted, learned)),
    )
