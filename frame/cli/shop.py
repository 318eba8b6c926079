"""`rack shop FILE --out DIR`: the sheet for the shop, its templates, and the same as data."""

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from frame.cli.options import patience, progress, rack_file, units

if TYPE_CHECKING:
    from frame.rack.rack import Rack
    from frame.records.results import BracingResult
    from frame.shop.buying.there import StandingRack
    from frame.shop.cutting.cut_plan import Cutting
    from frame.shop.job import Wanted

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
    "--apart",
    metavar="LENGTH",
    help="Post to post along the beam, of two racks side by side: is anything in the way?",
)
@click.option("--behind", metavar="LENGTH", help="The same across it, one behind the other.")
@click.option(
    "--slope",
    metavar="ANGLE",
    help='Slope of the ground, as "8 deg"; not beside a rise of anchors. [default: level]',
)
@click.option(
    "--falls",
    type=click.Choice(["front", "back", "left", "right"]),
    default="front",
    show_default=True,
    help="Side of the rack the ground falls to.",
)
@click.option("--kerf", metavar="LENGTH", help="What a cut of a stick takes. [default: 1/8 in]")
@click.option(
    "--splice-share",
    type=click.FloatRange(0.05, 1.0),
    help="Share of a splice's strength that may be used where one is put. [default: 0.5]",
)
@click.option(
    "--paper",
    type=click.Choice(["letter", "a4"]),
    help="Size of paper. [default: letter, a4 for a metric file]",
)
@units
@click.option("--overwrite", is_flag=True, help="Replace files of an earlier set.")
def command(
    file: Path,
    out: Path,
    *,
    racks: int,
    bracing: str | None,
    apart: str | None,
    behind: str | None,
    slope: str | None,
    falls: str,
    kerf: str | None,
    splice_share: float | None,
    paper: str | None,
    units: str | None,
    overwrite: bool,
) -> None:
    """Write what is cut, where it is marked and how it is coped, to hang in the shop.

    Without --bracing the plan is made first and the pieces are those of the rack it ends with.
    The set is written whole or not at all.
    """
    from frame.cli.whole_set import refuse_to_overwrite, write_set

    if not overwrite:
        refuse_to_overwrite(out)
    asked = replace(
        _wanted(racks, apart, behind, slope, falls), cutting=_cutting(kerf, splice_share)
    )
    _refuse_two_grounds(file, asked, units)
    rack, result, standing = _chosen(file, bracing, units)
    asked = replace(asked, standing=standing if racks == 1 else None)

    from frame.draw.shop.book import drawn
    from frame.report.shop.data import csv_tables, document
    from frame.shop.job import make_job
    from frame.shop.job_words import crowded_words, marked_elsewhere, stepped_words
    from frame.shop.yard.trenches import trench_words

    with progress() as tell:
        job = make_job(rack, result.bracing, asked, result, tell)
    size = paper or ("a4" if rack.units == "metric" else "letter")
    files = {"shop.json": json.dumps(document(job), indent=1, allow_nan=False).encode()}
    files |= {name: text.encode() for name, text in csv_tables(job).items()}
    files |= drawn(job, size)
    write_set(out, files, overwrite=overwrite)
    stepped = stepped_words(job)
    if stepped:
        click.echo(stepped)
    for said in (*marked_elsewhere(job), *crowded_words(job)):
        click.echo(said)
    for far in trench_words(job.trenches, job.ground, rack.units)[1:]:
        click.echo(f"Note: {far}")
    for warning in rack.warnings:
        click.echo(f"Note: {warning}")
    click.echo(f"Wrote {out}: {', '.join(sorted(files))}.")


def _wanted(
    racks: int, apart: str | None, behind: str | None, slope: str | None, falls: str
) -> "Wanted":
    """Read what is asked for beside the file."""
    from frame.shop.ground import Ground
    from frame.shop.job import Wanted

    along, back, angle = (
        _read(text, kind, option)
        for text, kind, option in (
            (apart, "length", "--apart"),
            (behind, "length", "--behind"),
            (slope, "angle", "--slope"),
        )
    )
    given = (along or 0.0, back or 0.0) if (along, back) != (None, None) else None
    return Wanted(racks=racks, ground=Ground(angle or 0.0, falls), apart=given)


def _refuse_two_grounds(file: Path, asked: "Wanted", units: str | None) -> None:
    """Refuse a slope beside a rise in the file before the plan is made, which takes long."""
    from frame.casefile.read import parse_rack
    from frame.casefile.syntax import read_text
    from frame.shop.ground import check_rise

    if asked.ground.slope:
        check_rise(asked.ground, parse_rack(read_text(file), file.name, units))


def _cutting(kerf: str | None, share: float | None) -> "Cutting":
    """Read how the pile is cut."""
    from frame.errors import InputError, Problem
    from frame.shop.cutting.cut_plan import Cutting
    from frame.units import INCH

    told = Cutting()
    width = _read(kerf, "length", "--kerf")
    if width is not None and not 0 <= width <= INCH / 2:
        raise InputError((Problem("--kerf", f'"{kerf}" is no cut', "give nil to 1/2 in"),))
    return replace(
        told,
        kerf=told.kerf if width is None else width,
        share=told.share if share is None else share,
    )


def _read(text: str | None, kind: str, option: str) -> float | None:
    """Read a quantity of an option [SI], None where it is left out."""
    from frame.errors import InputError, Problem
    from frame.units import UnitError, parse

    if text is None:
        return None
    try:
        return parse(text, kind)
    except UnitError as error:
        raise InputError((Problem(option, error.what, error.right),)) from None


def _chosen(
    file: Path, bracing: str | None, units: str | None
) -> "tuple[Rack, BracingResult, StandingRack | None]":
    """Return the rack and all about its bracing: as asked for, or where the plan ends.

    And the rack that stands, where one does.
    """
    from frame.casefile.read import parse_rack
    from frame.casefile.syntax import read_text
    from frame.plan.decision import as_it_is, decide
    from frame.shop.buying.there import standing_of

    text = read_text(file)
    if bracing is not None:
        from frame.casefile.named import bracing_of
        from frame.verdict.inspect import inspect

        rack = parse_rack(text, file.name, units)
        result = inspect(rack, bracing_of(bracing, rack)).result
        return rack, result, standing_of(rack, as_it_is(rack))

    from frame.rack.rack import bracing_title

    with patience("Making the plan of rack compare: up to a minute"):
        found = decide(text, file.name, units)
    steps = f"after {len(found.plan.steps)} steps of `rack compare`"
    click.echo(f"Cut for the rack as the plan ends, {steps}: {bracing_title(found.end.bracing)}.")
    start = found.plan.start
    standing = standing_of(start.rack, start.bracing)
    return replace(found.plan.end.rack, units=found.rack.units), found.end, standing
