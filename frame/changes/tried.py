"""Racks tried one after the other: a frame is solved once as long as only strengths change."""

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

from frame.fem.cases import Answer
from frame.fem.response import respond
from frame.fem.second_order.ritz import Ritz
from frame.idealize.build import Idealized, build, on_other_ground
from frame.idealize.state import SOFT, State
from frame.rack.rack import Rack
from frame.solved.blocks import Block, corners
from frame.solved.frames import Bracing, Frame, stiff_part

KEPT = 2
"""Blocks kept of each place, the last solved: of the rack that stands, of the one tried on it."""


class Place(NamedTuple):
    """Where to look: a tilt [rad], a corner of the bands, of which model."""

    tilt: float
    state: State
    median: bool = False


def code_places(bracing: Bracing, tilts: Iterable[float]) -> tuple[Place, ...]:
    """Every tilt and corner of the code's model."""
    return tuple(Place(tilt, state) for tilt in tilts for state in corners(bracing))


def place_of(block: Block) -> Place:
    """Return where a block is."""
    return Place(block.frame.ideal.tilt, block.state, block.median)


@dataclass(frozen=True, kw_only=True)
class OtherStrength(Block):
    """A block of a rack, `changed` from that of `like` in strength alone: forces stay."""

    like: Block
    changed: Rack

    @property
    def rack(self) -> Rack:
        """The rack whose strength counts."""
        return self.changed

    @property
    def shapes(self) -> Ritz:
        """Shapes it buckles in."""
        return self.like.shapes

    @property
    def gust_effect(self) -> float:
        """Gust effect factor, that of the block it is like."""
        return self.like.gust_effect

    def swept(self, state: tuple[str, float], first: Callable[[], Answer]) -> Answer:
        """Second order of every case of a `state`: that of the block it is like."""
        return self.like.swept(state, first)


@dataclass(kw_only=True)
class Tried:
    """Racks tried with one bracing, and the blocks last solved of each place, of a `kind`."""

    bracing: Bracing
    kind: type[Block] = Block
    kept: dict[Place, list[Block]] = field(default_factory=lambda: defaultdict(list))

    def forget(self) -> None:
        """Let go of the blocks, which are large."""
        self.kept.clear()

    def on(self, rack: Rack) -> "OneTried":
        """Return a rack to be tried, nothing of it solved yet."""
        return OneTried(among=self, rack=rack)


@dataclass(kw_only=True)
class OneTried:
    """One rack tried: its models are built and solved as far as they are asked for."""

    among: Tried
    rack: Rack
    built: dict[tuple[float, str], Idealized] = field(default_factory=dict)
    solved: dict[tuple[float, str], Frame] = field(default_factory=dict)

    def blocks(self, places: Iterable[Place]) -> tuple[Block, ...]:
        """Return the blocks at some places, on a frame solved before where the model is the same.

        Bracing not fitted but for guys is left out of the model.
        """
        return tuple(self._block(place) for place in places)

    def _block(self, place: Place) -> Block:
        ideal, kept = self._ideal(place), self.among.kept[place]
        twin = next((b for b in kept if b.frame.ideal.model == ideal.model), None)
        if twin is None:
            block = self._solve(place, ideal)
            kept[:] = [block, *kept[: KEPT - 1]]
            return block
        if twin.frame.rack is self.rack:
            return twin
        return OtherStrength(
            frame=twin.frame,
            bracing=self.among.bracing,
            state=place.state,
            median=place.median,
            like=twin.like if isinstance(twin, OtherStrength) else twin,
            changed=self.rack,
        )

    def _solve(self, place: Place, ideal: Idealized) -> Block:
        key = place.tilt, place.state.soil
        if key not in self.solved:
            like = self._like(place, ideal)
            self.solved[key] = Frame(ideal=ideal, response=respond(ideal.model), like=like)
        return self.among.kind(
            frame=self.solved[key],
            bracing=self.among.bracing,
            state=place.state,
            median=place.median,
        )

    def _like(self, place: Place, ideal: Idealized) -> Frame | None:
        """Return a frame of as many nodes: of the rack tried before, or of this on soft ground."""
        before = [block.frame for block in self.among.kept[place]]
        soft = self.solved.get((place.tilt, SOFT))
        for frame in (*before, *([soft] if soft else [])):
            if len(frame.ideal.model.nodes) == len(ideal.model.nodes):
                # Never a row of them, each kept by the next.
                return frame.like or frame
        return None

    def _ideal(self, place: Place) -> Idealized:
        tilt, soil = place.tilt, place.state.soil
        if (tilt, SOFT) not in self.built:
            names = (*stiff_part(self.among.bracing), *(g.name for g in self.rack.guys))
            self.built[tilt, SOFT] = build(self.rack, tilt, names, State(soil=SOFT))
        if (tilt, soil) not in self.built:
            self.built[tilt, soil] = on_other_ground(self.built[tilt, SOFT], soil)
        return self.built[tilt, soil]
