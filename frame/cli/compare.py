"""`rack compare FILE`: what to weld and change, in which order, and what each step buys."""

from math import inf
from pathlib import Path
from typing import TYPE_CHECKING

import click

from frame.cli.main import NONE_HOLDS
from frame.cli.options import (
    as_json,
    console,
    force_over,
    new_file,
    patience,
    print_json,
    progress,
    rack_file,
    refuse_over,
    units,
)

if TYPE_CHECKING:
    from frame.plan.decision import Decision
    from frame.plan.exhaustive import Exhausted


@click.command(name="compare", short_help="Say what to weld and change, and what each step buys.")
@rack_file
@units
@click.option("--all", "everything", is_flag=True, help="Print every bracing side by side too.")
@click.option(
    "--exhaustive",
    is_flag=True,
    help="Try every combination of the changes that matter, and tell how far off the plan is.",
)
@new_file("Write the rack as the plan leaves it as a new rack file.")
@force_over
@as_json
@click.pass_context
def command(
    ctx: click.Context,
    file: Path,
    out: Path | None,
    units: str | None,
    *,
    everything: bool,
    exhaustive: bool,
    force: bool,
    as_json: bool,
) -> None:
    """Say what to weld and change in FILE's rack, in which order, and what each step buys.

    Exit code 0: answered; 1: no bracing described holds; 2: the file is wrong; 3: the two solvers
    disagree, and no verdict is given.
    """
    from frame.casefile.syntax import read_text
    from frame.plan.decision import decide, decide_and_compare
    from frame.plan.second_process import processes

    if out is not None:
        refuse_over(out, file, force=force)
    text, study, cores = read_text(file), None, processes()
    with patience("Solving the rack, then every change to it: up to a minute"):
        if as_json or everything:
            found, study = decide_and_compare(
                text, file.name, units, processes=cores, ranged=as_json
            )
        else:
            found = decide(text, file.name, units, processes=cores, ranged=False)
    exhausted = _exhausted(text, file.name, units, found) if exhaustive else None
    if out is not None:
        from frame.casefile.write import write_rack
        from frame.report.planned import planned_file

        write_rack(out, planned_file(found), force=force)
        click.echo(f"Wrote {out}.", err=True)
    if study and as_json:
        from frame.report.data.document import document

        print_json(document(study, found, exhausted))
        ctx.exit(0 if found.some_holds else NONE_HOLDS)
    from frame.report.screen.first import MOST, first_screen
    from frame.report.typed import typed

    most = inf if everything else MOST
    for line in first_screen(found, typed(file), most):
        click.echo(line)
    if exhausted is not None:
        from frame.report.exhausted import exhausted_lines

        click.echo("\n".join(["", *exhausted_lines(exhausted)]))
    if study:
        from frame.report.compare_page import page

        console().print(page(study, units or found.rack.units))
    ctx.exit(0 if found.some_holds else NONE_HOLDS)


def _exhausted(text: str, name: str, units: str | None, found: "Decision") -> "Exhausted":
    """Solve every combination, telling on a terminal how far it is."""
    from frame.plan.exhaustive import exhausted

    with progress() as tell:
        return exhausted(
            text, name, units, found.plan, lambda n, of: tell(f"{n} of {of} racks solved")
        )
