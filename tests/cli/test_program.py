"""The program as the shell sees it: all it says is out before it ends, and its exit code."""

import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from frame.cli.draw import WHATS
from frame.cli.main import COMMANDS, HIDDEN, main
from frame.cli.main import rack as program
from frame.cli.options import patience
from frame.report.screen.first import first_screen
from tests.decided import decided

CASES = Path(__file__).parents[2] / "cases"
RUN = "from frame.cli.main import main; main()"


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", RUN, *arguments],
        capture_output=True,
        text=True,
        check=False,
        cwd=CASES.parent,
    )


def test_the_whole_answer_is_out_before_it_ends() -> None:
    done = run("catalog", "nominal")
    assert done.returncode == 0
    assert done.stdout.count("\n") > 20
    assert done.stdout.endswith("\n")
    assert not done.stderr


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("--help",), 0),
        (("compare", "cases/none.toml"), 2),
        (("weld",), 2),
    ],
)
def test_exit_codes_reach_the_shell(arguments: tuple[str, ...], code: int) -> None:
    done = run(*arguments)
    assert done.returncode == code
    assert (code == 2) == bool(done.stderr)
    assert "Traceback" not in done.stderr


def help_of(command: str) -> str:
    done = CliRunner().invoke(program, [command, "--help"])
    assert done.exit_code == 0
    return done.output


@pytest.mark.parametrize("command", [*COMMANDS, *HIDDEN])
def test_no_help_shows_a_mark_of_its_making(command: str) -> None:
    """Where "\\b" is printed, click was given a backslash, and runs the table into one line."""
    text = help_of(command)
    assert "\\" not in text
    assert "\b" not in text


def test_help_of_draw_explains_every_picture_on_a_line_of_its_own() -> None:
    explained = [line.split()[0] for line in help_of("draw").splitlines() if line.split()]
    assert [word for word in explained if word in WHATS] == list(WHATS)


@pytest.mark.xdist_group("wash_house")
def test_what_a_shell_reads_is_the_decision_made_in_one_process() -> None:
    """Where there are two cores the program works in two."""
    done = run("compare", "cases/wash_house.toml")
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines() == first_screen(decided("wash_house"), "cases/wash_house.toml")


@pytest.mark.xdist_group("fifteen_lines")
@pytest.mark.usefixtures("decided_once")
def test_a_rack_that_holds_in_no_bracing_ends_the_program_with_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys, "argv", ["rack", "compare", str(CASES / "fifteen_lines.toml")])
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == 1


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("compair", "x.toml"), 'There is no command "compair"; the nearest is "compare".'),
        (("Draw",), 'There is no command "Draw"; the nearest is "draw".'),
        (("weld",), 'There is no command "weld"; commands are new, compare, check,'),
        (("my rack.toml",), 'Name a command before the file, as: rack compare "my rack.toml"'),
    ],
)
def test_a_mistyped_command_is_told_what_was_meant(
    arguments: tuple[str, ...],
    says: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(sys, "argv", ["rack", *arguments])
    with pytest.raises(SystemExit) as left:
        main()
    assert left.value.code == 2
    assert says in " ".join(capsys.readouterr().err.split())


def test_a_reader_that_stops_reading_does_no_harm() -> None:
    with subprocess.Popen(
        [sys.executable, "-c", RUN, "catalog"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=CASES.parent,
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.read(10)
        process.stdout.close()
        assert b"Traceback" not in process.stderr.read()


@pytest.mark.parametrize(("terminal", "said"), [(True, "Solving ...\r\x1b[K"), (False, "")])
def test_a_terminal_is_told_what_takes_a_while_and_a_pipe_is_not(
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    terminal: bool,
    said: str,
) -> None:
    monkeypatch.setattr(sys.stderr, "isatty", lambda: terminal)
    with patience("Solving"):
        pass
    found = capsys.readouterr()
    assert (found.out, found.err) == ("", said)
