"""The tree is the architecture: imports only go down."""

import ast
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from tests.architecture.sources import tree_of

pytestmark = pytest.mark.xdist_group("architecture")
PACKAGE = Path(__file__).parents[2] / "frame"
LAYERS = (
    {"__main__"},
    {"cli", "api"},
    {"page"},
    {"report", "draw"},
    {"shop", "pictured"},
    {"diagnosis"},
    {"plan"},
    {"sizing"},
    {"verdict"},
    {"whatif"},
    {"changes"},
    {"bracing"},
    {"search"},
    {"parts"},
    {"solved"},
    {"records"},
    {"checks"},
    {"idealize"},
    {"casefile", "loads"},
    {"rack", "fem"},
    {"tables", "geometry"},
    {"named"},
    {"units"},
    {"errors"},
)
LEVEL = {name: depth for depth, names in enumerate(LAYERS) for name in names}
FILES = sorted(PACKAGE.rglob("*.py"))
FOLDERS = sorted({p.parent for p in FILES})
FENCED = {"anastruct": {"fem/plane/system.py"}, "click": {"cli"}, "matplotlib": {"draw"}}


def part(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@cache
def imports(path: Path) -> tuple[tuple[int, str], ...]:
    """Walk the whole tree of the file, so lazy and type-only imports count too."""
    found: list[tuple[int, str]] = []
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            found += ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno}: relative import"
            found += ((node.lineno, f"{node.module}.{alias.name}") for alias in node.names)
    return tuple(found)


def test_every_part_has_a_layer() -> None:
    assert {part(p) for p in FILES} - {"__init__"} <= set(LEVEL)


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_imports_only_go_down(path: Path) -> None:
    me = part(path)
    wrong = []
    for line, name in imports(path):
        root, _, rest = name.partition(".")
        other = rest.split(".")[0]
        inside = root == "frame" and other in LEVEL and me not in ("__init__", other)
        if inside and LEVEL[other] <= LEVEL[me]:
            wrong.append(f"{path}:{line}: {me} imports {other}")
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("library", FENCED)
def test_fenced_libraries_stay_in_their_place(library: str) -> None:
    places = FENCED[library]
    for path in FILES:
        where = path.relative_to(PACKAGE).as_posix()
        if any(where == place or where.startswith(f"{place}/") for place in places):
            continue
        found = [line for line, name in imports(path) if name.split(".")[0] == library]
        assert not found, f"{where}:{found}: imports {library}"


def test_nothing_imports_pyplot() -> None:
    for path in FILES:
        assert not [n for _, n in imports(path) if n.startswith("matplotlib.pyplot")], path


def inside(folder: Path) -> dict[str, set[str]]:
    """What each folder and file of a folder imports of its neighbours there."""
    home = ".".join(("frame", *folder.relative_to(PACKAGE).parts))
    found: dict[str, set[str]] = {}
    for path in folder.rglob("*.py"):
        me = path.relative_to(folder).parts[0].removesuffix(".py")
        if me == "__init__":
            continue
        mine = found.setdefault(me, set())
        for _, name in imports(path):
            if name.startswith(f"{home}."):
                mine.add(name.removeprefix(f"{home}.").split(".")[0])
    return {me: (others - {me}) & found.keys() for me, others in found.items()}


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_nothing_goes_round_inside_a_folder(folder: Path) -> None:
    """Files and folders of one folder have an order too: each imports only those below it."""
    TopologicalSorter(inside(folder)).prepare()
