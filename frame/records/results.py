"""What a study finds: plain frozen records, SI units, ready for words, tables or JSON."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from frame.checks.check import Check, Kind
from frame.checks.guys.anchor import proof_pull
from frame.idealize.state import State
from frame.loads.cases import WindCase
from frame.loads.combinations import Combination
from frame.loads.wind import GUST_EFFECT
from frame.named.aim import Key
from frame.named.limit_state import LimitState
from frame.named.part import Part
from frame.rack.rack import Rack, bracing_title
from frame.records.going import Going, least_low
from frame.records.motion import Sag, Shaking, Stability, Sway, Swing
from frame.records.what_if import KneeChoice, Lowered


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """The worst case of one check of one part.

    `combination` of the code is that of the worst `case`, told in `words`.
    `utilisation` is demand over allowable at the map gust. `limit_gust` [m/s] is None where wind
    does not matter or none up to the highest searched reaches the allowable; `going`, what is
    expected of it by the median model, where none reaches its strength. `buckles`: how many times
    the loads of that case would buckle the rack [1].
    """

    part: Part
    check: LimitState
    utilisation: float
    demand: float
    allowable: float
    nominal: float
    unit: str
    case: str
    words: str
    combination: Combination
    tilt: float
    state: State
    decided_by: str
    source: str
    covered: bool
    hand: Check
    buckles: float = math.inf
    limit_gust: float | None = None
    going: Going | None = None

    @property
    def key(self) -> Key:
        """Which check of which part it is."""
        return self.part, self.check

    @property
    def kind(self) -> Kind:
        """What happens when its strength is reached."""
        return self.going.kind if self.going else self.hand.kind

    @property
    def let_go_gust(self) -> float | None:
        """Gust at which it is expected to go [m/s]."""
        return self.going.gust if self.going else None

    @property
    def act_by_gust(self) -> float | None:
        """Forecast gust to act before [m/s]: the low end of what tilts or breaks."""
        return self.going.low if self.going and self.going.grave else None

    @property
    def passes(self) -> bool:
        """Whether the code's margin is kept at the map gust."""
        return self.utilisation <= 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BraceForce:
    """Largest pull and push on a brace [N], both positive, and the winds that do it."""

    name: Part
    tension: float
    compression: float
    tension_words: str
    compression_words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyForce:
    """Largest pull on a guy [N], the lift it puts on its anchor, and when it hangs slack.

    `pretension` is the still-air pull [N], `slack_winds` those in which the guy hangs slack.
    """

    name: Part
    tension: float
    uplift: float
    pretension: float
    words: str
    slack_winds: tuple[WindCase, ...]

    @property
    def test_pull(self) -> float:
        """Pull to test its anchor by [N], whatever is known of the anchor."""
        return float(proof_pull(self.tension, self.pretension))

    @property
    def slack_in(self) -> tuple[str, ...]:
        """Words of the winds in which it hangs slack."""
        return tuple(wind.words for wind in self.slack_winds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """Largest relative difference of the two solvers on each elevation [1]."""

    front: float
    side: float

    @property
    def worst(self) -> float:
        """The larger of the two."""
        return max(self.front, self.side)


@dataclass(frozen=True, slots=True, kw_only=True)
class BracingResult:
    """Everything found for one bracing; weights [N], costs in the file's currency.

    `effort` what the bracing asks for: its cost where prices are known, else the steel
    added and so much for each guy [N].

    `lowered`: only of the bracing of an answer; None where the file lists one tilt.
    """

    bracing: tuple[str, ...]
    title: str
    sag: Sag
    sway: Sway
    swing: Swing | None
    rows: tuple[Row, ...]
    braces: tuple[BraceForce, ...]
    guys: tuple[GuyForce, ...]
    steel: float
    added_steel: float
    effort: float
    agreement: Agreement | None
    shaking: Shaking | None = None
    stability: Stability | None = None
    cost: float | None = None
    added_cost: float | None = None
    lowered: Lowered | None = None

    @property
    def ladder(self) -> tuple[Row, ...]:
        """What lets go first: rows by let-go gust, those that no wind brings down last."""
        far = float("inf")
        return tuple(
            sorted(
                self.rows,
                key=lambda r: (far if r.let_go_gust is None else r.let_go_gust, -r.utilisation),
            )
        )

    @property
    def gust_effect(self) -> float:
        """Largest gust effect factor G that the code's margin counts [1], 0.85 from 1 Hz up."""
        return (self.shaking and self.shaking.gust_effect) or GUST_EFFECT

    @property
    def limit_gust(self) -> float | None:
        """Gust up to which the code's margin is kept everywhere [m/s]."""
        return _least(r.limit_gust for r in self.rows)

    @property
    def act_by_gust(self) -> float | None:
        """Forecast gust before which panels come off or go low [m/s], if any; see `least_low`."""
        going = least_low(r.going for r in self.rows if r.going)
        return going.low if going else None

    @property
    def let_go_gust(self) -> float | None:
        """Gust at which the first part is expected to go [m/s]."""
        return _least(r.let_go_gust for r in self.rows)

    @property
    def first_slip(self) -> Going | None:
        """What turns, tilts or leans first; None where nothing does."""
        return self._first(Kind.TURNS, Kind.TILTS, Kind.LEANS)

    @property
    def first_break(self) -> Going | None:
        """What breaks first; None where nothing does."""
        return self._first(Kind.BREAKS)

    def _first(self, *kinds: Kind) -> Going | None:
        return next((r.going for r in self.ladder if r.going and r.kind in kinds), None)

    @property
    def passes(self) -> bool:
        """Whether every use worked out is in order, in every case of the code's model.

        These are the winds of the map gust, snow with wind, ice at the gust that comes with it,
        and all that no gust changes (`frame.solved.situation.coded`).
        """
        return all(r.passes for r in self.rows)

    @property
    def rows_uncovered(self) -> tuple[Row, ...]:
        """Checks that no rule covers in some case: no number speaks for those."""
        return tuple(r for r in self.rows if not r.covered)

    @property
    def not_checked(self) -> tuple[str, ...]:
        """Name those parts, each with what of it is not checked."""
        return tuple(f"{r.part} ({r.check})" for r in self.rows_uncovered)

    @property
    def holds(self) -> bool:
        """Whether it has the code's margin: every check is covered, and passes.

        So ask the plan (`frame.plan.standing.holds`) and sizing (`frame.sizing.bench.passed`).
        """
        return self.passes and not self.rows_uncovered

    @property
    def sags(self) -> bool:
        """Whether the sag is over its limit."""
        return self.sag.use > 1.0

    @property
    def sways(self) -> bool:
        """Whether the sway is over its limit."""
        return self.sway.use > 1.0

    def __repr__(self) -> str:
        """Name the bracing, how many checks it has, and whether it holds."""
        held = "holds" if self.holds else "does not hold"
        return f"BracingResult({self.title!r}, {len(self.rows)} checks, {held})"

    def row(self, part: Part, check: LimitState) -> Row | None:
        """Find the row of a check of a part."""
        return next((r for r in self.rows if r.key == (part, check)), None)


def _least(gusts: Iterable[float | None]) -> float | None:
    return min((g for g in gusts if g is not None), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What to weld, why, what comes next cheapest, and what has not been checked."""

    bracing: tuple[str, ...]
    holds: bool | None
    headline: str
    act_by_words: str
    reason: str
    next_cure: str
    first_to_go: str | None
    not_checked: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One change, solved: gusts [m/s] before and after, infinite where nothing is reached.

    `next_part` and `next_words`: what goes first then, and in which wind. `added_steel` [N] is
    more weight of pipe (wire and anchors not in it); `cost` is None while no prices are known.
    `text` is the rack file after the change.
    """

    words: str
    limit_gust: tuple[float, float]
    let_go_gust: tuple[float, float]
    next_part: str
    next_words: str
    added_steel: float
    cost: float | None
    text: str


@dataclass(frozen=True, kw_only=True)
class Study:
    """A rack with every bracing compared; `moves` improve the bracing of the verdict."""

    rack: Rack
    results: tuple[BracingResult, ...]
    dropped: tuple[str, ...]
    knee_card: tuple[KneeChoice, ...]
    verdict: Verdict
    moves: tuple[Move, ...]
    notes: tuple[str, ...]

    def __repr__(self) -> str:
        """Name the rack, how many bracings, and the best."""
        best = bracing_title(self.verdict.bracing)
        return f"Study({self.rack.name!r}, {len(self.results)} bracings, best {best!r})"
