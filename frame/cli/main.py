"""The command `rack`: finds the command's file only when it is called."""

import os
import sys
from importlib import import_module

import click

from frame.errors import DisagreementError, FrameError

COMMANDS = {
    "new": "Write a commented rack file to start from.",
    "compare": "Say what to weld and change, in which order, and what each step buys.",
    "check": "Look into one bracing in depth, part by part.",
    "measure": "Say what to read off a standing rack, or ask for it.",
    "diagnose": "Say why a standing rack droops and moves, by what was read.",
    "gusts": "Say at which forecast gust to lay the panels down.",
    "size": "Find the lightest rack that has the code's margin for its site.",
    "shop": "Write cut list, templates and stakes for the shop.",
    "draw": "Draw where it flexes and how far it moves, bare beside the plan's end.",
    "page": "Write the whole answer as one HTML file.",
    "model": "Print the frame model with its answers, for another program.",
    "catalog": "List pipes, steels, channels, wires and soils.",
}
HIDDEN = ("schema",)
NONE_HOLDS, BAD_INPUT, SOLVERS_DISAGREE = 1, 2, 3


class Commands(click.Group):
    """Commands by name; a command's module is imported when it runs, so help stays instant."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names in the order of work."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import the command."""
        if cmd_name not in COMMANDS and cmd_name not in HIDDEN:
            return None
        command: click.Command = import_module(f"frame.cli.{cmd_name}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command asked for; the nearest is named where there is none of that name."""
        asked = args[0] if args else ""
        if asked and asked[0] != "-" and self.get_command(ctx, asked) is None:
            raise click.UsageError(no_command(asked), ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


def no_command(asked: str) -> str:
    """Say that there is no such command, and what was probably meant."""
    from difflib import get_close_matches

    from frame.report.typed import typed

    if asked.endswith(".toml"):
        return f"Name a command before the file, as: rack compare {typed(asked)}"
    near = get_close_matches(asked.lower(), COMMANDS, 1, 0.5)
    right = f'the nearest is "{near[0]}"' if near else f"commands are {', '.join(COMMANDS)}"
    return f'There is no command "{asked}"; {right}.'


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="panel-rack-frame", prog_name="rack")
def rack() -> None:
    """Decide the bracing of a welded pipe rack before cutting steel.

    Begin with `rack new my_rack.toml`, fill it in, then `rack compare my_rack.toml`. Everything
    printed is an estimate on the numbers given; local codes and a licensed engineer decide.
    """


def main() -> None:
    """Run the command; an error that the user can mend is one message and an exit code."""
    # Matrices here are small: threads would wait for each other longer than they work.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        code = rack(standalone_mode=False)
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read has gone; without this Python complains when it flushes at the end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)
    except click.exceptions.Abort:
        sys.exit(130)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except FrameError as error:
        click.echo(str(error), err=True)
        sys.exit(SOLVERS_DISAGREE if isinstance(error, DisagreementError) else BAD_INPUT)
    sys.exit(code if isinstance(code, int) else 0)
