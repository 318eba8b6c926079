"""Whole commands timed in turn in one run, told as ratios; run by hand, never a pass or fail.

python tests/speed/ratios.py [PATH OF THE ENVIRONMENT'S bin FOLDER]
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
BIN = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(sys.executable).parent
SHED = str(ROOT / "cases" / "boat_shed.toml")
RUNS = 7
PAIRS = (
    (["rack", "compare", SHED], ["python", "-c", "import anastruct"]),
    (["rack", "--help"], ["python", "-c", "import click"]),
)


def seconds(command: list[str]) -> float:
    """Wall time of a whole process [s]."""
    begun = time.perf_counter()
    subprocess.run([BIN / command[0], *command[1:]], capture_output=True, check=False, cwd=ROOT)
    return time.perf_counter() - begun


for ours, theirs in PAIRS:
    seconds(ours), seconds(theirs)
    pairs = [(seconds(ours), seconds(theirs)) for _ in range(RUNS)]
    mine, yours = (statistics.median(side) for side in zip(*pairs, strict=True))
    ratio = statistics.median(a / b for a, b in pairs)
    names = " ".join(ours[:2]), " ".join(theirs)
    print(f"{names[0]}: {mine:.2f} s, {ratio:.2f} times {names[1]} ({yours:.2f} s)")  # noqa: T201
