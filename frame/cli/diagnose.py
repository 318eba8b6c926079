"""`rack diagnose FILE`: which movement it is, by what was read off the rack that stands."""

from pathlib import Path

import click

from frame.cli.options import as_json, patience, print_json, rack_file, units


@click.command(name="diagnose", short_help="Say why a standing rack droops and moves.")
@rack_file
@units
@click.option("--write", "writes", is_flag=True, help="Write what was fitted into FILE, marked.")
@click.option("--quick", is_flag=True, help="Leave out what it does to the plan.")
@as_json
def command(file: Path, units: str | None, *, writes: bool, quick: bool, as_json: bool) -> None:
    """Say why FILE's rack droops and moves, by what was read off it, and what that changes.

    The readings stand under [measured]; `rack measure FILE` says what to read, and asks for it.
    Exit code 0: answered; 2: the file is wrong or has no readings.
    """
    from frame.casefile.syntax import read_text
    from frame.diagnosis.diagnosis import diagnose
    from frame.plan.second_process import processes

    with patience("Fitting the rack to its readings, then the plan: up to a minute"):
        found = diagnose(read_text(file), file.name, units, plans=not quick, processes=processes())
    if writes:
        from frame.casefile.write import write_rack
        from frame.diagnosis.written import with_fitted

        text = with_fitted(read_text(file), found.fitted, found.rack.units)
        write_rack(file, text, force=True)
    if as_json:
        from frame.report.data.diagnose_data import document

        print_json(document(found))
        return
    from frame.report.readings.screen import diagnosis_screen
    from frame.report.typed import typed

    for line in diagnosis_screen(found, typed(file)):
        click.echo(line)
    if writes:
        click.echo(f"Wrote {len(found.fitted)} fitted values into {file}.")
