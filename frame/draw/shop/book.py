"""All pictures of a job, by the name of their file."""

from matplotlib import rc_context
from matplotlib.figure import Figure

from frame.draw.shop.cut_sheet import write_cut_sheet
from frame.draw.shop.paper import SIZES, STYLE, Paper, as_pdf
from frame.shop.job import Job
from frame.shop.words import CAUTION

SHEET = "shop_sheet.pdf"


def sheet_pages(job: Job, size: str) -> list[Figure]:
    """Draw the sheet on paper of a `size`, "letter" or "a4"."""
    with rc_context(STYLE):
        paper = Paper(size=SIZES[size], title=f"{job.rack.name}, shop sheet", caution=CAUTION)
        write_cut_sheet(paper, job)
        return paper.finish()


def drawn(job: Job, size: str) -> dict[str, bytes]:
    """Return every drawn file of the set."""
    return {SHEET: as_pdf(sheet_pages(job, size))}
