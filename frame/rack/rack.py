"""The whole rack, and the bracing it is described with."""

from dataclasses import dataclass
from itertools import combinations

from frame.rack.beam import Beam, Rails, TieRails
from frame.rack.brace import Knees, Stays
from frame.rack.guy import Guys
from frame.rack.measured import Measured
from frame.rack.panel import Panels
from frame.rack.post import Posts
from frame.rack.prices import Prices
from frame.rack.site import Site
from frame.rack.sleeve import Sleeve
from frame.rack.stick import OddLength
from frame.rack.stock import Stock
from frame.rack.stood import Stood
from frame.rack.weld import Welds

KNEES, TIES, STAYS = "knees", "ties", "stays"
BARE = "bare"
MOST_BRACINGS = 32


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Movements to flag: sag of a beam end per arm, sway of the post top per height [1]."""

    sag_per_arm: float
    sway_per_height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A value the file does not give: what was taken, which way it errs, how to find it out.

    `unsafe`: it errs, if it does, to the unsafe side.
    """

    key: str
    value: str
    errs: str
    find_out: str
    unsafe: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """A rack as described, every part of it, with every bracing that might be fitted.

    `tilts` [rad]. `units` "us" or "metric": how the builder wrote the file. `warnings` are
    whole sentences to show beside every answer. `prices` None: cost is not worked out; `stock`
    None: none is listed. `stands`: it is welded up and in the ground already; `stood` None: no
    storm it has lived through is told; `measured` None: nothing was read off it.
    """

    name: str
    site: Site
    panels: Panels
    tilts: tuple[float, ...]
    posts: Posts
    sleeve: Sleeve
    beam: Beam
    rails: Rails
    welds: Welds
    limits: Limits
    knees: Knees | None = None
    ties: TieRails | None = None
    stays: Stays | None = None
    guys: tuple[Guys, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    warnings: tuple[str, ...] = ()
    units: str = "us"
    prices: Prices | None = None
    stock: Stock | None = None
    sticks: tuple[OddLength, ...] = ()
    stands: bool = False
    stood: Stood | None = None
    measured: Measured | None = None

    @property
    def bracing_names(self) -> tuple[str, ...]:
        """Name of every kind of bracing the rack is described with."""
        stiff = [(KNEES, self.knees), (TIES, self.ties), (STAYS, self.stays)]
        return (*(n for n, part in stiff if part), *(g.name for g in self.guys))

    def bracings(self) -> tuple[tuple[str, ...], ...]:
        """Every combination of the bracing described, bare first, fewer kinds first."""
        names = self.bracing_names
        return tuple(c for n in range(len(names) + 1) for c in combinations(names, n))

    def guys_in(self, bracing: tuple[str, ...]) -> tuple[Guys, ...]:
        """Guy groups fitted in a bracing."""
        return tuple(g for g in self.guys if g.name in bracing)

    @property
    def arms(self) -> tuple[float, float]:
        """Overhang of the beam left and right of the outer posts [m]."""
        half, posts = self.beam.length / 2, self.posts.positions
        return half + posts[0], half - posts[-1]

    @property
    def stand_off(self) -> float:
        """Distance of the rails' centre line from the beam's, square to the panels [m]."""
        return self.beam.pipe.od / 2 + self.rails.channel.depth / 2


def bracing_title(bracing: tuple[str, ...]) -> str:
    """Name of a bracing as printed: its kinds joined, or "bare"."""
    return " + ".join(bracing) or BARE
