"""Pictures of an elevation from the plane solver's own answer, the largest values marked."""

from collections.abc import Iterator

import numpy as np

from frame.draw.picture import Array, Bar, Line, Mark, Picture
from frame.draw.space import BRACES
from frame.fem.plane import RIGID, Diagram, PlaneAnswer, PlaneGuy
from frame.units import show

FRONT = "front"
WORTH, WORTH_IN_BRACE = 0.03, 0.15
"""Moments below this share of the largest one are not written, outside braces and in them [1]."""
WORTH_MOVING = 0.01
"""Movements below this share of the largest one are not written [1]."""
BETWEEN = 1.2
"""A span that moves this many times more than either beam end gets a mark of its own [1]."""


def elevation_picture(answer: PlaneAnswer, system: str, panels: Array | None = None) -> Picture:
    """Picture of one elevation.

    Parameters
    ----------
    answer : PlaneAnswer
        What the plane solver found for one load case.
    system : str
        Units of the values written, "us" or "metric".
    panels : array (k, 3), optional
        Corners of the panel plane [m], x, y, z.
    """
    frame = answer.frame
    # A diagram's M stretches the side opposite its left-hand normal: the right, as a Bar's does.
    bars = [
        Bar(part=d.part, at=d.at, shape=d.shape, moment=d.M, brace=d.part.startswith(BRACES))
        for d in answer.diagrams
    ]
    places = np.array([node.at for node in frame.nodes])
    for member in (m for m in frame.members if m.kind == RIGID):
        ends = list(member.ends)
        shape = answer.displacements[ends, :2]
        bars.append(
            Bar(part=member.part, at=places[ends], shape=shape, moment=np.zeros(2), rigid=True)
        )
    across = 0 if frame.view == FRONT else 1
    return Picture(
        bars=tuple(bars),
        lines=_lines(answer, places),
        panels=None if panels is None else panels[:, [across, 2]],
        movements=movement_marks(answer.diagrams, system),
        moments=(*moment_marks(answer.diagrams, system), *force_marks(answer, places, system)),
    )


def movement_marks(diagrams: tuple[Diagram, ...], system: str) -> tuple[Mark, ...]:
    """Largest movement of posts (sideways) and of beam and rail ends (up or down), in words."""
    marks = []
    most = max((float(np.abs(d.shape).max()) for d in diagrams), default=0.0)
    for part in dict.fromkeys(d.part for d in diagrams if not d.part.startswith(BRACES)):
        at, shape = (
            np.vstack([getattr(d, name) for d in diagrams if d.part == part])
            for name in ("at", "shape")
        )
        upright = np.ptp(at[:, 1]) > 2 * np.ptp(at[:, 0])
        for i in _picks(at, shape, upright=upright):
            value = shape[i, 0] if upright else shape[i, 1]
            text = show(abs(float(value)), "movement", system)
            if text.startswith("0 ") or abs(value) < WORTH_MOVING * most:
                continue
            side = np.sign(at[i, 0] - at[:, 0].mean()) or 1.0
            words = ("left", "right") if upright else ("down", "up")
            toward = np.array([-1.0, -0.2]) if upright else np.array([side, np.sign(value)])
            text = f"{text} {words[int(value > 0)]}"
            marks.append(Mark(text=text, at=at[i], offset=shape[i], toward=toward))
    return tuple(marks)


def _picks(at: Array, shape: Array, *, upright: bool) -> list[int]:
    """Stations to mark: the farthest of a post; both ends and the deepest span of a beam."""
    if upright:
        return [int(np.argmax(np.abs(shape[:, 0])))]
    ends = [int(np.argmin(at[:, 0])), int(np.argmax(at[:, 0]))]
    most = int(np.argmax(np.abs(shape[:, 1])))
    deep = abs(shape[most, 1]) > BETWEEN * max(abs(shape[i, 1]) for i in ends)
    return [*ends, most] if deep else ends


def moment_marks(diagrams: tuple[Diagram, ...], system: str) -> tuple[Mark, ...]:
    """Largest moment of each part, unless it is small beside the largest of all."""
    most = max((float(np.abs(d.M).max()) for d in diagrams), default=0.0)
    marks = []
    for part in dict.fromkeys(d.part for d in diagrams):
        best = max((d for d in diagrams if d.part == part), key=lambda d: np.abs(d.M).max())
        i = int(np.argmax(np.abs(best.M)))
        least = WORTH_IN_BRACE if part.startswith(BRACES) else WORTH
        if most <= 0 or abs(best.M[i]) < least * most:
            continue
        bar = Bar(part=part, at=best.at, shape=best.shape, moment=best.M)
        offset = bar.stretched * best.M[i]
        together = f", {best.count} together" if best.count > 1 else ""
        text = f"{show(abs(best.M[i]), 'moment', system)}{together}"
        marks.append(Mark(text=text, at=best.at[i], offset=offset, toward=offset / abs(best.M[i])))
    return tuple(marks)


def force_marks(answer: PlaneAnswer, places: Array, system: str) -> tuple[Mark, ...]:
    """Pull or push of braces and pull of guys, at their middles."""
    marks = []
    for part in dict.fromkeys(d.part for d in answer.diagrams if d.part.startswith(BRACES)):
        force = answer.axial(part)
        pieces = answer.of_part(part)
        if not force:
            continue
        middle = np.mean([pieces[0].at[0], pieces[-1].at[-1]], axis=0)
        text = f"{show(abs(force), 'force', system)} {'pull' if force > 0 else 'push'}"
        toward = np.array([np.sign(middle[0]) or 1.0, -1.0])
        marks.append(Mark(text=text, at=middle, offset=np.zeros(2), toward=toward))
    return (*marks, *_guy_marks(answer, places, system))


def _guy_marks(answer: PlaneAnswer, places: Array, system: str) -> list[Mark]:
    """One mark a guy line that is seen: the greatest pull, or "slack" where all on it are."""
    most: dict[tuple[float, ...], tuple[float, PlaneGuy]] = {}
    for guy, pull in _seen(answer):
        line = (guy.node, *np.round(guy.anchor, 2))
        if pull >= most.get(line, (0.0, guy))[0]:
            most[line] = pull, guy
    marks = []
    for pull, guy in most.values():
        start = places[guy.node]
        middle = 0.45 * start + 0.55 * np.array(guy.anchor)
        text = show(pull, "force", system) if pull > 0 else "slack"
        way = np.array([np.sign(guy.anchor[0] - start[0]) or 1.0, 0.3])
        marks.append(Mark(text=f"guy {text}", at=middle, offset=np.zeros(2), toward=way))
    return marks


def _lines(answer: PlaneAnswer, places: Array) -> tuple[Line, ...]:
    lines = []
    for guy, pull in _seen(answer):
        ends = np.array([places[guy.node], guy.anchor])
        shape = np.array([answer.displacements[guy.node, :2], np.zeros(2)])
        lines.append(Line(name=guy.name, ends=ends, shape=shape, slack=pull <= 0))
    return tuple(lines)


def _seen(answer: PlaneAnswer) -> Iterator[tuple[PlaneGuy, float]]:
    """Guys that are fitted and not seen end on, with their pull [N]."""
    for guy, pull, slack in zip(answer.frame.guys, answer.tensions, answer.slack, strict=True):
        if guy.share and not np.isnan(slack):
            yield guy, float(pull)
