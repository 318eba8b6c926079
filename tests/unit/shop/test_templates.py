"""Templates: points back in space lie on both pipes; printed size; another route agrees."""

import io
import math
import re
import shutil
import subprocess
import zlib
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.image import imread

from frame.draw.shop.book import template_pages
from frame.draw.shop.paper import MARGIN, as_pdf, as_png
from frame.draw.shop.wraps import BAR, HEAD, OVER, UNDER, template_svg, tiles
from frame.errors import InputError
from frame.named.part import PartKind
from frame.shop.job import make_job
from frame.shop.steel.pieces import COPE, HOOK_END, Piece, PieceEnd
from frame.shop.steel.templates import PAPER, Template, templates, wrap
from tests.builders import INCH, case
from tests.unit.shop.rebuilt import first_crossing

HEADER = np.array([1.0, 0.0, 0.0])
DOTS, ERROR = 300, 0.2e-3


def piece(od: float, end: PieceEnd) -> Piece:
    return Piece(
        letter="E",
        name="branch",
        of=PartKind.KNEE,
        count=1,
        kind="pipe",
        stock="",
        od=od,
        wall=(od - end.bore) / 2,
        length=1.0,
        weight=1.0,
        ends=(end, PieceEnd()),
    )


def made(seed: int) -> Template:
    """Return a template of random sizes: any angle and offset, thin branches and equal ones."""
    draw = np.random.default_rng(seed)
    header = draw.uniform(0.05, 0.2)
    od = header * (1.0 if seed % 5 == 0 else draw.uniform(0.3, 0.98))
    room = (header - od) / 2
    end = PieceEnd(
        kind=COPE,
        onto="A",
        header=header,
        angle=math.radians(draw.uniform(25, 90)),
        offset=draw.uniform(-1, 1) * room if seed % 3 else 0.0,
        bore=od * draw.uniform(0.75, 0.95),
    )
    return wrap(piece(od, end), HOOK_END)


def way(template: Template) -> np.ndarray:
    """Way of the branch, away from the header, in the plane of x and z."""
    return np.array([math.cos(template.end.angle), 0.0, math.sin(template.end.angle)])


def rolled(template: Template, diameter: float) -> tuple[np.ndarray, np.ndarray]:
    """Roll a template round its pipe as paper is rolled: seen from outside, the header upwards.

    Returns points of its left-to-right lines on the branch's axis plane, and the unit ways out.
    """
    away = way(template)
    far_side = np.array([-math.sin(template.end.angle), 0.0, math.cos(template.end.angle)])
    right = np.cross(-away, far_side)  # to the right of one who looks at it, the header up
    turn = (template.across / (template.girth / (2 * math.pi)))[:, None]
    out = np.cos(turn) * far_side + np.sin(turn) * right
    across = np.array([0.0, -template.end.offset, 0.0])
    assert np.allclose(np.cross(HEADER, [0, 0, 1]), [0, -1, 0])
    return across + diameter / 2 * out, out


@pytest.mark.parametrize("seed", range(20))
def test_points_lie_on_both_pipes(seed: int) -> None:
    one = made(seed)
    ring, _ = rolled(one, one.end.bore)
    points = ring + (one.distance + one.cut)[:, None] * way(one)
    from_header = np.hypot(points[:, 1], points[:, 2])
    assert from_header == pytest.approx(one.end.header / 2, abs=1e-9)
    rel = points - [0.0, -one.end.offset, 0.0]
    square = rel - (rel @ way(one))[:, None] * way(one)
    assert np.linalg.norm(square, axis=1) == pytest.approx(one.end.bore / 2, abs=1e-9)


@pytest.mark.parametrize("seed", range(20))
def test_rays_cast_at_the_header_find_the_same_cut(seed: int) -> None:
    """Cut out, rolled, and compared point by point with rays that look for the header."""
    one = made(seed)
    for diameter, drawn in ((one.end.bore, one.cut), (one.od, one.outside)):
        ring, _ = rolled(one, diameter)
        far = 3.0
        hit = far - first_crossing(
            ring + far * way(one), -way(one), np.zeros(3), HEADER, one.end.header / 2
        )
        tolerance = 1e-9 if diameter == one.end.bore else 1e-7
        assert one.distance + drawn == pytest.approx(hit, abs=tolerance)


def test_the_girth_is_that_of_the_papers_middle() -> None:
    one = made(3)
    assert one.girth == pytest.approx(math.pi * (one.od + PAPER))
    thick = wrap(piece(one.od, one.end), HOOK_END, paper=1e-3)
    assert thick.girth - one.girth == pytest.approx(math.pi * (1e-3 - PAPER))


def test_equal_pipes_square_make_the_known_saddle() -> None:
    """Depth of the cut of equal pipes at a right angle, outside edge: the radius (geometry)."""
    end = PieceEnd(kind=COPE, onto="A", header=0.1, bore=0.0999)
    one = wrap(piece(0.1, end), HOOK_END)
    assert float(np.ptp(one.outside)) == pytest.approx(0.05, abs=1e-6)


def test_a_branch_bigger_than_its_header_is_refused_but_not_a_sleeve() -> None:
    end = PieceEnd(kind=COPE, onto="A", header=0.08, bore=0.09)
    with pytest.raises(InputError, match="bigger"):
        templates((piece(0.1, end),))
    saddled = PieceEnd(kind=COPE, onto="A", header=0.08, bore=0.09, flanks=True)
    (one,) = templates((piece(0.1, saddled),))
    assert one.depth == pytest.approx(0.04)
    cheek = one.cut < 1e-12
    turn = one.across / (one.girth / (2 * math.pi))
    wide = np.abs(0.045 * np.sin(turn)) >= 0.04
    assert (cheek[wide]).all()


@pytest.mark.parametrize(("name", "size"), [("orchard_wall", "letter"), ("wash_house", "a4")])
def test_a_printed_page_is_true_to_size(name: str, size: str) -> None:
    """Rasterised at 300 dots to the inch, the bar and the girth are right to 0.2 mm."""
    rack = case(name)
    job = make_job(rack, rack.bracing_names)
    pages = template_pages(job, size)
    knee = next(t for t in job.templates if t.name == "knee")
    title = f"{knee.letter}, knee: hook end"
    number, page = next(
        (i, p)
        for i, p in enumerate(pages, 1)
        if any(t.get_text().startswith(title) for t in p.texts)
    )
    found = [imread(io.BytesIO(as_png(page, DOTS)))[..., 0] < 0.5]
    if shutil.which("pdftoppm"):
        found.append(_printed(as_pdf(pages), number))
    for dark in found:
        _assert_true_to_size(dark, rack.units, knee.girth)


def _printed(content: bytes, number: int) -> np.ndarray:
    """Dots of one page as a program of its own makes them from the PDF (poppler)."""
    words = ["pdftoppm", "-r", str(DOTS), "-f", str(number), "-l", str(number), "-gray", "-"]
    made = subprocess.run(words, input=content, capture_output=True, check=True).stdout
    _, size, _, dots = made.split(b"\n", 3)
    width, height = map(int, size.split())
    return np.frombuffer(dots, np.uint8).reshape(height, width) < 128


def _assert_true_to_size(dark: np.ndarray, units: str, girth_wanted: float) -> None:
    ticks = centres(dark[round((MARGIN + HEAD - 0.22 - 0.05) * DOTS)])
    assert ticks[1] - ticks[0] == pytest.approx(BAR[units][0] * INCH, abs=ERROR)
    lines = centres(dark[round((MARGIN + HEAD + 0.55) * DOTS)])
    girth = lines - lines[0]
    assert np.abs(girth - girth_wanted).min() < ERROR


def centres(row: np.ndarray) -> np.ndarray:
    """Middles of the dark runs of a row of dots [m]."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], row, [False]]).astype(int)))
    return (edges[::2] + edges[1::2]) / 2 / DOTS * INCH


def test_the_pdf_itself_is_true_to_size() -> None:
    """Paths of a PDF are in 1/72 in: the bar and the girth are among them, to 0.01 mm."""
    job = make_job(case("orchard_wall"), ("knees", "guys"))
    content = as_pdf(template_pages(job, "letter"))
    assert re.search(rb"/MediaBox \[ 0 0 792 612 \]", content)
    runs = set()
    for found in re.finditer(rb"stream\r?\n(.*?)\r?\nendstream", content, re.DOTALL):
        try:
            text = zlib.decompress(found.group(1)).decode("latin-1")
        except zlib.error:
            continue
        ends = re.findall(r"([\d.]+) ([\d.]+) m\s+([\d.]+) ([\d.]+) l", text)
        runs |= {round(abs(float(c) - float(a)), 2) for a, b, c, d in ends if b == d}
    assert any(abs(run - 3 * 72) < 0.03 for run in runs)
    knee = next(t for t in job.templates if t.name == "knee")
    assert any(abs(run - knee.girth / INCH * 72) < 0.03 for run in runs)


@pytest.mark.parametrize("seed", range(4))
def test_tiles_cover_a_template_and_overlap(seed: int) -> None:
    one = made(seed)
    for width, height in ((7.5, 6.0), (3.0, 2.5)):
        parts = tiles(one, width, height)
        assert all(p.right - p.left <= width + 1e-9 for p in parts)
        assert all(p.high - p.low <= height + 1e-9 for p in parts)
        lefts = sorted({p.left for p in parts})
        rights = sorted({p.right for p in parts})
        assert lefts[0] == 0.0
        assert rights[-1] >= one.girth / INCH
        assert all(r - l >= 0.5 - 1e-9 for l, r in zip(lefts[1:], rights[:-1], strict=True))


def test_the_svg_is_as_wide_as_the_girth() -> None:
    one = made(3)
    text = template_svg(one).decode()
    (width,) = re.findall(r'<svg [^>]*width="([\d.]+)pt"', text)
    assert float(width) / 72 == pytest.approx(one.girth / INCH + 0.4 + 0.2, abs=1e-4)


@pytest.mark.parametrize("seed", range(0, 20, 4))
def test_the_line_as_drawn_rolled_up_lies_on_the_header(seed: int) -> None:
    """Cut out of the SVG, rolled, and compared with rays cast at the header, to 0.1 mm."""
    one = made(seed)
    text = template_svg(one).decode()
    (height,) = re.findall(r'<svg [^>]*height="([\d.]+)pt"', text)
    (path,) = re.findall(r'd="([^"]*)"[^>]*stroke-width: 1.3[;"]', text)
    drawn = np.array(re.findall(r"[ML] ([\d.]+) ([\d.]+)", path), dtype=float) / 72 * INCH
    assert len(drawn) > 30
    edge, over = 0.1 * INCH, OVER * INCH
    across = drawn[:, 0] - edge
    low = -(one.drawn_below + UNDER * INCH)
    up = float(height) / 72 * INCH - edge + low - drawn[:, 1]
    assert across.min() == pytest.approx(0.0, abs=1e-4)
    assert up.max() < over
    turn = across / (one.girth / (2 * math.pi))
    rolled_up, away = replace(one, across=across), way(one)
    ring, _ = rolled(rolled_up, one.end.bore)
    assert turn.max() == pytest.approx(2 * math.pi, abs=1e-2)
    far = 3.0
    hit = far - first_crossing(ring + far * away, -away, np.zeros(3), HEADER, one.end.header / 2)
    assert one.distance - up == pytest.approx(hit, abs=1e-4)
