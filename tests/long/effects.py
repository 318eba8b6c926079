"""What a change of one place does to answers, for one that no test sees: see `mutations`.

Works out every check of the case files and of random racks, with the steps of both models, as the
package is and as changed. Answers that differ prove an effect. Answers alike prove none: it may be
that no rack here reaches the place. So it is watched too: how often it was worked out, and how
often it would have come to another number. What is left is for somebody to look at.
"""

import ast
import json
import math
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

COUNTS = {"on loading": 0, "worked out": 0, "otherwise": 0}
SMALL = 1e-9
"""Numbers below this are nought [SI]."""


def told(old: Callable[..., Any], new: Callable[..., Any], *terms: Any) -> Any:
    """Work out a watched place as it is, and count whether it would be otherwise if changed."""
    value = old(*terms)
    COUNTS["worked out"] += 1
    with np.errstate(all="ignore"):
        try:
            same = np.allclose(value, new(*terms), rtol=1e-9, atol=0.0, equal_nan=True)
        except (ArithmeticError, TypeError, ValueError):
            same = False
    COUNTS["otherwise"] += not same
    return value


class _Watch(ast.NodeTransformer):
    """Puts `told` round one place: `other` is the operator or the number it is changed into."""

    def __init__(self, place: ast.AST, other: type[ast.operator] | str) -> None:
        self.place, self.other = place, other

    def visit(self, node: ast.AST) -> Any:
        """Go down to the place."""
        if node is not self.place:
            return self.generic_visit(node)
        a, b = ast.Name("a"), ast.Name("b")
        terms: list[ast.expr] = []
        if isinstance(node, ast.BinOp) and not isinstance(self.other, str):
            terms = [node.left, node.right]
            ways = [ast.unparse(ast.BinOp(a, sign, b)) for sign in (node.op, self.other())]
        elif isinstance(node, ast.UnaryOp):
            terms, ways = [node.operand], ["-a", "+a"]
        else:
            ways = [ast.unparse(node), str(self.other)]
        given = ", ".join("ab"[: len(terms)])
        made = [ast.parse(f"lambda {given}: {way}", mode="eval").body for way in ways]
        return ast.Call(ast.Name("_told"), [*made, *terms], [])


def watched(text: str, place: int, other: type[ast.operator] | str) -> str:
    """Text of a module that counts what the change of one node of its tree would do."""
    tree = ast.parse(text)
    node = list(ast.walk(tree))[place]
    tree = _Watch(node, other).visit(tree)
    tree.body[1:1] = ast.parse("from tests.long.effects import told as _told").body
    return ast.unparse(ast.fix_missing_locations(tree))


def answers(folder: Path, racks: int) -> dict[str, Any]:
    """Every check of the case files and of so many random racks, bare and with all fitted."""
    from frame.api import check, plain, read_rack
    from tests.random_racks import random_file

    files = sorted(Path("cases").glob("*.toml"))
    for seed in range(racks):
        files.append(folder / f"random {seed}.toml")
        files[-1].write_text(random_file(seed)[0], encoding="utf-8")
    out: dict[str, Any] = {}
    for file in files:
        for bracing in ("bare", ", ".join(read_rack(file).bracing_names)):
            name = f"{file.stem}, {bracing}"
            try:
                out[name] = plain(check(file, bracing or "bare"))
            except Exception as wrong:  # noqa: BLE001 - a change that breaks a rack is seen
                out[name] = repr(wrong)
    return out


def worked_out(copy: Path, racks: int) -> tuple[dict[str, Any], dict[str, int]]:
    """Answers and counts of the package as it stands in a copy of the tree."""
    command = [sys.executable, "-m", "tests.long.effects", str(copy.parent), str(racks)]
    done = subprocess.run(command, cwd=copy, capture_output=True, text=True, check=False)
    if done.returncode:
        return {"": done.stderr[-300:]}, {}
    found, counts = json.loads(done.stdout)
    return found, counts


def apart(one: Any, other: Any) -> float:
    """Largest difference of two answers, as a share [1]; infinite where they say other things."""
    match one, other:
        case dict(), dict() if one.keys() == other.keys():
            return max((apart(one[key], other[key]) for key in one), default=0.0)
        case list(), list() if len(one) == len(other):
            return max(map(apart, one, other), default=0.0)
        case ((int() | float()), (int() | float())):
            return abs(one - other) / max(abs(one), abs(other), SMALL)
    return 0.0 if one == other else math.inf


def told_effect(
    copy: Path, file: Path, changed: str, counting: str, now: dict[str, Any], racks: int
) -> str:
    """Say what a change of a file of the copy does to the answers that are worked out `now`."""
    before = file.read_text(encoding="utf-8")
    try:
        file.write_text(counting, encoding="utf-8")
        _, counts = worked_out(copy, racks)
        if counts and not counts["on loading"]:
            if not counts["worked out"]:
                return "no rack here works it out: look"
            if not counts["otherwise"]:
                return f"the same number {counts['worked out']} times, whatever the rack: look"
        file.write_text(changed, encoding="utf-8")
        after, _ = worked_out(copy, racks)
    finally:
        file.write_text(before, encoding="utf-8")
    shares = {name: apart(answer, after.get(name)) for name, answer in now.items()}
    most = max(shares, key=shares.__getitem__)
    if not shares[most]:
        return "another number, but no answer changes: look"
    many = sum(share > 0 for share in shares.values())
    return f"answers change, {many} of {len(now)}; most by {shares[most]:.2g}, {most}"


def main(folder: str, racks: str) -> None:
    """Work out and print."""
    import frame.api  # noqa: F401 - what is worked out on loading doesn't count
    from tests.long import effects

    effects.COUNTS.update({"on loading": effects.COUNTS["worked out"], "worked out": 0})
    effects.COUNTS["otherwise"] = 0
    found = answers(Path(folder), int(racks))
    json.dump([found, effects.COUNTS], sys.stdout, default=str)


if __name__ == "__main__":
    main(*sys.argv[1:])
