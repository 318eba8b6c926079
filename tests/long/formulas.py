"""Numbers and signs in the text of formulas, which the mutations change like any others."""

import ast
import re
from collections.abc import Callable, Iterator

OTHER = {" + ": " - ", " - ": " + ", "*": "/", "/": "*"}
PLACE = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])| [+-] |[*/]")
EQUATION = r"[A-Z]+[0-9]*(?:\.\w+)?-[0-9]+\w?"
UNIT = re.compile(rf"(?:N|Pa|1|m)/(?:m[234]?|s)|{EQUATION}(?:, {EQUATION})*")
"""Units and equations of a standard ("N/m", "F11-1", "J4-1, J4-2") that read like formulas."""
Found = tuple[int, int, str, str, int, str]
"""Line, column, the text there and what it becomes; which node of the tree, and what that does."""


def in_formulas(text: str, larger: Callable[[float], str]) -> Iterator[Found]:
    """Find every place of a module's formulas, those written on one line; no `name` is one."""
    lines, tree = text.splitlines(), ast.parse(text)
    pieces = [n.values for n in ast.walk(tree) if isinstance(n, ast.JoinedStr)]
    inside = {id(piece) for some in pieces for piece in some}
    inside |= {
        id(n.value) for n in ast.walk(tree) if isinstance(n, ast.keyword) and n.arg == "name"
    }
    for number, node in enumerate(ast.walk(tree)):
        if id(node) in inside or not (
            isinstance(node, ast.Constant | ast.JoinedStr) and node.lineno == node.end_lineno
        ):
            continue
        raw = lines[node.lineno - 1].encode()
        written = raw[node.col_offset : node.end_col_offset].decode()
        plain = re.sub(r"\{[^{}]*\}", lambda m: "y" * len(m[0]), written)
        if not is_formula(plain.removeprefix("f").strip('"')):
            continue
        for found in PLACE.finditer(plain):
            old = found[0]
            new = OTHER.get(old) or larger(float(old) if "." in old else int(old))
            column = node.col_offset + len(plain[: found.start()].encode())
            whole = f"{written[: found.start()]}{new}{written[found.end() :]}"
            yield node.lineno, column, old, new, number, whole


def is_formula(text: str) -> bool:
    """Whether a text can be worked out, has a sign in it and is no unit."""
    try:
        tree = ast.parse(text.replace("^", "**"), mode="eval")
    except SyntaxError:
        return False
    signs = [n for n in ast.walk(tree) if isinstance(n, ast.BinOp)]
    return bool(signs) and not UNIT.fullmatch(text)
