"""Which pipe a piece may be cut from: its diameter, and strong enough for what it carries."""

import math
from collections.abc import Sequence

from frame.named.limit_state import PIPE_CHECKS
from frame.named.part import PartKind
from frame.rack.pipe import Pipe
from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.shop.steel.cut_list import sleeve_bore
from frame.shop.steel.pieces import PIPE, Piece
from frame.units import INCH

SAME_OD = INCH / 32
"""Difference of diameters that still is one pipe [m] (judgement)."""
SLEEVE_PLAY = INCH / 16
"""Bore of a sleeve over the one described that is still shimmed [m] (judgement)."""


def by_diameter(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Return the pieces of pipe, those of one diameter together, sleeves by themselves."""
    found: list[list[Piece]] = []
    for piece in pieces:
        if piece.kind != PIPE:
            continue
        like = (
            g
            for g in found
            if (g[0].of is PartKind.SLEEVE) == (piece.of is PartKind.SLEEVE)
            and abs(g[0].od - piece.od) <= SAME_OD
        )
        group = next(like, None)
        if group is None:
            found.append([piece])
        else:
            group.append(piece)
    return found


def pipe_of(rack: Rack, piece: Piece) -> Pipe | None:
    """Return the pipe a piece is described with; None for a sleeve."""
    named = {
        PartKind.POST: rack.posts.pipe,
        PartKind.BEAM: rack.beam.pipe,
        PartKind.KNEE: rack.knees.pipe if rack.knees else None,
        PartKind.STAY: rack.stays.pipe if rack.stays else None,
    }
    return named.get(piece.of)


def load_of(piece: Piece, result: BracingResult) -> float:
    """Return the largest use of a piece as a pipe at the site's gust [1]."""
    return max(
        (
            r.utilisation
            for r in result.rows
            if piece.of in (r.part.kind, r.part.on) and r.check in PIPE_CHECKS
        ),
        default=1.0,
    )


def strength(pipe: Pipe) -> float:
    """Return what a pipe bears in bending, elastic modulus times yield [N m]."""
    return pipe.design.elastic_modulus * pipe.steel.fy


def fits(rack: Rack, piece: Piece, load: float, pipe: Pipe) -> bool:
    """Whether a piece may be cut from a pipe: its diameter, and strong enough for what it carries.

    A pipe weaker than the one described is taken only where the use left room for it.
    """
    described = pipe_of(rack, piece)
    if described is None:
        least = sleeve_bore(rack) - SAME_OD / 2
        bore = pipe.nominal.bore
        thick = pipe.design.wall >= rack.sleeve.wall * (1 - 1e-6)
        return thick and least <= bore <= least + SLEEVE_PLAY + SAME_OD
    if abs(pipe.od - described.od) > SAME_OD:
        return False
    ratio = strength(pipe) / strength(described)
    return ratio >= min(1.0, load if load <= 1.0 else math.inf) * (1 - 1e-9)


def as_strong(rack: Rack, piece: Piece, pipe: Pipe) -> bool:
    """Whether a pipe is as strong as the one described: splices count on that."""
    described = pipe_of(rack, piece)
    return described is None or strength(pipe) >= strength(described) * (1 - 1e-9)
