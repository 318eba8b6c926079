"""The cut plan: every stick drawn with its cuts, what is left of it, what is bought."""

from frame.draw.shop.paper import BODY, GREY, SMALL, TITLE, Paper, line_height, text_width
from frame.shop.cutting.cut_plan import Group
from frame.shop.job import Job
from frame.shop.pile_words import again_words, group_words, part_words, stick_words
from frame.shop.words import tape

HIGH = 0.26
"""Height of a stick [in]."""
HATCH = 0.09


def write_pile(paper: Paper, job: Job) -> None:
    """Write the cut plan on new pages; nothing where the file lists no pipe to cut from."""
    if job.cuts is None:
        return
    system = job.rack.units
    paper.new_page()
    paper.heading(f"{job.rack.name}: cut plan from the pile", TITLE)
    kerf = tape(job.cuts.cutting.kerf, system)
    paper.paragraph(
        f"Each cut takes {kerf}. Measure every part from the fresh cut; mark it with its letter "
        "and number before you cut it. Parts of one piece are numbered from its hook end."
    )
    longest = max((s.length for g in job.cuts.groups for s in g.pile.sticks), default=1.0)
    for group in job.cuts.groups:
        paper.heading(group.name, BODY + 2, keep=1.2)
        for said in group_words(group, system):
            paper.paragraph(said)
        if group.plan is not None:
            _sticks(paper, group, longest, system)
    for said in again_words(job):
        paper.paragraph(said)


def _sticks(paper: Paper, group: Group, longest: float, system: str) -> None:
    assert group.plan is not None
    per = paper.width / longest
    for number, stick in enumerate(group.pile.sticks):
        cuts = group.plan.of_stick(number)
        if not cuts:
            continue
        paper.need(HIGH + 3.2 * line_height(SMALL) + 0.2)
        paper.put(0, paper.down, stick_words(group, number, system), SMALL + 1, weight="bold")
        top = paper.down + line_height(SMALL + 1) + 0.03
        _box(paper, 0.0, stick.length * per, top)
        for low, high in stick.bad:
            _bad(paper, low * per, high * per, top)
        for cut in cuts:
            left, right = cut.at * per, (cut.at + cut.stop - cut.start) * per
            for x in (left, right):
                paper.rule(x, top, x, top + HIGH, linewidth=1.4)
            text = group.label(cut.need)
            if text_width(text, BODY, bold=True) < right - left - 0.04:
                paper.put((left + right) / 2, top + 0.05, text, BODY, weight="bold", ha="center")
        paper.down = top + HIGH + 0.04
        paper.paragraph("; ".join(part_words(group, cut, system) for cut in cuts) + ".", SMALL + 1)
        paper.leave_room(0.05)


def _box(paper: Paper, left: float, right: float, top: float) -> None:
    for y in (top, top + HIGH):
        paper.rule(left, y, right, y, linewidth=1.0)
    for x in (left, right):
        paper.rule(x, top, x, top + HIGH, linewidth=1.0)


def _bad(paper: Paper, left: float, right: float, top: float) -> None:
    """Hatch a stretch that is not to be used."""
    x = left
    while x < right:
        end = min(x + HATCH, right)
        paper.rule(x, top + HIGH, end, top, linewidth=0.8, color=GREY)
        x += HATCH
    for edge in (left, right):
        paper.rule(edge, top, edge, top + HIGH, linewidth=0.8)
