"""All pictures of a job, by the name of their file."""

from matplotlib import rc_context
from matplotlib.figure import Figure

from frame.draw.shop.clearance_sheet import write_clearance
from frame.draw.shop.cut_sheet import write_cut_sheet
from frame.draw.shop.paper import SIZES, STYLE, Paper, as_pdf
from frame.draw.shop.pile_sheet import write_pile
from frame.draw.shop.stake_sheet import write_stake_sheet
from frame.draw.shop.stop_template import write_stop
from frame.draw.shop.tension_sheet import write_tension_sheet
from frame.draw.shop.work_sheets import (
    write_raising,
    write_season,
    write_shopping,
    write_welds,
)
from frame.draw.shop.wraps import template_svg, upright_or_lying, write_wraps
from frame.shop.job import Job
from frame.shop.words import CAUTION

SHEET, TEMPLATES = "shop_sheet.pdf", "templates.pdf"


def sheet_pages(job: Job, size: str) -> list[Figure]:
    """Draw the sheet on paper of a `size`, "letter" or "a4"."""
    with rc_context(STYLE):
        paper = Paper(size=SIZES[size], title=f"{job.rack.name}, shop sheet", caution=CAUTION)
        write_cut_sheet(paper, job)
        write_stake_sheet(paper, job)
        write_tension_sheet(paper, job)
        write_pile(paper, job)
        write_shopping(paper, job)
        write_welds(paper, job)
        write_raising(paper, job)
        write_clearance(paper, job)
        write_season(paper, job)
        return paper.finish()


def drawn(job: Job, size: str) -> dict[str, bytes]:
    """Return every drawn file of the set."""
    files = {SHEET: as_pdf(sheet_pages(job, size))}
    if job.templates or job.stop:
        files[TEMPLATES] = as_pdf(template_pages(job, size))
    for one in job.templates:
        files[f"template_{one.letter}_{one.where.replace(' ', '_')}.svg"] = template_svg(one)
    return files


def template_pages(job: Job, size: str) -> list[Figure]:
    """Draw the templates at full size on paper of a `size`."""
    with rc_context(STYLE):
        paper = Paper(
            size=upright_or_lying(SIZES[size], job.templates),
            title=f"{job.rack.name}, templates",
            caution=CAUTION,
        )
        write_wraps(paper, job.templates, job.rack.units)
        write_stop(paper, job)
        return paper.finish()
