"""The commented starter file that `rack new` writes."""

from importlib import resources
from pathlib import Path

from frame.errors import InputError, Problem


def starter_text() -> str:
    """Return a valid rack file that explains every key."""
    return (resources.files("frame.casefile") / "starter.toml").read_text(encoding="utf-8")


def write_starter(path: Path, *, force: bool = False) -> None:
    """Write the starter to `path`; never over a file unless `force`."""
    try:
        with path.open("w" if force else "x", encoding="utf-8", newline="\n") as file:
            file.write(starter_text())
    except FileExistsError:
        what, right = "exists already", "choose another name, or add --force to write over it"
        raise InputError((Problem(str(path), what, right),)) from None
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or "the name cannot be used").lower()
        right = "choose a file in a folder that exists and that you may write to"
        problem = Problem(str(path), f"cannot be written ({reason})", right)
        raise InputError((problem,)) from None
