"""Random rack files as a builder might write them: each can be built, none is chosen to hold."""

from dataclasses import dataclass, field
from functools import cache

import numpy as np

from frame.casefile.read import parse_rack
from frame.errors import FrameError
from frame.rack.rack import Rack

POSTS = {1: 0.45, 2: 0.3, 3: 0.15, 4: 0.1}
"""How often a rack stands on so many posts."""
LARGEST = {"4 in nominal": 75.0, "5 in nominal": 110.0, "6 in nominal": 150.0}
"""Panels on one post [sq ft] up to which a builder takes a pipe."""
BEAMS = ("3 in nominal", "3-1/2 in nominal", "4 in nominal")
KNEES = ("1-1/4 in nominal", "1-1/2 in nominal")
PINS, SET_BOLTS, U_BOLTS = (
    ("5/8 in", "3/4 in"),
    ("1/2 in", "5/8 in", "3/4 in"),
    ("3/8 in", "1/2 in"),
)
ENDS, FITTED = ("pinned", "welded"), ("before", "after", "jacked")
SOILS = ("clay", "sand", "sandy gravel")
UNDER_SLEEVE = 12
"""Least drop of knees more than the sleeve's length [in], which has half a beam over it: what the
steepest on the widest post need, which meet it well above their drop, or by a lug."""
TILTS = (10, 15, 20, 25, 30, 35, 40, 45)


@dataclass
class Draft:
    """A rack file in the making: lines by section, and what of it the rest depends on."""

    draw: np.random.Generator
    lines: list[str] = field(default_factory=list)

    def some(self, chance: float) -> bool:
        """Whether it is so, with that chance."""
        return bool(self.draw.random() < chance)

    def one_of(self, *choices: object) -> object:
        """Return one of the choices, all as likely."""
        return choices[int(self.draw.integers(len(choices)))]

    def whole(self, low: int, high: int) -> int:
        """Return a whole number from `low` to `high`."""
        return int(self.draw.integers(low, high + 1))

    def put(self, *lines: str) -> None:
        """Write lines."""
        self.lines += lines


def rack_text(draw: np.random.Generator) -> str:
    """Write a random rack file; most can be read, see `random_rack`."""
    now = Draft(draw)
    count = int(draw.choice(list(POSTS), p=list(POSTS.values())))
    width, height = now.whole(38, 46), now.whole(60, 76)
    across, up = now.whole(2, 4) + 2 * (count - 1), now.whole(1, 2)
    tilts = sorted({now.one_of(*TILTS) for _ in range(now.whole(1, 2))})
    now.put(
        "tilts = [" + ", ".join(f'"{t} deg"' for t in tilts) + "]",
        "[site]",
        f'map_gust = "{now.whole(90, 120)} mph"',
        f'exposure = "{now.one_of(*"BCD")}"',
        f'soil = "{now.one_of(*SOILS)}"',
        "[panels]",
        f"across = {across}",
        f"up = {up}",
        f'size = "{width} in x {height} in"',
        f'weight = "{now.whole(38, 62)} lb"',
        'long_side = "up the slope"',
        'gap = "1/2 in"',
    )
    chord = up * height + (up - 1) * 0.5
    beam = across * (width + 0.5) - 0.5 + now.whole(0, 8)
    share = across * width * chord / 144 / count
    pipe = next((p for p, most in LARGEST.items() if share < most), "6 in nominal")
    rise = max(64, round(0.36 * chord + now.whole(14, 26)))
    _post(now, count, pipe, rise, beam)
    sleeve = _joints(now, count, beam)
    _bracing(now, rise, beam / count, sleeve)
    return "\n".join(now.lines) + "\n"


def _post(now: Draft, count: int, pipe: str, rise: int, beam: float) -> None:
    now.put(
        "[post]",
        f'pipe = "{pipe}"',
        f'height = "{rise} in"',
        f'depth = "{now.whole(54, 84)} in"',
        f"count = {count}",
    )
    if count > 1:
        now.put(f'spacing = "{beam / count * now.draw.uniform(0.9, 1.1):.0f} in"')
    if now.some(0.6):
        now.put('backfill = "concrete"', f'hole = "{now.whole(12, 20)} in"')
    else:
        now.put('backfill = "earth"', 'hole = "12 in"')


def _joints(now: Draft, count: int, beam: float) -> int:
    """Write sleeve, beam and rails; return the length of the sleeve [in]."""
    sleeve = now.whole(8, 14)
    now.put("[sleeve]", f'length = "{sleeve} in"')
    if now.some(0.5):
        now.put(f'pin = "{now.one_of(*PINS)}"')
    else:
        now.put(
            f"set_bolts = {now.whole(2, 4)}",
            f'set_bolt = "{now.one_of(*SET_BOLTS)}"',
            f'set_bolt_torque = "{now.whole(35, 60)} ft-lb"',
            'jam_nuts = "yes"',
        )
    now.put(
        "[beam]",
        f'pipe = "{now.one_of(*BEAMS)}"',
        f'length = "{beam:.0f} in"',
        "[rails]",
        f"u_bolts = {now.whole(1, 3)}",
        f'u_bolt = "{now.one_of(*U_BOLTS)}"',
    )
    if now.some(0.5):
        now.put('marked = "yes"', f'u_bolt_torque = "{now.whole(15, 30)} ft-lb"')
    return sleeve


def _bracing(now: Draft, rise: int, room: float, sleeve: int) -> None:
    if now.some(0.5):
        now.put(
            "[knees]",
            f'pipe = "{now.one_of(*KNEES)}"',
            f'drop = "{now.whole(sleeve + UNDER_SLEEVE, rise // 2)} in"',
            f'reach = "{now.whole(16, int(min(34, 0.4 * room)))} in"',
            f'ends = "{now.one_of(*ENDS)}"',
            f'fitted = "{now.one_of(*FITTED)}"',
        )
    if now.some(0.4):
        now.put("[ties]", 'at = ["lower", "upper"]', f'fitted = "{now.one_of(*FITTED[:2])}"')
    places = ("post top", "beam ends", "rail corners")
    for i in now.draw.permutation(3)[: now.one_of(0, 0, 1, 1, 2)]:
        now.put(
            "[[guys]]",
            f'from = "{places[i]}"',
            'wire = "1/4 in EHS strand"',
            f'out = "{now.whole(40, 76)} in"',
            f'along = "{now.whole(20, 56)} in"',
            f'pretension = "{now.whole(50, 220)} lb"',
            'anchor = { kind = "deadman", depth = "4 ft", height = "10 in", length = "4 ft" }',
        )


def random_file(seed: int) -> tuple[str, str]:
    """Return the text and the name of the first of the files from a seed that can be built."""
    draw = np.random.default_rng(seed)
    for trial in range(20):
        text, name = rack_text(draw), f"rack {seed}.{trial}.toml"
        try:
            parse_rack(text, name)
        except FrameError:
            continue
        return text, name
    raise AssertionError(f"no rack of seed {seed} can be built")


@cache
def random_rack(seed: int) -> Rack:
    """Return the rack of `random_file`."""
    return parse_rack(*random_file(seed))
