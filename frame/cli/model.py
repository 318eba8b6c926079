"""`rack model FILE`: the frame model with its answers."""

import json
from pathlib import Path

import click

from frame.cli.options import as_json, rack_file, units


@click.command(name="model", short_help="Print the frame model with its answers.")
@rack_file
@click.option(
    "--bracing",
    metavar="NAMES",
    default="bare",
    show_default=True,
    help='"bare", or names as "knees,guys".',
)
@click.option("--tilt", metavar="DEGREES", help="Tilt of the panels. [default: the file's first]")
@click.option("--gust", metavar="SPEED", help='As "78 mph". [default: the map gust]')
@units
@as_json
def command(
    file: Path,
    bracing: str,
    tilt: str | None,
    gust: str | None,
    units: str | None,
    *,
    as_json: bool,
) -> None:
    """Print the frame model with its answers, for another program.

    With --json: every node, member, spring and load of one bracing at one tilt, and what comes of
    every load case: enough to rebuild the rack in any other frame program and compare.
    """
    from frame.casefile.read import read_rack
    from frame.report.data.model_document import document, page
    from frame.solved.model_case import solve_model
    from frame.verdict.asked import at_tilt, chosen_gust

    rack = read_rack(file)
    from frame.casefile.named import bracing_of

    names = bracing_of(bracing, rack)
    speed = chosen_gust(gust) if gust is not None else rack.site.map_gust
    rack = at_tilt(rack, tilt) if tilt is not None else rack
    case = solve_model(rack, names, rack.tilts[0], speed)
    text = (
        json.dumps(document(case), allow_nan=False) if as_json else page(case, units or rack.units)
    )
    click.echo(text)
