"""`rack schema`: print the JSON Schema of a rack file, for editors."""

import click


@click.command(name="schema", hidden=True)
def command() -> None:
    """Print the JSON Schema of a rack file, for an editor that completes and checks it."""
    from frame.casefile.schema import schema_text

    click.echo(schema_text())
