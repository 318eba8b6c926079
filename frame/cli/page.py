"""`rack page FILE`: the whole answer as one HTML file, for a telephone, paper or an engineer."""

from pathlib import Path

import click

from frame.cli.options import patience, rack_file, units


@click.command(name="page", short_help="Write the whole answer as one HTML file.")
@rack_file
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path),
    help="Page to write. [default: beside FILE, as .html]",
)
@units
def command(file: Path, output: Path | None, units: str | None) -> None:
    """Write all that is known of FILE's rack as one page that needs nothing from outside.

    The first screen's words first, then the plan with a picture of every step, what goes first,
    every bracing, what to cut, what was assumed, and every check by hand, folded away.
    """
    from frame.casefile.syntax import read_text
    from frame.errors import InputError
    from frame.page.page import html_page

    target = output or file.with_suffix(".html")
    if target.is_dir():
        from frame.errors import Problem

        raise InputError((Problem("--output", f"{target} is a folder", "name a file"),))
    with patience("Working out the whole answer: a minute or two"):
        made = html_page(read_text(file), file.name, units)
    try:
        target.write_text(made, encoding="utf-8")
    except OSError as error:
        raise InputError(f"{target}: cannot be written ({error.strerror})") from None
    click.echo(f"Wrote {target}.")
