"""One rack with one bracing at one tilt, the middle of every band, solved for every case."""

from dataclasses import dataclass

import numpy as np

from frame.fem.cases import Answer, solve
from frame.fem.model import Model
from frame.fem.response import respond
from frame.idealize.build import build
from frame.idealize.state import State
from frame.loads.cases import CaseTable
from frame.loads.combinations import ASD_WINDY, SNOW_AND_WIND, WEIGHT_ONLY, WHOLE_WIND
from frame.loads.wind import GUST_EFFECT
from frame.rack.rack import Rack
from frame.solved.blocks import Block
from frame.solved.frames import Frame

WINDY = (*ASD_WINDY, *SNOW_AND_WIND)


@dataclass(frozen=True, kw_only=True)
class ModelCase:
    """A frame with the guys of its bracing alone and n solved cases, in order.

    `labels` and `words` name them; `gust` [m/s] is that of those cases whose `gusty` is true.
    """

    frame: Frame
    gust: float
    labels: tuple[str, ...]
    words: tuple[str, ...]
    gusty: tuple[bool, ...]
    answer: Answer

    @property
    def model(self) -> Model:
        """The finite-element model."""
        return self.frame.ideal.model


def solve_model(rack: Rack, bracing: tuple[str, ...], tilt: float, gust: float) -> ModelCase:
    """Solve weight alone, the code's combinations and the whole wind at `gust` [m/s].

    With the gust effect factor of the rack in this ground, see `Block.gust_effect`.

    Raises
    ------
    MechanismError
        Where the frame is loose.
    """
    ideal = build(rack, tilt, bracing, State())
    frame = Frame(ideal=ideal, response=respond(ideal.model))
    site = rack.site
    gusts = [(frame.cases((WEIGHT_ONLY, *WINDY, *WHOLE_WIND)), gust), (frame.fixed_cases(), gust)]
    iced = frame.icy_cases() if site.ice > 0 else None
    if iced:
        gusts.append((iced, site.ice_gust))
    tables = [table for table, _ in gusts]
    slow = Block(frame=frame, bracing=bracing, state=State()).gust_effect / GUST_EFFECT
    factors = np.vstack([table.at(slow * frame.pressure(at)) for table, at in gusts])
    return ModelCase(
        frame=frame,
        gust=gust,
        labels=tuple(label for table in tables for label in table.labels),
        words=tuple(words for table in tables for words in table.words),
        gusty=tuple(on for t in tables for on in _gusty(t, own_gust=t is iced)),
        answer=solve(frame.response, factors),
    )


def _gusty(table: CaseTable, *, own_gust: bool) -> list[bool]:
    return [bool(row.any()) and not own_gust for row in table.per_pressure]
