"""`rack new FILE`: write a commented starter file."""

from pathlib import Path

import click


@click.command(name="new")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--force", is_flag=True, help="Write over the file if it exists.")
def command(file: Path, force: bool) -> None:
    """Write a starter rack file with every key explained.

    Change its values to your rack's, then run `rack compare FILE`.
    """
    from frame.casefile.starter import write_starter
    from frame.report.typed import typed

    write_starter(file, force=force)
    click.echo(f"Wrote {file}. Change its values to your rack's, then: rack compare {typed(file)}")
