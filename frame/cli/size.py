"""`rack size FILE`: the lightest sizes that hold the map gust."""

from pathlib import Path

import click

from frame.cli.main import NONE_HOLDS
from frame.cli.options import (
    as_json,
    console,
    force_over,
    new_file,
    print_json,
    progress,
    rack_file,
    refuse_over,
    units,
)


@click.command(name="size", short_help="Find the lightest sizes that hold the map gust.")
@rack_file
@click.option(
    "--bracing",
    metavar="NAMES",
    help='Which to size: "bare", or names joined by commas. [default: the lightest that holds]',
)
@new_file("Write the sized rack as a new rack file.")
@click.option("--catalog", is_flag=True, help="Offer the catalog beside the stock of the file.")
@force_over
@units
@as_json
@click.pass_context
def command(
    ctx: click.Context,
    file: Path,
    bracing: str | None,
    out: Path | None,
    units: str | None,
    *,
    catalog: bool,
    force: bool,
    as_json: bool,
) -> None:
    """Size post, beam, knees, guys, anchors, bolts and welds of the rack in FILE.

    Bracings, places where guys start, and one post or two are looked at, the nearest to holding
    and the end of the plan of rack compare grown until every check passes at the map gust, and the
    lightest trimmed as far as all still pass: never worse than that plan. The page says what each
    step bought and what the search covered. Where the file lists [[stock]], only that is offered,
    as far as its lengths reach. Exit code 0: it holds; 1: no size offered does, and the best is
    written, its top says what stops it; 2: the file is wrong.
    """
    from frame.casefile.read import parse_rack
    from frame.casefile.syntax import read_text
    from frame.plan.decision import size_beside_plan

    text = read_text(file)
    rack = parse_rack(text, file.name)
    if out is not None:
        refuse_over(out, file, force=force)
    from frame.casefile.named import bracing_of

    named = None if bracing is None else bracing_of(bracing, rack)
    with progress() as tell:
        sized = size_beside_plan(text, file.name, named, tell, catalog=catalog)
    from frame.report import sizes

    if out is not None:
        from frame.casefile.write import write_rack

        write_rack(out, sizes.file(sized), force=force)
        short = "" if sized.holds else ", the best found: it falls short, see its top"
        click.echo(f"Wrote {out}{short}.", err=True)
    if as_json:
        print_json(sizes.document(sized))
    else:
        console().print(sizes.page(sized, units or rack.units))
    ctx.exit(0 if sized.holds else NONE_HOLDS)
