"""What to buy, what to weld and bolt, how to raise it, and the season card."""

from frame.draw.shop.paper import BODY, SMALL, TITLE, Column, Paper
from frame.shop.job import Job
from frame.shop.job_words import (
    amount_words,
    cost_words,
    lift_words,
    lifting_words,
    price_words,
    weld_advice,
)
from frame.shop.season import after_storm, before_winter
from frame.shop.words import tape
from frame.units import show, show_size

WELDER = (
    "Sizes are those the checks count. Whoever welds decides on the procedure (rod, heat, order) "
    "and answers for it."
)


def write_shopping(paper: Paper, job: Job) -> None:
    """Write what to buy on a new page."""
    system, racks = job.rack.units, job.racks
    paper.new_page()
    many = f" for {racks} racks" if racks > 1 else ""
    paper.heading(f"{job.rack.name}: what to buy{many}", TITLE)
    several = racks > 1
    rows = [
        (
            item.name,
            amount_words(item, item.amount, system),
            amount_words(item, item.to_buy(racks), system),
            price_words(item, job),
            item.note,
        )
        for item in job.shopping.items
    ]
    narrow = 1.05
    paper.table(
        (
            Column("what", 2.4),
            Column("a rack takes", narrow),
            Column("buy in all" if several or job.rack.stock else "buy", narrow, bold=True),
            Column("cost", 0.75),
            Column("", paper.width - 3.15 - 2 * narrow),
        ),
        rows,
        SMALL + 0.5,
    )
    for said in cost_words(job):
        paper.paragraph(said)


def write_welds(paper: Paper, job: Job) -> None:
    """Write welds and bolts, then the order of raising, on a new page."""
    system = job.rack.units
    paper.new_page()
    paper.heading(f"{job.rack.name}: welds and bolts of one rack", TITLE)
    paper.paragraph(WELDER)
    paper.table(
        (
            Column("", 0.45, bold=True),
            Column("weld", 2.1),
            Column("leg", 0.75, bold=True),
            Column("length each", 1.0),
            Column("how", paper.width - 4.3),
        ),
        [
            (
                f"{w.count} x",
                w.name,
                show(w.leg, "length", system),
                tape(w.length, system),
                w.words,
            )
            for w in job.welds
        ],
        SMALL + 1,
    )
    for said in weld_advice(job):
        paper.paragraph(said, SMALL + 1)
    paper.table(
        (
            Column("", 0.45, bold=True),
            Column("bolts", 2.1),
            Column("size", 0.75, bold=True),
            Column("torque", 1.0, bold=True),
            Column("how", paper.width - 4.3),
        ),
        [
            (
                f"{b.count} x",
                b.name,
                show_size(b.diameter, system),
                _torque(b.torque, system),
                b.words,
            )
            for b in job.bolted
        ],
        SMALL + 1,
    )


def _torque(torque: float | None, system: str) -> str:
    if torque is None:
        return "maker's"
    return show(torque, "torque", system, 2) if torque else "snug"


def write_raising(paper: Paper, job: Job) -> None:
    """Write the order of raising on a new page."""
    system = job.rack.units
    paper.new_page()
    paper.heading(f"{job.rack.name}: raise it in this order", TITLE)
    for said in lifting_words(job.raising, system):
        paper.paragraph(said)
    paper.table(
        (
            Column("", 0.4, bold=True),
            Column("do", paper.width - 2.5),
            Column("heaviest lift; balances at", 2.1, bold=True),
        ),
        [
            (str(i), stage.do, lift_words(stage, system))
            for i, stage in enumerate(job.raising.stages, 1)
        ],
        BODY - 1,
    )


def write_season(paper: Paper, job: Job) -> None:
    """Write the season card on a new page."""
    paper.new_page()
    paper.heading(f"{job.rack.name}: season card", TITLE)
    paper.heading("Before winter", BODY + 2)
    for number, said in enumerate(before_winter(job.rack, job.bracing), 1):
        paper.paragraph(f"{number}. {said[0].upper()}{said[1:]}.", BODY - 1)
    if job.result is None:
        return
    paper.heading("After a storm, in this order: what goes first is looked at first", BODY + 2)
    paper.table(
        (
            Column("", 0.4, bold=True),
            Column("look at", 2.7),
            Column("if it shows", 2.1),
            Column("then", paper.width - 5.2, bold=True),
        ),
        [
            (str(i), sign.look, sign.means, sign.then)
            for i, sign in enumerate(after_storm(job.result), 1)
        ],
        SMALL + 1,
    )
