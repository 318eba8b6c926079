"""`rack check FILE`: one bracing in depth."""

from pathlib import Path

import click

from frame.cli.options import as_json, console, patience, print_json, rack_file, units


@click.command(name="check", short_help="Look into one bracing in depth, part by part.")
@rack_file
@click.option(
    "--bracing",
    metavar="NAMES",
    help='What is fitted: "bare", or names joined by commas. [default: as `compare --all` picks]',
)
@click.option("--by-hand", metavar="PART", help="Only this part, every step with its numbers.")
@units
@as_json
def command(
    file: Path, bracing: str | None, by_hand: str | None, units: str | None, *, as_json: bool
) -> None:
    """Show every check of one bracing, the most used first, and both elevations solved twice.

    Exit code 0: answered; 2: the file or a name is wrong; 3: the two solvers disagree.
    """
    from frame.casefile.read import read_rack

    rack = read_rack(file, units)
    from frame.casefile.named import bracing_of

    fitted = None if bracing is None else bracing_of(bracing, rack)
    from frame.report import check_page
    from frame.verdict.compare import chosen
    from frame.verdict.inspect import inspect

    asked_for = fitted is not None
    with patience("Solving every check"):
        fitted = chosen(rack) if fitted is None else fitted
        found = inspect(rack, fitted)
    rows = check_page.rows_of(found, by_hand)
    if as_json:
        print_json(check_page.check_data(found, rows))
    elif by_hand is not None:
        click.echo(check_page.hand_page(found, rows, rack.units))
    else:
        console().print(check_page.check_page(found, rack.units, asked_for=asked_for))
