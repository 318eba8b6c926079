"""Constants and signs of the package changed at random: do the tests see it? By hand.

    .venv/bin/python -m tests.long.mutations [--seed 1] [--count 40] [--in frame/checks ...]

Each change is made in a copy of the tree, one at a time: a number a third larger (a whole number
one at least), a plus for a minus, a product for a quotient, or either the other way round, in code
and in the text of formulas; numbers under 1e-5 are slack of the arithmetic. Then those tests run
that are likeliest to see it, quickest first, on the same random examples each time, up to the
first that fails. Prints each change with the test that caught it, or ESCAPED; exit code 1 where
more than one in ten escapes. A test that fails without the change as well is named and left out.
Of a change that escapes it says what it does to the answers on the case files and on random racks
(see `effects`): what changes none may be without effect, as a number that another always governs,
or a place that no rack of these reaches. Which, is told by reading: both count as escaped. Ten
seconds for most, a minute or two for one that escapes.
"""

import argparse
import ast
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.long.effects import told_effect, watched, worked_out
from tests.long.formulas import in_formulas

ROOT = Path(__file__).parents[2]
AREAS = ("frame/checks", "frame/loads", "frame/idealize", "frame/fem", "frame/parts")
SIGNS: dict[type[ast.operator], tuple[str, str, type[ast.operator]]] = {
    ast.Add: ("+", "-", ast.Sub),
    ast.Sub: ("-", "+", ast.Add),
    ast.Mult: ("*", "/", ast.Div),
    ast.Div: ("/", "*", ast.Mult),
}
LAYOUT = {"axis", "ndim", "ndmin", "decimals", "digits", "maxsize", "tolerance", "rtol", "atol"}
"""Keywords whose numbers say how arrays lie or how closely they are solved: no physics."""
SHAPES = {"reshape", "range", "zeros", "ones", "full", "eye", "round", "expand_dims", "moveaxis"}
"""Functions whose numbers do."""
LAWS = "tests/property"
REST = {
    "checks": (f"{LAWS}/test_ground_laws.py", f"{LAWS}/test_joint_laws.py", "tests/unit/parts"),
    "fem": (f"{LAWS}/test_fem_frames.py", f"{LAWS}/test_fem_guys.py", "tests/unit/parts"),
    "idealize": (
        f"{LAWS}/test_rack_laws.py",
        f"{LAWS}/test_elevations_agree.py",
        "tests/unit/parts",
    ),
    "loads": (f"{LAWS}/test_wind.py", "tests/unit/idealize"),
    "parts": (f"{LAWS}/test_expected_laws.py", "tests/unit/search"),
}
"""Where a change is looked for that the tests of its own folder let pass, by folder."""
LAST = "tests/published"
SLACK = 1e-5
LONGEST = 900.0
"""Time after which a run of tests counts as failed [s]: the change made it go on for ever."""


@dataclass(frozen=True)
class Change:
    """One place of a file where `old` text becomes `new`, and the `whole` line as it is.

    It is that `node` of the tree as it is walked, and gets the `other` operator or number.
    """

    path: Path
    line: int
    column: int
    old: str
    new: str
    whole: str
    node: int
    other: type[ast.operator] | str

    def made(self, text: str) -> str:
        """Text of the file with the change in it."""
        lines = text.splitlines(keepends=True)
        raw = lines[self.line - 1].encode()
        end = self.column + len(self.old.encode())
        assert raw[self.column : end].decode() == self.old, self
        lines[self.line - 1] = (raw[: self.column] + self.new.encode() + raw[end:]).decode()
        return "".join(lines)

    def __str__(self) -> str:
        """Say where it is, and the line as it was."""
        return f"{self.path}:{self.line}:{self.column} {self.old} -> {self.new}   | {self.whole}"


def left_out(tree: ast.AST) -> set[ast.AST]:
    """Numbers that count places rather than measure things, and texts."""
    out: set[ast.AST] = set()
    for node in ast.walk(tree):
        match node:
            case ast.Subscript():
                out |= set(ast.walk(node.slice))
            case ast.keyword(arg=str() as name) if name in LAYOUT:
                out |= set(ast.walk(node.value))
            case ast.Call(func=ast.Attribute(attr=name) | ast.Name(id=name)) if name in SHAPES:
                for given in node.args:
                    out |= set(ast.walk(given))
            case ast.JoinedStr():
                out |= set(ast.walk(node))
            case ast.FunctionDef() | ast.ClassDef():
                out |= {n for d in node.decorator_list for n in ast.walk(d)}
    return out


def larger(value: float) -> str:
    """Return a number a third larger, a whole one by at least one, a thousand for nought."""
    if isinstance(value, int):
        return str(max(value + 1, round(value * 4 / 3)))
    return repr(value * 4 / 3 if value else 1000.0)


def places(path: Path) -> Iterator[Change]:
    """Every change that can be made in a file."""
    text = (ROOT / path).read_text(encoding="utf-8")
    tree, lines = ast.parse(text), text.splitlines()
    out = left_out(tree)
    for number, node in enumerate(ast.walk(tree)):
        if node in out:
            continue
        if isinstance(node, ast.Constant) and type(node.value) in (int, float):
            old = ast.get_source_segment(text, node)
            if not 0 < abs(node.value) < SLACK:
                at = node.lineno, node.col_offset
                new, whole = larger(node.value), lines[at[0] - 1].strip()
                yield Change(path, *at, str(old), new, whole, number, new)
        elif isinstance(node, ast.BinOp) and type(node.op) in SIGNS:
            old, new, other = SIGNS[type(node.op)]
            place = node.left.end_lineno or 0, node.left.end_col_offset or 0
            found = sought(lines, place, old)
            if found:
                whole = lines[found[0] - 1].strip()
                yield Change(path, *found, old, new, whole, number, other)
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            at = node.lineno, node.col_offset
            yield Change(path, *at, "-", "+", lines[at[0] - 1].strip(), number, "+")
    for line, column, old, new, number, formula in in_formulas(text, larger):
        whole = lines[line - 1].strip()
        yield Change(path, line, column, old, new, whole, number, formula)


def sought(lines: list[str], after: tuple[int, int], sign: str) -> tuple[int, int] | None:
    """Line and column of the sign between two terms, past brackets and the end of a line."""
    line, column = after
    while line <= len(lines):
        rest = lines[line - 1].encode()[column:].decode()
        plain = rest.lstrip(" )")
        if plain.startswith(sign):
            return line, column + len(rest) - len(plain)
        if plain and not plain.startswith("#"):
            return None
        line, column = line + 1, 0
    return None


def naming(copy: Path, path: Path) -> list[str]:
    """Tests of the copy that name the module."""
    module = path.with_suffix("").as_posix().replace("/", ".")
    home, name = module.rsplit(".", 1)
    tests = [
        t for t in sorted((copy / "tests").rglob("test_*.py")) if "architecture" not in t.parts
    ]
    return [
        t.relative_to(copy).as_posix()
        for t in tests
        if module in (text := t.read_text(encoding="utf-8"))
        or any(
            home in line and name in line.split() for line in text.replace(",", " ").splitlines()
        )
    ]


def of_folder(copy: Path, path: Path) -> list[str]:
    """Tests of the module's folder, those first whose names share the most words with its path."""

    def words(of: Path) -> set[str]:
        return {w.removesuffix("s") for p in of.with_suffix("").parts[1:] for w in p.split("_")}

    tests = sorted((copy / "tests/unit" / path.parts[1]).rglob("test_*.py"))
    names = [t.relative_to(copy) for t in tests]
    names.sort(key=lambda t: -len(words(path) & words(t)))
    return [t.as_posix() for t in names]


def likeliest(copy: Path, path: Path) -> Iterator[list[str]]:
    """Tests to run on a changed module, likeliest and quickest first, each once."""
    named, folder = naming(copy, path), of_folder(copy, path)
    mine = [t for t in folder if t in named]
    quick = [t for t in named if t.startswith(("tests/unit", LAST))]
    ran: set[str] = set()
    for tests in (mine, folder, quick, named, [*REST[path.parts[1]], LAST]):
        yield [t for t in tests if t not in ran]
        ran.update(tests)


def tell(words: str) -> None:
    """Print at once."""
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def seen_by(copy: Path, tests: list[str], but: Iterable[str] = ()) -> str | None:
    """Name of the first test that fails, leaving some out, None where all pass."""
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", "--no-header"]
    try:
        done = subprocess.run(
            [*command, *tests, *(f"--deselect={name}" for name in but)],
            cwd=copy,
            env={**os.environ, "CI": "1"},
            capture_output=True,
            text=True,
            timeout=LONGEST,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return "no end"
    if done.returncode in (0, 5):
        return None
    told = re.search(r"^(FAILED|ERROR) [^\[\s]+(\[.*\](?= - |$))?", done.stdout, re.MULTILINE)
    return told[0] if told else done.stdout[-200:] or done.stderr[-200:]


def caught(copy: Path, change: Change, failing: set[str]) -> str | None:
    """Name of the test that sees a change, None where none does.

    Tests that fail without it as well are told, and left out from then on.
    """
    for tests in likeliest(copy, change.path):
        while tests and (by := seen_changed(copy, change, tests, failing)):
            test = by.partition(" ")[2]
            if "::" not in test or seen_by(copy, [test]) != by:
                return by
            tell(f"      {test} fails without any change")
            failing.add(test)
    return None


def seen_changed(copy: Path, change: Change, tests: list[str], but: set[str]) -> str | None:
    """Make a change in the copy, run the tests, take the change back."""
    file = copy / change.path
    before = file.read_text(encoding="utf-8")
    file.write_text(change.made(before), encoding="utf-8")
    try:
        return seen_by(copy, tests, but)
    finally:
        file.write_text(before, encoding="utf-8")


def effect_of(copy: Path, change: Change, now: dict[str, Any], racks: int) -> str:
    """Say what a change does to the answers that are worked out `now`."""
    file = copy / change.path
    text = file.read_text(encoding="utf-8")
    counting = watched(text, change.node, change.other)
    return told_effect(copy, file, change.made(text), counting, now, racks)


def main() -> int:
    """Change, test, tell."""
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--count", type=int, default=40)
    ask.add_argument("--skip", type=int, default=0, help="so many of them were run before")
    ask.add_argument("--in", dest="areas", nargs="+", default=AREAS)
    ask.add_argument("--racks", type=int, default=20, help="random racks to see effects on")
    ask.add_argument(
        "--at", help="only places of this file and line, FILE:LINE, whatever the seed"
    )
    ask.add_argument("--list", action="store_true", help="say what would be changed, run nothing")
    asked = ask.parse_args()
    paths = [p.relative_to(ROOT) for a in asked.areas for p in sorted((ROOT / a).rglob("*.py"))]
    every = [change for path in paths for change in places(path)]
    some = random.Random(asked.seed).sample(every, asked.count)[asked.skip :]
    if asked.at:
        some = [c for c in every if str(c).startswith(f"{asked.at}:")]
    if asked.list:
        tell("\n".join(map(str, some)))
        return 0
    escaped: list[Change] = []
    failing: set[str] = set()
    with tempfile.TemporaryDirectory() as made:
        copy = Path(made) / "tree"
        kept = ("frame", "tests", "cases", "pyproject.toml", "README.md", "DEVELOPERS.md")
        copy.mkdir()
        for name in kept:
            if (ROOT / name).is_dir():
                shutil.copytree(ROOT / name, copy / name)
            else:
                shutil.copy(ROOT / name, copy / name)
        for number, change in enumerate(some, asked.skip + 1):
            by = caught(copy, change, failing)
            escaped += [change] if by is None else []
            tell(f"{number:3} {change}\n      {'ESCAPED' if by is None else by}")
        tell(f"{len(some) - len(escaped)} of {len(some)} caught, of {len(every)} places")
        now = worked_out(copy, asked.racks)[0] if escaped and asked.racks else {}
        for change in escaped if asked.racks else []:
            tell(f"{change}\n      {effect_of(copy, change, now, asked.racks)}")
    return int(len(escaped) > len(some) / 10)


if __name__ == "__main__":
    sys.exit(main())
