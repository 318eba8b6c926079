"""`rack new FILE`: write a commented starter file, or one made of answers."""

from pathlib import Path

import click


@click.command(name="new")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--ask", "asks", is_flag=True, help="Ask for what it takes, one thing at a time.")
@click.option("--force", is_flag=True, help="Write over the file if it exists.")
@click.pass_context
def command(ctx: click.Context, file: Path, *, asks: bool, force: bool) -> None:
    """Write a starter rack file with every key explained.

    Change its values to your rack's, then run `rack compare FILE`. With --ask, answer questions
    instead: the file is made of the answers, and compared if you like.
    """
    if asks:
        from frame.cli.ask import make_file
        from frame.cli.compare import command as compare

        if make_file(file, force=force):
            ctx.invoke(compare, file=file)
        return
    from frame.casefile.starter import write_starter
    from frame.report.typed import typed

    write_starter(file, force=force)
    click.echo(f"Wrote {file}. Change its values to your rack's, then: rack compare {typed(file)}")
