"""`rack measure FILE`: what to read off a standing rack, or ask for it and write it down."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from frame.cli.options import rack_file, units

if TYPE_CHECKING:
    from frame.casefile.write import Value, Where
    from frame.rack.rack import Rack

WIDTH = 78
STOP = "done"
CANT_TELL = "can't tell"
FITTED = ("measured", "fitted")


@click.command(name="measure", short_help="Say what to read off a standing rack, or ask for it.")
@rack_file
@units
@click.option(
    "--fill", "asks", is_flag=True, help="Ask for the readings and write them into FILE."
)
def command(file: Path, units: str | None, *, asks: bool) -> None:
    """Print the card for the yard: what to read off FILE's rack, how, and what to expect.

    With --fill, ask for the readings and write them into FILE under [measured]; everything else
    in it stays, comments too. Then run `rack diagnose FILE`.
    """
    from frame.casefile.read import parse_rack
    from frame.casefile.syntax import read_text
    from frame.report.typed import typed

    text = read_text(file)
    rack = parse_rack(text, file.name, units)
    if not asks:
        from frame.report.readings.card import yard_card

        for line in yard_card(rack, typed(file)):
            click.echo(line)
        return
    from frame.casefile.write import edited, write_rack

    edits = _asked(rack)
    if not edits:
        click.echo("Nothing was answered: the file stays as it was.")
        return
    made = edited(text, edits).rstrip("\n") + "\n"
    parse_rack(made, file.name)
    write_rack(file, made, force=True)
    click.echo(f"Wrote {_told(edits)} into {file}. Now: rack diagnose {typed(file)}")


def _told(edits: "dict[Where, Value]") -> str:
    """Say what was answered: bracing and pulls are told of readings, and are none themselves."""
    from frame.tables.readings import reading_kinds

    answers = [value for (_, key), value in edits.items() if key in reading_kinds()]
    untold = answers.count(CANT_TELL)
    read = len(answers) - untold
    said = [f"{read} reading{'' if read == 1 else 's'}"] if read else []
    said += [f"{untold} that cannot be told"] if untold else []
    said += ["what is on the rack"] if FITTED in edits else []
    return " and ".join(said)


def _asked(rack: "Rack") -> "dict[Where, Value]":
    """Ask for every reading that can be taken of a rack; nothing is written before the end."""
    from frame.casefile.measured_answer import answered, answered_force
    from frame.diagnosis.expected_readings import expectations
    from frame.tables.readings import reading_kinds

    _say(
        "Write units as you say them: 3/4 in, 0.5 deg, 40 lb; add how well it was read if you "
        'know: 3/4 in within 1/16 in. Enter leaves one out, "?" is can\'t tell, '
        f'"{STOP}" ends it.'
    )
    edits: dict[Where, Value] = {}
    if rack.bracing_names:
        names = ", ".join(rack.bracing_names)
        said = _one(f"Which of {names} is on it? (names with commas, or none)", _names(rack))
        if said == STOP:
            return edits
        if said is not None:
            edits[FITTED] = said
    for one in expectations(rack):
        kind = reading_kinds()[one.key]
        value = _one(f"{kind.words} ({kind.tool})", partial(answered, one.key))
        if value == STOP:
            break
        if value is None:
            continue
        if kind.needs and ("measured", kind.needs) not in edits and value != CANT_TELL:
            force = _one(f"with how much {kind.needs} was that?", answered_force)
            if force is None or force == STOP:
                _say("Without its force it says nothing: left out.")
                continue
            edits["measured", kind.needs] = force
        edits["measured", one.key] = value
    return edits


def _names(rack: "Rack") -> "Callable[[str], Value]":
    """Return what reads the names of bracing that is on."""
    from frame.casefile.named import bracing_of

    def read(text: str) -> "Value":
        return list(bracing_of("bare" if text.lower() == "none" else text, rack))

    return read


def _one(question: str, read: "Callable[[str], Value]") -> "Value":
    """Ask until the answer can be read; None where it is left out."""
    from frame.errors import InputError

    _say(question)
    while True:
        said = _typed()
        if not said:
            return None
        if said.lower() == STOP:
            return STOP
        try:
            return read(said)
        except InputError as error:
            for problem in error.problems:
                _say(f"{problem.what[:1].upper()}{problem.what[1:]}: {problem.right}.")


def _typed() -> str:
    """Return a line typed; the end of the input is the word that ends it."""
    try:
        return str(click.prompt(">", prompt_suffix=" ", default="", show_default=False)).strip()
    except click.Abort as stopped:
        if isinstance(stopped.__context__, EOFError):
            click.echo()
            return STOP
        raise


def _say(text: str) -> None:
    click.echo(click.wrap_text(text, WIDTH))
