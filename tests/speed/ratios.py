"""Whole commands timed in turn in one run, told as ratios; run by hand, never a pass or fail.

python tests/speed/ratios.py [PATH OF THE ENVIRONMENT'S bin FOLDER]
"""

import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
TILTS = (10, 15, 20, 25, 30, 35, 40)
BIN = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(sys.executable).parent
SHED = ROOT / "cases" / "boat_shed.toml"
RUNS = 7


def seven_tilts(folder: str) -> str:
    """Write the boat shed with seven tilts; the path of that file."""
    many = ", ".join(f'"{tilt} deg"' for tilt in TILTS)
    text, count = re.subn(r"(?m)^tilts = .*", f"tilts = [{many}]", SHED.read_text("utf-8"))
    assert count == 1
    path = Path(folder) / "seven_tilts.toml"
    path.write_text(text, "utf-8")
    return str(path)


def seconds(command: list[str]) -> float:
    """Wall time of a whole process [s]."""
    begun = time.perf_counter()
    subprocess.run([BIN / command[0], *command[1:]], capture_output=True, check=False, cwd=ROOT)
    return time.perf_counter() - begun


with tempfile.TemporaryDirectory() as folder:
    anastruct = ["python", "-c", "import anastruct"]
    for name, ours, theirs in (
        ("rack compare", ["rack", "compare", str(SHED)], anastruct),
        ("seven tilts", ["rack", "compare", seven_tilts(folder)], anastruct),
        ("rack --help", ["rack", "--help"], ["python", "-c", "import click"]),
    ):
        seconds(ours), seconds(theirs)
        pairs = [(seconds(ours), seconds(theirs)) for _ in range(RUNS)]
        mine, yours = (statistics.median(side) for side in zip(*pairs, strict=True))
        ratio = statistics.median(a / b for a, b in pairs)
        told = f"{mine:.2f} s, {ratio:.2f} times {' '.join(theirs)} ({yours:.2f} s)"
        print(f"{name}: {told}")  # noqa: T201
