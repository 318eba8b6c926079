"""`rack draw FILE`: deflected shapes and moment diagrams, bare beside braced, on one sheet."""

from pathlib import Path

import click

from frame.cli.options import picture_out, rack_file, units

KINDS = (".png", ".svg", ".pdf")


@click.command(name="draw", short_help="Draw shapes and moments, bare beside braced.")
@rack_file
@click.option(
    "--bracing",
    metavar="NAMES",
    help='Names as "knees,guys". [default: that of the verdict, or all described]',
)
@click.option("--tilt", metavar="DEGREES", help="Tilt of the panels. [default: the governing one]")
@click.option("--gust", metavar="SPEED", help='As "78 mph". [default: the service gust]')
@picture_out("Picture to write: .png, .svg or .pdf. [default: beside FILE, as .png]")
@units
def command(
    file: Path,
    bracing: str | None,
    tilt: str | None,
    gust: str | None,
    output: Path | None,
    units: str | None,
) -> None:
    """Draw how the rack moves and bends, bare beside braced, to one scale on one sheet.

    In the wind that uses the braced rack most, from the front, from the side and as a whole. The
    elevations show the plane solver's own numbers, the whole rack the space frame's.
    """
    from frame.casefile.read import read_rack
    from frame.verdict.asked import at_tilt, chosen_gust

    rack = read_rack(file)
    target = _target(output or file.with_suffix(".png"))
    speed = chosen_gust(gust) if gust is not None else rack.site.service_gust
    rack = at_tilt(rack, tilt) if tilt is not None else rack
    from frame.casefile.named import bracing_of

    names = bracing_of(bracing, rack) if bracing is not None else None

    from frame.draw.rack_sheet import rack_sheet
    from frame.draw.sheet import save
    from frame.errors import InputError
    from frame.verdict.pictured import braced_choice, pair

    shown = pair(rack, braced_choice(rack) if names is None else names, speed)
    figure = rack_sheet(shown, units or rack.units)
    try:
        save(figure, target)
    except OSError as error:
        raise InputError(f"{target}: cannot be written ({error.strerror})") from None
    for warning in rack.warnings:
        click.echo(f"Note: {warning}")
    click.echo(f"Wrote {target}: {shown.left.title} beside {shown.right.title}.")
    if shown.same_rack:
        click.echo("No bracing shown: the bare rack in still air stands beside it in the gust.")


def _target(path: Path) -> Path:
    from frame.errors import InputError, Problem

    if path.suffix.lower() not in KINDS:
        what = f'"{path.name}" does not end in the kind of picture'
        raise InputError((Problem("--output", what, f"end it in {', '.join(KINDS)}"),))
    if path.is_dir():
        raise InputError((Problem("--output", f"{path} is a folder", "name a file"),))
    return path
