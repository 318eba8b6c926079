"""Arguments and options that commands share, and how their answers are printed."""

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from rich.console import Console


PIPED_WIDTH = 100
"""Letters to a line where the output goes to a file or another program."""

rack_file = click.argument("file", type=click.Path(path_type=Path))
as_json = click.option(
    "--json", "as_json", is_flag=True, help="Print SI values for another program."
)
units = click.option(
    "--units",
    type=click.Choice(["us", "metric"]),
    help="Units to print in. [default: those of the file]",
)


def picture_out(text: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Return the option -o for a picture to write; `text` says which."""
    return click.option("-o", "--output", type=click.Path(path_type=Path), help=text)


def new_file(text: str) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Return the option --out for a rack file to write; `text` says which."""
    return click.option("--out", type=click.Path(path_type=Path), metavar="NEW.toml", help=text)


force_over = click.option("--force", is_flag=True, help="Write over the new file if it exists.")


def refuse_over(out: Path, file: Path, *, force: bool) -> None:
    """Refuse a target that may not be written, before any long work."""
    from frame.errors import InputError, Problem

    if out.exists() and (not force or out.is_dir() or out.samefile(file)):
        right = "choose another name, or add --force to write over it"
        if out.is_dir() or out.samefile(file):
            right = "choose a name other than that of the file read"
        raise InputError((Problem("--out", f"{out} exists already", right),))


def console() -> "Console":
    """Return the console to print on: as wide as the terminal, else 100 letters."""
    from rich.console import Console

    width = None if sys.stdout.isatty() else PIPED_WIDTH
    return Console(highlight=False, markup=False, emoji=False, width=width)


@contextmanager
def progress() -> Iterator[Callable[[str], None]]:
    """Show on standard error what a search is at and how long it has been at it."""
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    columns = (TextColumn("{task.description:<32}"), BarColumn(), TimeElapsedColumn())
    terminal = Console(stderr=True)
    with Progress(
        *columns, console=terminal, transient=True, disable=not sys.stderr.isatty()
    ) as bar:
        task = bar.add_task("reading", total=None)
        yield lambda words: bar.update(task, description=words, advance=1)


@contextmanager
def patience(what: str) -> Iterator[None]:
    """Say on a terminal `what` takes a while, and wipe it when done.

    One line and no clock: a clock is a thread, and no process is forked beside one.
    """
    shown = sys.stderr.isatty()
    if shown:
        click.echo(f"{what} ...", err=True, nl=False)
    try:
        yield
    finally:
        if shown:
            click.echo("\r\x1b[K", err=True, nl=False)


def print_json(document: dict[str, object]) -> None:
    """Print one JSON document and nothing else; what is not finite must have been sorted out."""
    click.echo(json.dumps(document, indent=2, allow_nan=False))
