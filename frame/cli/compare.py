"""`rack compare FILE`: which bracing to weld, every bracing described side by side."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from frame.cli.main import NONE_HOLDS
from frame.cli.options import as_json, console, print_json, rack_file, units

if TYPE_CHECKING:
    from frame.rack.rack import Rack


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
    from frame.study.beside import beside, processes

    with beside(file, processes()) as reader:
        read = reader.ask(_read, units)
        # Loading the solvers takes longer than reading the file.
        from frame.study.compare import compare

        rack = read()
    study = compare(rack, processes=processes())
    if as_json:
        from frame.report.document import document

        print_json(document(study))
    else:
        from frame.report.compare_page import page

        console().print(page(study, units or study.rack.units))
    ctx.exit(NONE_HOLDS if study.verdict.holds is False else 0)


def _read(file: Path, units: str | None) -> "Rack":
    from frame.casefile.read import read_rack

    return read_rack(file, units)
