"""Kinds of fittings in a guy, the words before the comma of their names in the table."""

TURNBUCKLE, EYE_BOLT = "turnbuckle", "eye bolt"


def kind_of(fitting: str) -> str:
    """Return the kind of a fitting by its name: "turnbuckle" of "turnbuckle, hook"."""
    return fitting.partition(",")[0]
