"""`rack catalog`: list and search pipes, steels, channels, wires and soils."""

import click


@click.command(name="catalog", short_help="List pipes, steels, channels, wires and soils.")
@click.argument("words", nargs=-1)
@click.option(
    "--kind",
    type=click.Choice(["pipe", "steel", "channel", "wire", "soil"]),
    help="Only this kind of entry.",
)
@click.option("--units", type=click.Choice(["us", "metric"]), default="us", show_default=True)
@click.option("--json", "as_json", is_flag=True, help="Print SI values for another program.")
def command(words: tuple[str, ...], kind: str | None, units: str, *, as_json: bool) -> None:
    """List what a rack file can name, with numbers and sources.

    WORDS narrow the list: "rack catalog 3-1/2 nominal", "rack catalog ehs strand". A number alone
    also finds pipe of that outside diameter. What is no name is looked for in every column:
    "rack catalog wall 0.237", "rack catalog breaking 6,650", "rack catalog handbooks".
    """
    from rich.console import Console

    from frame.errors import CatalogError
    from frame.report import catalog

    found = catalog.search_catalog(words, kind)
    if not found:
        raise CatalogError(catalog.nothing_found(words))
    console = Console(highlight=False)
    if as_json:
        console.print_json(data=catalog.as_data(found))
        return
    console.print(catalog.page(found, units))
