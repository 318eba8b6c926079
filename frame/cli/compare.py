"""`rack compare FILE`: which bracing to weld, every bracing described side by side."""

from pathlib import Path

import click

from frame.cli.main import NONE_HOLDS
from frame.cli.options import as_json, console, print_json, rack_file, units


@click.command(name="compare", short_help="Say which bracing to weld: every bracing side by side.")
@rack_file
@units
@as_json
@click.pass_context
def command(ctx: click.Context, file: Path, units: str | None, *, as_json: bool) -> None:
    """Say which bracing to weld, and why, then set every bracing in FILE side by side.

    Exit code 0: answered; 1: no bracing described holds; 2: the file is wrong; 3: the two solvers
    disagree, and no verdict is given.
    """
    from frame.casefile.read import read_rack
    from frame.study.beside import processes
    from frame.study.compare import compare

    study = compare(read_rack(file, units), processes=processes())
    if as_json:
        from frame.report.document import document

        print_json(document(study))
    else:
        from frame.report.compare_page import page

        console().print(page(study, units or study.rack.units))
    ctx.exit(NONE_HOLDS if study.verdict.holds is False else 0)
