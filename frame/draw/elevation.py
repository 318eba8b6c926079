"""Pictures of an elevation from the plane solver's own answer, the largest values marked."""

from collections.abc import Iterator

import numpy as np

from frame.draw.picture import Array, DrawnGuy, DrawnMember, Picture, ValueMark, guy_text
from frame.fem.plane.model import RIGID, Diagram, PlaneAnswer, PlaneGuy
from frame.named.part import BRACES, PartKind
from frame.units import show

FRONT = "front"
MOMENTS, SHEAR, AXIAL = "moments", "shear", "axial"
KINDS = {MOMENTS: ("M", "moment"), SHEAR: ("V", "force"), AXIAL: ("N", "force")}
"""What is drawn of a diagram, and the kind of quantity it is."""
WORTH, WORTH_IN_BRACE = 0.03, 0.15
"""Values below this share of the largest one are not written, outside braces and in them [1]."""


def elevation_picture(
    answer: PlaneAnswer, system: str, panels: Array | None = None, what: str = MOMENTS
) -> Picture:
    """Picture of one elevation with one of its forces.

    Parameters
    ----------
    answer : PlaneAnswer
        What the plane solver found for one load case.
    system : str
        Units of the values written, "us" or "metric".
    panels : array (k, 3), optional
        Corners of the panel plane [m], x, y, z.
    what : str
        "moments", drawn on the stretched side; "shear" and "axial", pull and positive shear on
        the same side as a positive moment.
    """
    frame, name = answer.frame, KINDS[what][0]
    # A diagram's M stretches the side opposite its left-hand normal: the right, as a Bar's does.
    bars = [
        DrawnMember(
            part=d.part,
            at=d.at,
            shape=d.shape,
            force=getattr(d, name),
            brace=d.of in BRACES,
            rail=d.of is PartKind.RAIL,
        )
        for d in answer.diagrams
    ]
    places = np.array([node.at for node in frame.nodes])
    for member in (m for m in frame.members if m.kind == RIGID):
        ends = list(member.ends)
        shape = answer.displacements[ends, :2]
        bars.append(
            DrawnMember(
                part=member.part, at=places[ends], shape=shape, force=np.zeros(2), rigid=True
            )
        )
    across = 0 if frame.view == FRONT else 1
    return Picture(
        bars=tuple(bars),
        lines=_lines(answer, places),
        panels=None if panels is None else panels[:, [across, 2]],
        forces=(
            *diagram_marks(answer.diagrams, what, system),
            *force_marks(answer, places, what, system),
        ),
    )


def diagram_marks(diagrams: tuple[Diagram, ...], what: str, system: str) -> tuple[ValueMark, ...]:
    """Largest value of each part, unless it is small beside the largest of all."""
    name, kind = KINDS[what]
    most = max((float(np.abs(getattr(d, name)).max()) for d in diagrams), default=0.0)
    marks = []
    for part, of in dict.fromkeys((d.part, d.of) for d in diagrams):
        if what == AXIAL and of in BRACES:
            continue
        some = [d for d in diagrams if d.part == part]
        best = max(some, key=lambda d: np.abs(getattr(d, name)).max())
        values = getattr(best, name)
        i = int(np.argmax(np.abs(values)))
        least = WORTH_IN_BRACE if of in BRACES else WORTH
        if most <= 0 or abs(values[i]) < least * most:
            continue
        bar = DrawnMember(part=part, at=best.at, shape=best.shape, force=values)
        offset = bar.stretched * values[i]
        together = f", {best.count} {of}s together" if best.count > 1 else ""
        way = (" pull" if values[i] > 0 else " push") if what == AXIAL else ""
        text = f"{show(abs(values[i]), kind, system)}{way}{together}"
        marks.append(
            ValueMark(text=text, at=best.at[i], offset=offset, toward=offset / abs(values[i]))
        )
    return tuple(marks)


def force_marks(
    answer: PlaneAnswer, places: Array, what: str, system: str
) -> tuple[ValueMark, ...]:
    """Pull or push of braces and pull of guys, at their middles; none beside shears."""
    if what == SHEAR:
        return ()
    marks = []
    for part in dict.fromkeys(d.part for d in answer.diagrams if d.of in BRACES):
        force = answer.axial(part)
        pieces = answer.of_part(part)
        if not force:
            continue
        middle = np.mean([pieces[0].at[0], pieces[-1].at[-1]], axis=0)
        text = f"{show(abs(force), 'force', system)} {'pull' if force > 0 else 'push'}"
        toward = np.array([np.sign(middle[0]) or 1.0, -1.0])
        marks.append(ValueMark(text=text, at=middle, offset=np.zeros(2), toward=toward))
    return (*marks, *_guy_marks(answer, places, system))


def _guy_marks(answer: PlaneAnswer, places: Array, system: str) -> list[ValueMark]:
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
        text = guy_text(guy.name, pull, system)
        way = np.array([np.sign(guy.anchor[0] - start[0]) or 1.0, 0.3])
        marks.append(ValueMark(text=text, at=middle, offset=np.zeros(2), toward=way))
    return marks


def _lines(answer: PlaneAnswer, places: Array) -> tuple[DrawnGuy, ...]:
    lines = []
    for guy, pull in _seen(answer):
        ends = np.array([places[guy.node], guy.anchor])
        shape = np.array([answer.displacements[guy.node, :2], np.zeros(2)])
        lines.append(DrawnGuy(name=guy.name, ends=ends, shape=shape, slack=pull <= 0))
    return tuple(lines)


def _seen(answer: PlaneAnswer) -> Iterator[tuple[PlaneGuy, float]]:
    """Guys that are fitted and not seen end on, with their pull [N]."""
    for guy, pull, slack in zip(answer.frame.guys, answer.tensions, answer.slack, strict=True):
        if guy.share and not np.isnan(slack):
            yield guy, float(pull)
