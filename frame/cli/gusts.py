"""`rack gusts FILE`: gusts against tilt, and the lay-down card."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from frame.cli.options import (
    as_json,
    console,
    patience,
    picture_out,
    print_json,
    rack_file,
    units,
)

if TYPE_CHECKING:
    from frame.rack.rack import Rack
    from frame.whatif.tilts import TiltCurve

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
    """Say before which forecast gust the panels of FILE go to which tilt, or come off.

    First the lay-down card; then slips, breaks, margin and act-by gust against tilt, the other
    bracings, what decides, what is left with any single part gone, or built a little wrong. The
    card is for the rack as it stands, bare unless the file says otherwise, or the bracing named.
    """
    from frame.casefile.read import read_rack

    rack = read_rack(file, units)
    target = None if output is None else picture(output)
    from frame.casefile.named import bracing_of

    fitted = None if bracing is None else bracing_of(bracing, rack)

    from frame.plan.gusts import gusts_of
    from frame.report import gusts

    system = units or rack.units
    with patience("Solving the rack at every tilt"):
        found = gusts_of(rack, fitted)
    if target is not None:
        draw_gusts(rack, found.curves, system, target)
    if as_json:
        print_json(gusts.document(found))
    else:
        console().print(gusts.page(found, system))


def draw_gusts(rack: "Rack", curves: "Sequence[TiltCurve]", system: str, target: Path) -> None:
    """Draw gusts against tilt and, where there are knees, sag and force against their reach."""
    from frame.draw.gusts import gust_sheet
    from frame.draw.reaches import reaches_of
    from frame.draw.sheet import save
    from frame.errors import InputError

    try:
        save(gust_sheet(rack, curves, reaches_of(rack), system), target)
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
