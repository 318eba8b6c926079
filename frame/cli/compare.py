"""`rack compare FILE`: what to weld and change, in which order, and what each step buys."""

from pathlib import Path

import click

from frame.cli.main import NONE_HOLDS
from frame.cli.options import as_json, console, print_json, rack_file, units


@click.command(name="compare", short_help="Say what to weld and change, and what each step buys.")
@rack_file
@units
@click.option("--all", "everything", is_flag=True, help="Print every bracing side by side too.")
@as_json
@click.pass_context
def command(
    ctx: click.Context, file: Path, units: str | None, *, everything: bool, as_json: bool
) -> None:
    """Say what to weld and change in FILE's rack, in which order, and what each step buys.

    Exit code 0: answered; 1: no bracing described holds; 2: the file is wrong; 3: the two solvers
    disagree, and no verdict is given.
    """
    from frame.casefile.syntax import read_text
    from frame.plan.decision import decide, side_by_side
    from frame.verdict.beside import processes

    text, cores = read_text(file), processes()
    found = decide(text, file.name, units, processes=cores)
    if as_json:
        from frame.report.document import document

        print_json(document(side_by_side(text, file.name, units, processes=cores), found))
        ctx.exit(0 if found.some_holds else NONE_HOLDS)
    from frame.report.screen.first import screen
    from frame.report.typed import typed

    for line in screen(found, typed(file)):
        click.echo(line)
    if everything:
        from frame.report.compare_page import page

        study = side_by_side(text, file.name, units, processes=cores)
        console().print(page(study, units or found.rack.units))
    ctx.exit(0 if found.some_holds else NONE_HOLDS)
