"""Bracing named by whoever asks, found among what a rack file describes."""

from frame.errors import InputError, Problem
from frame.rack.rack import BARE, Rack


def bracing_of(names: str, rack: Rack) -> tuple[str, ...]:
    """Return the bracing that `names`, joined by commas or pluses, stand for.

    Raises
    ------
    InputError
        For a name the rack is not described with.
    """
    asked = [name.strip().lower() for name in names.replace("+", ",").split(",")]
    if asked == [BARE]:
        return ()
    known = {name.lower(): name for name in rack.bracing_names}
    right = f'write "{BARE}"'
    if known:
        right += f", or one or more of {', '.join(known.values())}, joined by commas"
    problems = []
    for name in asked:
        if name == BARE:
            problems.append(Problem("--bracing", f'"{BARE}" stands alone', right))
        elif name not in known:
            problems.append(Problem("--bracing", f'"{name}" is not described in the file', right))
    if problems:
        raise InputError(tuple(problems))
    return tuple(name for name in rack.bracing_names if name.lower() in asked)
