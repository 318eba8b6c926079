"""The sizes a search may choose from in the ground: depth, concrete, hole, foot of the post."""

from collections.abc import Iterator

from frame.casefile.write import Value, Where
from frame.changes.series import Rung, Series, Thing, lengths, series, written_length
from frame.named.aim import Aim, Helps
from frame.named.backfill import CONCRETE
from frame.named.limit_state import LimitState, Movement
from frame.named.part import PartKind
from frame.rack.rack import Rack
from frame.units import FT, INCH, METRIC, MM

HOLES = {
    False: tuple(INCH * n for n in (10, 12, 14, 16, 18, 20, 24, 27, 30)),
    True: tuple(MM * n for n in (250, 300, 350, 400, 450, 500, 600, 700, 750)),
}
"""Holes that are dug or augered [m], inch and metric."""
DEEPEST = 8 * FT
"""Deepest hole offered [m]: what a man digs or a rented auger reaches (judgement)."""
DEPTHS = {
    False: tuple(FT * n / 2 for n in range(6, 17)),
    True: tuple(MM * n for n in range(900, 2401, 150)),
}
"""Depths of posts offered [m], inch and metric: steps that a hole is dug to (judgement)."""
FEET = {False: tuple(INCH * n for n in (12, 16, 24)), True: (300 * MM, 400 * MM, 600 * MM)}
"""Plates or flat stones under a bare post [m], inch and metric."""
COVER = 2 * INCH
"""Concrete round a post, at the least [m]: 3 in. is better (common practice, no source)."""
CAST = "concrete round the post, hole {}", "concrete round it, hole {}"
"""Words of a rung of concrete, and how it is told again."""
IN_GROUND: Helps = (
    Aim(
        kind=PartKind.POST,
        states=(
            LimitState.POST_LEANING,
            LimitState.POST_SIDEWAYS,
            LimitState.POST_DOWN,
            LimitState.POST_UP,
            LimitState.POST_TURNING,
        ),
    ),
    Movement.SWAY,
)
PRESSED: Helps = (Aim(kind=PartKind.POST, states=(LimitState.POST_DOWN,)),)


def ground_series(rack: Rack) -> Iterator[Series]:
    """Every series of the posts' setting; nothing but depth and concrete is ever made less."""
    footing, units = rack.posts.footing, rack.units
    many = len(rack.posts.positions) > 1
    post = "posts" if many else "the post"
    if rack.stands:
        post = "longer posts," if many else "a longer post,"
    deep = [d for d in DEPTHS[units == METRIC] if d > 1.5 * footing.ignored and d <= DEEPEST]
    where: Where = ("post", "depth")
    helps = IN_GROUND
    words = f"{post} {{}} deep", "{} deep"
    yield lengths(rack, Thing.POST_DEPTH, where, words, footing.depth, deep, helps)
    sizes = [h for h in HOLES[units == METRIC] if h >= rack.posts.pipe.od + 2 * COVER]
    if footing.cast:
        where = ("post", "hole")
        yield lengths(rack, Thing.HOLE, where, CAST, footing.hole, sizes, helps)
    else:
        yield _cast(rack, sizes)
        yield _foot(rack)


def _cast(rack: Rack, sizes: list[float]) -> Series:
    """From earth or gravel to concrete in holes of some sizes [m], the hole that is first."""
    footing, rungs = rack.posts.footing, []
    for size in sizes:
        if size > footing.hole * (1 - 1e-3):
            text = written_length(size, rack.units)
            edits: dict[Where, Value] = {("post", "backfill"): CONCRETE, ("post", "hole"): text}
            words, again = (told.format(text) for told in CAST)
            rungs.append(Rung(words=words, edits=edits, again=again))
    described = Rung(words=f"hole filled with {footing.backfill}", edits={})
    return Series(thing=Thing.BACKFILL, rungs=(described, *rungs), start=0, helps=IN_GROUND)


def _foot(rack: Rack) -> Series:
    """Lay a plate or flat stone under a post without concrete."""
    footing = rack.posts.footing
    made = []
    for size in FEET[rack.units == METRIC]:
        if footing.foot < size <= footing.hole * (1 + 1e-3):
            text = written_length(size, rack.units)
            words = f"a plate or flat stone {text} wide under the post"
            made.append((size, Rung(words=words, edits={("post", "foot"): text})))
    described = Rung(words="the foot of the post as described", edits={})
    return series(Thing.FOOT, described, made, footing.foot, PRESSED)
