"""`rack gusts FILE`: gusts against tilt, and the lay-down card."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from frame.cli.options import (
    as_json,
    bracing_of,
    console,
    picture_out,
    print_json,
    rack_file,
    units,
)

if TYPE_CHECKING:
    from frame.rack.rack import Rack
    from frame.study.tilts import TiltCurve

KINDS = (".png", ".svg", ".pdf")


@click.command(name="gusts", short_help="Say at which forecast gust to lay the panels down.")
@rack_file
@click.option("--bracing", metavar="NAMES", help='Only this one: "bare", or "knees,guys".')
@picture_out("Also draw the gusts against tilt: .png, .svg or .pdf.")
@units
@as_json
def command(
    file: Path, bracing: str | None, output: Path | None, units: str | None, *, as_json: bool
) -> None:
    """Set limit gust and act-by gust against tilt for each bracing in FILE.

    The lay-down card says at which forecast gust to go to which tilt and how; then what is left
    with any single part gone, or built a little wrong, and which unknown to find out first. Card
    and what follows are for the bracing that `rack compare` picks, or the one named.
    """
    from frame.casefile.read import read_rack

    rack = read_rack(file, units)
    target = None if output is None else picture(output)
    bracings = rack.bracings() if bracing is None else (bracing_of(bracing, rack),)

    from frame.report import gusts
    from frame.study.bands import bands
    from frame.study.beside import processes
    from frame.study.checkers import CHECKERS
    from frame.study.compare import chosen
    from frame.study.imperfect import slips
    from frame.study.losses import losses
    from frame.study.tilts import lay_down, tilt_curves

    system = units or rack.units
    curves = tilt_curves(rack, bracings, CHECKERS)
    fitted = bracings[0] if bracing else chosen(rack, processes=processes())
    best = next(c for c in curves if c.bracing == fitted)
    card = (best, lay_down(best))
    gone = losses(rack, best.bracing, CHECKERS)
    wrong = slips(rack, best.bracing, CHECKERS)
    known = bands(rack, best.bracing, CHECKERS)
    if target is not None:
        draw(rack, curves, system, target)
    if as_json:
        print_json(gusts.document(rack, curves, card, gone, wrong, known))
    else:
        console().print(gusts.page(rack, curves, card, gone, wrong, known, system))


def draw(rack: "Rack", curves: "tuple[TiltCurve, ...]", system: str, target: Path) -> None:
    """Draw gusts against tilt and, where there are knees, sag and force against their reach."""
    from frame.draw.gusts import Reaches, gust_sheet
    from frame.draw.sheet import save
    from frame.errors import InputError
    from frame.study.frames import solved_blocks
    from frame.study.knee_card import knee_card
    from frame.study.movement import worst_sag

    reaches = None
    if rack.knees:
        bare = worst_sag(solved_blocks(rack, ()))
        parts = [n / 24 for n in range(3, 17)]
        reaches = Reaches(
            bare_sag=bare.dead,
            limit=bare.limit,
            choices=knee_card(rack, bare.dead, rack.tilts, parts),
        )
    try:
        save(gust_sheet(rack, curves, reaches, system), target)
    except OSError as error:
        raise InputError(f"{target}: cannot be written ({error.strerror})") from None
    click.echo(f"Wrote {target}.", err=True)


def picture(path: Path) -> Path:
    """Return the path of a picture to write; refuse what cannot be one."""
    from frame.errors import InputError, Problem

    if path.suffix.lower() not in KINDS:
        what = f'"{path.name}" does not end in the kind of picture'
        raise InputError((Problem("--output", what, f"end it in {', '.join(KINDS)}"),))
    if path.is_dir():
        raise InputError((Problem("--output", f"{path} is a folder", "name a file"),))
    return path
