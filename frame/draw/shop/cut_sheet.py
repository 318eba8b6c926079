"""The sheet to hang in the shop: the cut list, then every piece with its running marks."""

from frame.draw.shop.paper import BODY, SMALL, TITLE, Column, Paper
from frame.draw.shop.strip import draw_strip
from frame.rack.rack import bracing_title
from frame.shop.buying.sleeve_stock import sleeve_words
from frame.shop.job import Job
from frame.shop.job_words import crowded_words, marked_elsewhere
from frame.shop.steel.pieces import PLATE, Piece
from frame.shop.words import (
    HOOK,
    around_words,
    ends_words,
    hole_words,
    on_words,
    stock_words,
    tape,
)
from frame.units import DEG, show


def write_cut_sheet(paper: Paper, job: Job) -> None:
    """Write the cut list on a new page, then the marks of each piece."""
    rack, system = job.rack, job.rack.units
    paper.new_page()
    paper.heading(f"{rack.name}: cut list", TITLE)
    paper.paragraph(_head(job))
    paper.table(
        (
            Column("", 0.5, bold=True),
            Column("cut", 0.5, bold=True),
            Column("piece", 0.95),
            Column("long point to long point", 1.5, bold=True),
            Column("stock; ends", paper.width - 4.35),
            Column("weight each", 0.9),
        ),
        [
            (
                p.letter,
                str(p.count * job.racks - job.there.count_of(p)),
                p.name + _there(p, job),
                tape(p.length, system),
                f"{stock_words(p, system)}; {ends_words(p, system)}",
                show(p.weight, "weight", system),
            )
            for p in job.pieces
        ],
    )
    total = sum(p.count * p.weight for p in job.pieces) * job.racks
    straps = sum(p.count * p.weight for p in job.pieces if p.kind == PLATE) * job.racks
    left_out = (
        f" Of that, {show(straps, 'weight', system)} of straps were left out of what was solved, "
        "as bolts and clamps were."
        if straps
        else ""
    )
    paper.paragraph(f"All of it weighs {show(total, 'weight', system)}.{left_out}")
    paper.paragraph(
        "Lengths of coped pieces are over all, from the farthest point at one end to the farthest "
        "at the other, cut to the template: the inner edge sits on the pipe all round."
    )
    stock = sleeve_words(rack)
    if stock:
        paper.paragraph(stock)
    for piece in job.pieces:
        if piece.marks:
            _marks(paper, piece, system)
        if piece.name == "beam":
            for said in (*marked_elsewhere(job), *crowded_words(job)):
                paper.paragraph(said)


def _there(piece: Piece, job: Job) -> str:
    """Say how many of a piece are there already."""
    many = job.there.count_of(piece)
    if not many:
        return ""
    return " (there)" if many == piece.count * job.racks else f" ({many} there)"


def _head(job: Job) -> str:
    rack = job.rack
    many = f"{job.racks} racks, each" if job.racks > 1 else "One rack"
    said = f"{many} with: {bracing_title(job.bracing)}. {HOOK}"
    if rack.stands:
        said += (
            " The file says that the rack stands: what is there already is listed for its new "
            "marks, and not to be cut."
        )
    if any(g.attach == "rail corners" for g in rack.guys_in(job.bracing)):
        said += f" Lines from the rails are set out at a tilt of {job.tilt / DEG:.0f} deg."
    return said


def _marks(paper: Paper, piece: Piece, system: str) -> None:
    name = f"{piece.letter}: {piece.name}, {tape(piece.length, system)}"
    paper.heading(name, BODY + 2, keep=2.4)
    draw_strip(paper, piece, system)
    rows = [
        (
            tape(m.at, system),
            m.name + (f" (only {on_words(m, piece)})" if on_words(m, piece) else ""),
            "; ".join(filter(None, (around_words(m, piece, system), hole_words(m, system)))),
        )
        for m in piece.marks
    ]
    paper.table(
        (
            Column("from hook", 1.3, bold=True),
            Column("what", 2.7),
            Column("round the pipe; holes", paper.width - 4.0),
        ),
        rows,
        SMALL + 1.5,
    )
