"""Rebuild a rack in space from the shop's data alone: lengths, ends, marks and angles as printed.

Nothing of the program is used but the document: the saddles are found by casting rays.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np

RAYS = 144
UP = np.array([0.0, 0.0, 1.0])
ALONG = np.array([1.0, 0.0, 0.0])
FRONT = np.array([0.0, -1.0, 0.0])


@dataclass(frozen=True)
class Placed:
    """A piece in space: its hook end, the way to its far end, the way to its first line."""

    piece: dict[str, Any]
    hook: np.ndarray
    way: np.ndarray
    line: np.ndarray

    def point(self, where: str) -> np.ndarray:
        """Where a mark or an end is."""
        if where == "hook end":
            return self.hook
        if where == "far end":
            return self.hook + self.piece["length"] * self.way
        mark = next(m for m in self.piece["marks"] if m["name"] == where)
        on_axis = self.hook + mark["at"] * self.way
        if mark["around_deg"] is None:
            return on_axis
        return on_axis + (self.piece["od"] / 2 + mark["off"]) * self.outward(mark)

    def outward(self, mark: dict[str, Any]) -> np.ndarray:
        """Which way a mark faces."""
        a = np.radians(mark["around_deg"])
        return np.cos(a) * self.line + np.sin(a) * np.cross(self.way, self.line)

    def mark(self, where: str) -> dict[str, Any]:
        return next(m for m in self.piece["marks"] if m["name"] == where)


def first_crossing(start, way, on_axis, axis, radius):
    """Distances along rays at which they first meet a cylinder, by bisection; NaN where none does.

    `start` (n, 3) outside it.
    """

    def outside(t):
        rel = start + t[:, None] * way - on_axis
        rel = rel - (rel @ axis)[:, None] * axis
        return np.linalg.norm(rel, axis=1) - radius

    rel = start - on_axis
    square = way - (way @ axis) * axis
    nearest = -(rel - (rel @ axis)[:, None] * axis) @ square / (square @ square)
    low, high = np.zeros(len(start)), nearest.copy()
    missed = outside(high) > 0
    for _ in range(60):
        middle = (low + high) / 2
        out = outside(middle) > 0
        low, high = np.where(out, middle, low), np.where(out, high, middle)
    return np.where(missed, nearest, high)


def ring(centre, way, diameter):
    """Points round a pipe's end, on the edge that is to fit."""
    side = np.cross(way, [0.3, 0.5, 0.81])
    side /= np.linalg.norm(side)
    other = np.cross(way, side)
    a = np.linspace(0, 2 * np.pi, RAYS, endpoint=False)[:, None]
    return centre + diameter / 2 * (np.cos(a) * side + np.sin(a) * other)


def farthest(inside, way, end, on_axis, axis):
    """How far along `way` from a point of its centre line the long point of a coped end lies."""
    back = ring(inside - way, way, end["bore"])
    return float(first_crossing(back, way, on_axis, axis, end["header"] / 2).max()) - 1.0


class Rebuilt:
    """A rack put together piece by piece; `gaps` tells by how much each joint fails to close."""

    def __init__(self, document: dict[str, Any]) -> None:
        self.document = document
        self.by_letter = {p["letter"]: p for p in document["pieces"]}
        self.named = {p["name"]: p for p in document["pieces"]}
        self.placed: dict[tuple[str, int], Placed] = {}
        self.gaps: dict[str, float] = {}
        tilt = np.radians(document["tilt_deg"])
        self.up = np.array([0.0, np.cos(tilt), np.sin(tilt)])
        self.out = np.array([0.0, -np.sin(tilt), np.cos(tilt)])
        self.beam = Placed(self.named["beam"], np.zeros(3), ALONG, UP)
        self.placed[self.beam.piece["letter"], 1] = self.beam
        for joint in document["joints"]:
            self._join(joint)

    def _join(self, joint) -> None:
        second = self.by_letter[joint["second"]["letter"]]["name"]
        if joint["kind"] == "U-bolt":
            self._rail(joint)
        elif second == "strap":
            self._strap(joint)
        elif joint["kind"] == "bolt":
            self._tie(joint)
        elif second == "sleeve":
            self._sleeve(joint)
        elif second == "knee":
            self._knee(joint)

    def key(self, place) -> tuple[str, int]:
        return place["letter"], place["number"]

    def there(self, place) -> np.ndarray:
        return self.placed[self.key(place)].point(place["where"])

    def _sleeve(self, joint) -> None:
        key = self.key(joint["second"])
        if joint["kind"] == "seat":
            self.waiting = joint
            return
        piece, radius = self.by_letter[key[0]], self.beam.piece["od"] / 2
        mark = self.beam.mark(joint["first"]["where"])
        middle = self.beam.hook + mark["at"] * ALONG
        long_point = farthest(middle, UP, piece["ends"][1], middle, ALONG)
        if piece["ends"][1]["bore"] >= piece["ends"][1]["header"]:
            long_point = 0.0
        top = middle + long_point * UP
        self.placed[key] = Placed(piece, top - piece["length"] * UP, UP, FRONT)
        place = self.waiting["first"]
        post = self.by_letter[place["letter"]]
        foot = middle - (radius + post["length"]) * UP
        self.placed[self.key(place)] = Placed(post, foot, UP, FRONT)
        gap = self.there(place) - self.there(self.waiting["second"])
        self.gaps[self.waiting["name"]] = float(np.linalg.norm(gap))
        bore = piece["od"] - 2 * piece["wall"]
        assert bore >= post["od"]

    def _rail(self, joint) -> None:
        key = self.key(joint["second"])
        piece = self.by_letter[key[0]]
        rail = Placed(piece, np.zeros(3), self.up, self.out)
        middle = rail.point(joint["second"]["where"])
        hook = self.there(joint["first"]) + joint["apart"] * self.out - middle
        self.placed[key] = Placed(piece, hook, self.up, self.out)
        drilled = rail.mark("U-bolt, lower leg")["hole"]
        strap = self.named.get("strap")
        if strap:
            drilled = next(m["hole"] for m in strap["marks"] if m["hole"])
        rod = drilled - 0.0254 / 16
        reach = [
            abs(rail.mark(f"U-bolt, {leg} leg")["at"] - rail.mark("middle of the beam")["at"])
            for leg in ("lower", "upper")
        ]
        touches = (self.beam.piece["od"] + rod) / 2
        self.gaps[joint["name"]] = max(abs(r - touches) for r in reach)

    def _strap(self, joint) -> None:
        """Lay a strap along the beam on its rail; each leg beside the rail or through its hole."""
        key = self.key(joint["second"])
        piece = self.by_letter[key[0]]
        at = Placed(piece, np.zeros(3), ALONG, self.out).point(joint["second"]["where"])
        hook = self.there(joint["first"]) + joint["apart"] * self.out - at
        self.placed[key] = Placed(piece, hook, ALONG, self.out)
        rail = self.placed[self.key(joint["first"])]
        hole = rail.mark(joint["first"]["where"])["hole"]
        into = 0.0
        for mark in piece["marks"]:
            leg = self.placed[key].point(mark["name"]) - self.there(joint["first"])
            across, along = abs(leg @ ALONG), abs(leg @ self.up)
            if not mark["hole"]:
                continue
            through = bool(hole) and across < 1e-9
            rod = mark["hole"] - 0.0254 / 16
            past = 0.0 if through else rail.piece["wall"] / 2 + rod / 2 - across
            into = max(into, past, along)
        self.gaps[joint["name"]] = into

    def _tie(self, joint) -> None:
        key = self.key(joint["second"])
        bolt = self.there(joint["first"]) - joint["apart"] * self.out
        if key not in self.placed:
            piece = self.by_letter[key[0]]
            at = Placed(piece, np.zeros(3), ALONG, self.out).point(joint["second"]["where"])
            self.placed[key] = Placed(piece, bolt - at, ALONG, self.out)
        self.gaps[joint["name"]] = float(np.linalg.norm(self.there(joint["second"]) - bolt))

    def _knee(self, joint) -> None:
        """Lay a knee on its two marks and see by how much it is too long or too short."""
        key = self.key(joint["second"])
        if joint["second"]["where"] == "hook end":
            self.started = joint
            return
        piece = self.by_letter[key[0]]
        ends = [self.there(j["first"]) for j in (self.started, joint)]
        way = ends[1] - ends[0]
        apart = float(np.linalg.norm(way))
        way /= apart
        if joint["kind"] == "pin":
            needed = apart - sum(end["reach"] for end in piece["ends"])
            self.gaps[joint["name"]] = abs(needed - piece["length"])
            return
        post = self.placed[self.key(self.started["first"])]
        first, second = piece["ends"]
        middle = (ends[0] + ends[1]) / 2
        needed = farthest(middle, -way, first, post.hook, UP)
        needed += farthest(middle, way, second, self.beam.hook, ALONG)
        self.gaps[joint["name"]] = abs(needed - piece["length"])
        for axis, end in ((UP, first), (ALONG, second)):
            angle = np.degrees(np.arccos(abs(way @ axis)))
            miss = abs(np.radians(angle - round(end["angle_deg"], 1))) * piece["od"]
            self.gaps[f"{joint['name']}, angle {end['onto']}"] = float(miss)
