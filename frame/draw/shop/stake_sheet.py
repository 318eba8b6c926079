"""Staking out: a plan of the stakes to scale, the tapes, and the guys to cut."""

from frame.draw.shop.paper import BODY, GREY, SMALL, TITLE, Column, Paper
from frame.shop.job import Job
from frame.shop.job_words import clip_words, neighbour_words, slope_words
from frame.shop.words import tape
from frame.shop.yard.lines import clips_of
from frame.shop.yard.stakes import Stake
from frame.shop.yard.trenches import trench_words
from frame.units import DEG, show

TALLEST, SHORTEST = 2.7, 1.6
"""Largest height of a plan, and what is left of a page for one [in]."""
ROUND = 0.09
"""Room round a stake's number [in]."""


def write_stake_sheet(paper: Paper, job: Job) -> None:
    """Write plan, tapes and guys on new pages; nothing where there is only a post to set."""
    system = job.rack.units
    if len(job.stakes) > 1:
        paper.new_page()
        paper.heading(f"{job.rack.name}: stakes", TITLE)
        paper.paragraph(
            "Seen from above, the front of the rack at the bottom. Stretch the tape straight from "
            f"stake to stake. {slope_words(job)}"
        )
        posts = tuple(s for s in job.stakes if not s.group)
        if len(posts) == len(job.stakes):
            _tapes(paper, job, {s.name for s in posts})
        for group in dict.fromkeys(s.group for s in job.stakes if s.group):
            mine = tuple(s for s in job.stakes if s.group == group)
            paper.heading(group, BODY + 2, keep=SHORTEST + 1.0)
            _plan(paper, job, posts + mine)
            _tapes(paper, job, {s.name for s in posts + mine})
            _trenches(paper, job, {s.name for s in mine})
    if job.beside:
        paper.heading("Several racks", BODY + 2)
        for said in neighbour_words(job.beside, system):
            paper.paragraph(said)
    if job.lines:
        _guys(paper, job)


def _plan(paper: Paper, job: Job, stakes: tuple[Stake, ...]) -> None:
    numbers = {s.name: i for i, s in enumerate(job.stakes, 1)}
    xs = [float(s.point[0]) for s in stakes]
    ys = [float(s.point[1]) for s in stakes]
    wide, deep = max(xs) - min(xs), max(ys) - min(ys)
    per = min((paper.width - 0.8) / max(wide, 0.1), (TALLEST - 0.6) / max(deep, 0.1))
    height = deep * per + 0.6
    paper.need(height + 0.5)
    left = (paper.width - wide * per) / 2
    top = paper.down + 0.3

    def place(stake: Stake) -> tuple[float, float]:
        return (
            left + (float(stake.point[0]) - min(xs)) * per,
            top + (max(ys) - float(stake.point[1])) * per,
        )

    by_name = {s.name: place(s) for s in stakes}
    for stake in stakes:
        if stake.set_out:
            paper.rule(*by_name[stake.set_out], *place(stake), linewidth=0.6, color=GREY)
    for stake in stakes:
        x, y = place(stake)
        for a, b in (((x - ROUND, y), (x + ROUND, y)), ((x, y - ROUND), (x, y + ROUND))):
            paper.rule(*a, *b, linewidth=1.6)
        # Away from the lines that end there: at a guy's far side, over a post.
        side = 0
        if stake.set_out:
            side = -1 if x < by_name[stake.set_out][0] else 1
        paper.put(
            x + side * 0.1,
            y + (0.03 if side else -0.2),
            str(numbers[stake.name]),
            BODY,
            weight="bold",
            ha={-1: "right", 0: "center", 1: "left"}[side],
        )
    paper.down += height


def _tapes(paper: Paper, job: Job, names: set[str]) -> None:
    system = job.rack.units
    number = {s.name: i for i, s in enumerate(job.stakes, 1)}
    paper.table(
        (Column("stake", 0.7, bold=True), Column("what stands there", paper.width - 0.7)),
        [(str(number[s.name]), s.name) for s in job.stakes if s.name in names],
        SMALL + 1,
    )
    sloping = bool(job.ground.slope) or any(g.rise for g in job.rack.guys_in(job.bracing))
    paper.table(
        (
            Column("from", 0.7, bold=True),
            Column("to", 0.7, bold=True),
            Column("tape", 1.6, bold=True),
            Column("level" if sloping else "", 1.6),
            Column("", paper.width - 4.6),
        ),
        [
            (
                str(number[m.first]),
                str(number[m.second]),
                tape(m.tape, system),
                tape(m.level, system) if sloping else "",
                "diagonal: must fit, else it is not square" if m.checks else "",
            )
            for m in job.measures
            if {m.first, m.second} <= names
        ],
        SMALL + 1.5,
    )


def _trenches(paper: Paper, job: Job, names: set[str]) -> None:
    """Write where the logs of a group lie and how long their rods are; nothing without logs."""
    system = job.rack.units
    mine = tuple(t for t in job.trenches if t.stake in names)
    if not mine:
        return
    number = {s.name: i for i, s in enumerate(job.stakes, 1)}
    paper.table(
        (
            Column("log of", paper.width - 6.2),
            Column("beyond stake", 1.9, bold=True),
            Column("from post's stake", 1.9, bold=True),
            Column("deep", 1.1, bold=True),
            Column("rod", 1.3, bold=True),
        ),
        [
            (
                t.guy,
                f"{number[t.stake]}: {tape(t.out, system)}",
                f"{number[t.post]}: {tape(t.from_post, system)}",
                tape(t.depth, system),
                tape(t.rod, system),
            )
            for t in mine
        ],
        SMALL + 1.5,
    )
    for said in trench_words(mine, job.ground, system):
        paper.paragraph(said)


def _guys(paper: Paper, job: Job) -> None:
    system = job.rack.units
    paper.heading("Guys to cut", BODY + 2, keep=1.6)
    paper.table(
        (
            Column("guy", 2.6),
            Column("pin to pin", 1.25, bold=True),
            Column("cut the wire", 1.25, bold=True),
            Column("over level", 0.9),
            Column("anchor", paper.width - 6.0),
        ),
        [
            (
                line.name + (f" at {line.tilt / DEG:.0f} deg" if line.tilt is not None else ""),
                tape(line.pins, system),
                tape(line.cut, system),
                f"{line.rise / DEG:.0f} deg",
                str(1 + [s.name for s in job.stakes].index(_anchor(job, i))),
            )
            for i, line in enumerate(job.lines)
        ],
        SMALL + 1.5,
    )
    for group in job.rack.guys_in(job.bracing):
        clips = clips_of(group)
        ends = clip_words(clips, system) if clips else f"ends by {group.termination}"
        size = f" {show(group.fitting_size, 'length', system)}" if group.fitting_size else ""
        line = f"{group.name}: {group.wire.name}; {ends}; {group.fitting}{size} in the line."
        paper.paragraph(line)
    paper.paragraph(
        "Pin to pin is from the hole in the lug to the eye of the anchor, turnbuckle and all; the "
        "wire is cut long and trimmed when it hangs. Saddles of the clips go on the long, pulling "
        "part. Tighten the clips again when the guy has its pull, and after a month."
    )


def _anchor(job: Job, index: int) -> str:
    first = next(i for i, s in enumerate(job.stakes) if s.group)
    return job.stakes[first + index].name
