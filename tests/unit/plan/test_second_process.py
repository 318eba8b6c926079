"""The second process: it works, and it ends with the one that it works for."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from frame.plan.second_process import second_process

LONGEST = 10.0
HANGS = """
import os, signal
from frame.plan.second_process import second_process
with second_process(2) as worker:
    print(worker.submit(os.getpid).result(), flush=True)
    signal.pause()
"""

only_linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="forks on Linux only")


@only_linux
def test_it_works_in_another_process() -> None:
    with second_process(2) as worker:
        assert worker is not None
        assert worker.submit(os.getpid).result() != os.getpid()
    with second_process(1) as none:
        assert none is None


@only_linux
def test_it_ends_with_a_parent_that_is_killed() -> None:
    with subprocess.Popen([sys.executable, "-c", HANGS], stdout=subprocess.PIPE, text=True) as run:
        assert run.stdout is not None
        worker = int(run.stdout.readline())
        run.send_signal(signal.SIGKILL)
    end = time.monotonic() + LONGEST
    while _lives(worker) and time.monotonic() < end:
        time.sleep(0.02)
    assert not _lives(worker)


def _lives(process: int) -> bool:
    """Whether a process is there and not only its name, left for its new parent to read."""
    try:
        stat = Path(f"/proc/{process}/stat").read_text()
    except FileNotFoundError:
        return False
    return stat.rsplit(")", 1)[1].split()[0] != "Z"
