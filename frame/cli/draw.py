"""`rack draw FILE`: pictures of the rack as it is beside what the plan makes of it."""

from pathlib import Path

import click

from frame.cli.options import as_json, patience, picture_out, print_json, rack_file, units

KINDS = (".png", ".svg", ".pdf")
WHATS = (
    "panes", "moments", "shear", "axial", "space", "guys", "knees", "gusts", "ladder", "plan",
    "moving",
)  # fmt: skip


@click.command(name="draw", short_help="Draw where it flexes, bare beside what the plan makes.")
@rack_file
@click.option("--what", type=click.Choice(WHATS), default=WHATS[0], help="See below.")
@click.option(
    "--bracing",
    metavar="NAMES",
    help='As "knees,guys", to set beside the rack as it is. [default: what the plan ends with]',
)
@click.option("--tilt", metavar="DEGREES", help="Tilt of the panels. [default: the worst]")
@click.option(
    "--gust",
    metavar="SPEED",
    help='As "45 mph", or "0 mph". [default: the service gust, or one that it still stands]',
)
@picture_out("Picture to write: .png, .svg or .pdf; .gif if moving. [default: beside FILE]")
@units
@as_json
def command(
    file: Path,
    what: str,
    bracing: str | None,
    tilt: str | None,
    gust: str | None,
    output: Path | None,
    units: str | None,
    *,
    as_json: bool,
) -> None:
    """Draw the rack as it is beside what the plan ends with: where it flexes, how far it moves.

    \b
    panes    by its own weight, and in a wind it still stands
    moments  what bends its parts, from the front and the side
    shear    what shears them
    axial    what pulls and pushes them
    space    the whole rack, moved
    guys     what each pulls as the gust rises, and when it hangs slack
    knees    sag and force by how far out they are set
    gusts    when each bracing slips and breaks, at each tilt
    ladder   what goes first
    plan     what each step buys
    moving   struck by a gust, as a GIF

    --json   also prints the numbers of the panes: droop, sway, swing, pulls, where it flexes
    """  # noqa: D301, for click takes the character, not a backslash, as its mark
    from frame.casefile.syntax import read_text
    from frame.verdict.asked import at_tilt, chosen_gust

    text = read_text(file)
    target = _target(output or file.with_suffix(".gif" if what == "moving" else ".png"), what)
    speed = chosen_gust(gust, still=True) if gust is not None else None

    from frame.casefile.named import bracing_of
    from frame.draw.whats import DrawingAsked, draw
    from frame.errors import InputError

    asked = DrawingAsked(text=text, name=file.name, units=units, gust=speed)
    rack = at_tilt(asked.rack, tilt) if tilt is not None else asked.rack
    asked = DrawingAsked(
        text=text,
        name=file.name,
        units=units,
        gust=speed,
        tilts=rack.tilts if tilt is not None else (),
        bracing=bracing_of(bracing, rack) if bracing is not None else None,
    )
    try:
        with patience("Solving what is drawn, the plan first: up to a minute"):
            shown = draw(what, asked, target)
    except OSError as error:
        raise InputError(f"{target}: cannot be written ({error.strerror})") from None
    for warning in rack.warnings:
        click.echo(f"Note: {warning}", err=as_json)
    click.echo(f"Wrote {target}{': ' if shown else ''}{shown}.", err=as_json)
    if as_json:
        from frame.report.data.pictured_data import document

        print_json(document(asked.beside))


def _target(path: Path, what: str) -> Path:
    from frame.errors import InputError, Problem

    kinds = (".gif",) if what == "moving" else KINDS
    if path.suffix.lower() not in kinds:
        said = f'"{path.name}" does not end in the kind of picture'
        raise InputError((Problem("--output", said, f"end it in {', '.join(kinds)}"),))
    if path.is_dir():
        raise InputError((Problem("--output", f"{path} is a folder", "name a file"),))
    return path
