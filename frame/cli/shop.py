"""`rack shop FILE --out DIR`: the sheet for the shop, its templates, and the same as data."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from frame.cli.options import bracing_of, rack_file

if TYPE_CHECKING:
    from frame.rack.rack import Rack

MOST_RACKS = 50


@click.command(name="shop", short_help="Write cut list, templates and stakes for the shop.")
@rack_file
@click.option(
    "--out",
    required=True,
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Folder to write the set into.",
)
@click.option(
    "--racks",
    type=click.IntRange(1, MOST_RACKS),
    default=1,
    show_default=True,
    help="How many equal racks to cut for.",
)
@click.option(
    "--bracing",
    metavar="NAMES",
    help='Names as "knees,guys". [default: the rack that the plan of `rack compare` ends with]',
)
@click.option(
    "--paper",
    type=click.Choice(["letter", "a4"]),
    help="Size of paper. [default: letter, a4 for a metric file]",
)
@click.option("--overwrite", is_flag=True, help="Replace files of an earlier set.")
def command(
    file: Path, out: Path, racks: int, bracing: str | None, paper: str | None, overwrite: bool
) -> None:
    """Write what is cut, where it is marked and how it is coped, to hang in the shop.

    Without --bracing the plan is made first and the pieces are those of the rack it ends with.
    The set is written whole or not at all.
    """
    from frame.cli.whole_set import refuse_to_overwrite, write_set

    if not overwrite:
        refuse_to_overwrite(out)
    rack, names = _chosen(file, bracing)

    from frame.draw.shop.book import drawn
    from frame.report.shop.data import document, tables
    from frame.shop.job import make_job

    job = make_job(rack, names, racks)
    size = paper or ("a4" if rack.units == "metric" else "letter")
    files = {"shop.json": json.dumps(document(job), indent=1, allow_nan=False).encode()}
    files |= {name: text.encode() for name, text in tables(job).items()}
    files |= drawn(job, size)
    write_set(out, files, overwrite=overwrite)
    for warning in rack.warnings:
        click.echo(f"Note: {warning}")
    click.echo(f"Wrote {out}: {', '.join(sorted(files))}.")


def _chosen(file: Path, bracing: str | None) -> "tuple[Rack, tuple[str, ...]]":
    """Return the rack and its bracing: as asked for, or where the plan ends."""
    from frame.casefile.read import parse_rack
    from frame.casefile.syntax import read_text

    text = read_text(file)
    if bracing is not None:
        rack = parse_rack(text, file.name)
        return rack, bracing_of(bracing, rack)

    from frame.plan.decision import decide
    from frame.rack.rack import bracing_title

    end = decide(text, file.name).plan.end
    click.echo(f"Cut for the rack that the plan ends with: {bracing_title(end.bracing)}.")
    return end.rack, end.bracing
