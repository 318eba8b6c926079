"""Write a set of files whole or not at all, over nothing unless asked."""

import os
import shutil
import tempfile
from contextlib import suppress
from pathlib import Path

from frame.errors import InputError, Problem

LIST = "shop.json"
"""The file by which an earlier set is known."""


def refuse_to_overwrite(folder: Path) -> None:
    """Stop where the folder holds an earlier set.

    Raises
    ------
    InputError
        Where it does, or where the folder is a file.
    """
    _no_file(folder)
    if (folder / LIST).exists():
        what = f"{folder} holds a set already"
        raise InputError((Problem("--out", what, "name another folder, or add --overwrite"),))


def write_set(folder: Path, files: dict[str, bytes], *, overwrite: bool) -> None:
    """Write files by name into a folder: all of them, or none and everything as it was.

    Raises
    ------
    InputError
        Where one of them is there already and is not to be replaced, or cannot be written.
    """
    _no_file(folder)
    there = sorted(name for name in files if (folder / name).exists())
    if there and not overwrite:
        what = f"{folder} holds {', '.join(there)} already"
        raise InputError((Problem("--out", what, "name another folder, or add --overwrite"),))
    stage: Path | None = None
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        stage = Path(tempfile.mkdtemp(prefix=f".{folder.name}-", dir=folder.parent))
        fresh, old = stage / "new", stage / "old"
        fresh.mkdir()
        old.mkdir()
        for name, content in files.items():
            (fresh / name).write_bytes(content)
        _put(fresh, old, folder, files)
    except OSError as error:
        raise InputError(f"{folder}: cannot be written ({error.strerror})") from None
    finally:
        if stage is not None:
            shutil.rmtree(stage, ignore_errors=True)


def _put(fresh: Path, old: Path, folder: Path, files: dict[str, bytes]) -> None:
    """Move the files in; if one of them fails, move back all that were."""
    if not folder.exists():
        fresh.chmod(0o777 & ~_mask())
        fresh.rename(folder)
        return
    moved: list[str] = []
    try:
        for name in files:
            if (folder / name).exists():
                (folder / name).rename(old / name)
            moved.append(name)
            (fresh / name).rename(folder / name)
    except OSError:
        for name in moved:
            with suppress(OSError):
                (folder / name).unlink(missing_ok=True)
            with suppress(OSError):
                (old / name).rename(folder / name)
        raise


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _no_file(folder: Path) -> None:
    if folder.exists() and not folder.is_dir():
        raise InputError((Problem("--out", f"{folder} is a file", "name a folder"),))
