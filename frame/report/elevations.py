"""The plane solver's own numbers beside the space frame's, elevation by elevation."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from rich.console import Group

from frame.bracing.second_opinion import Opinion
from frame.fem.plane.model import BEAM, RIGID, Array
from frame.report import words
from frame.report.tables import new_table, under_title
from frame.units import DEG, show

NOT_COMPARED = 1e-4
"""Share of the largest of its kind below which a value is rounding and not shown."""
GUY = "guy"
"""In the names of points where guys may be fitted, off the pipes themselves."""
FORCES = (("N", "force", "axial force"), ("V", "force", "shear"), ("M", "moment", "bending"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One quantity by both solvers [SI]: `kind` for `show`, `scale` the largest of its kind."""

    what: str
    where: str
    kind: str
    plane: float
    space: float
    scale: float

    @property
    def difference(self) -> float:
        """Difference over the largest of its kind in this elevation [1]."""
        return abs(self.plane - self.space) / self.scale if self.scale else 0.0


def compared(seen: Opinion) -> tuple[Compared, ...]:
    """Compare where movements, and each part's N, V and M at member ends, are largest.

    N pull positive; movements to the right and up positive. Bars have no shear or bending.
    """
    found = [c for rows in (_moves, _parts, _guys) for c in rows(seen)]
    return tuple(c for c in found if abs(c.plane) > NOT_COMPARED * c.scale)


def elevation_data(seen: Opinion) -> dict[str, Any]:
    """Return one elevation for JSON."""
    return {
        "view": seen.view,
        "case": seen.label,
        "words": seen.words,
        "gust": seen.gust,
        "tilt_deg": seen.tilt / DEG,
        "difference": seen.worst,
        "compared": [
            {
                "what": c.what,
                "where": c.where,
                "plane": c.plane,
                "space": c.space,
                "difference": c.difference,
            }
            for c in compared(seen)
        ],
    }


def elevation_table(seen: Opinion, system: str) -> Group:
    """Return the table of one elevation."""
    made = new_table("Largest", "where", ">plane solver", ">space frame", ">differ by")
    for c in compared(seen):
        values = [show(v, c.kind, system, 4) for v in (c.plane, c.space)]
        made.add_row(c.what, c.where, *values, words.difference_words(c.difference))
    title = f"{seen.view.capitalize()} elevation: {words.when(seen.words, seen.tilt)}"
    return under_title(title, made)


def _moves(seen: Opinion) -> Iterator[Compared]:
    plane, space = seen.plane.displacements[:, :2], seen.space.displacements[0, :, :2]
    names = [node.name for node in seen.plane.frame.nodes]
    told = [i for i, name in enumerate(names) if GUY not in name]
    for axis, way in enumerate(("movement, right +", "movement, up +")):
        i = told[int(np.abs(plane[told, axis]).argmax())]
        yield Compared(
            what=way,
            where=names[i],
            kind="movement",
            plane=float(plane[i, axis]),
            space=float(space[i, axis]),
            scale=float(np.abs(space).max()),
        )


def _parts(seen: Opinion) -> Iterator[Compared]:
    members = [m for m in seen.plane.frame.members if m.kind != RIGID]
    at = [i for i, m in enumerate(seen.plane.frame.members) if m.kind != RIGID]
    plane: Array = np.array(
        [[[d.N[e], d.V[e], d.M[e]] for e in (0, -1)] for d in seen.plane.diagrams]
    )
    space = seen.space.ends[0, at]
    force = max(np.abs(space[..., :2]).max(), np.abs(seen.space.tensions).max(initial=0.0))
    scales = (force, force, np.abs(space[..., 2]).max())
    for part in dict.fromkeys(m.part for m in members):
        mine = [i for i, m in enumerate(members) if m.part == part]
        bends = any(members[i].kind == BEAM for i in mine)
        for k, (symbol, kind, what) in enumerate(FORCES if bends else FORCES[:1]):
            values = plane[mine][:, :, k]
            i, end = np.unravel_index(int(np.abs(values).argmax()), values.shape)
            yield Compared(
                what=f"{what} {symbol}",
                where=part,
                kind=kind,
                plane=float(values[i, end]),
                space=float(space[mine[i], end, k]),
                scale=float(scales[k]),
            )


def _guys(seen: Opinion) -> Iterator[Compared]:
    space = seen.space.tensions[0]
    for i, guy in enumerate(seen.plane.frame.guys):
        yield Compared(
            what="pull",
            where=guy.name,
            kind="force",
            plane=float(seen.plane.tensions[i]),
            space=float(space[i]),
            scale=float(np.abs(space).max()),
        )
