"""Names of winds as the standard writes them, and words a builder uses."""

FRONT, BACK, LEFT, RIGHT, EVEN = "front", "back", "left", "right", "even"
CLEAR = "clear"

_FROM = {
    FRONT: "wind in the face",
    BACK: "wind from behind",
    LEFT: "wind along the beam from the left",
    RIGHT: "wind along the beam from the right",
}
_SHAPE = {
    (FRONT, "B"): "hardest at the low edge",
    (BACK, "B"): "hardest at the high edge",
    (LEFT, "A"): "lifting",
    (LEFT, "B"): "pressing",
    (RIGHT, "A"): "lifting",
    (RIGHT, "B"): "pressing",
}


def join(*parts: str) -> str:
    """Join the parts that are not empty with commas."""
    return ", ".join(p for p in parts if p)


def wind_name(direction: str, case: str, side: str, flow: str) -> str:
    """Return the name of a wind, such as "front, B, gust left"."""
    gust = "" if side == EVEN else f"gust {side}"
    return join(direction, case, gust, "" if flow == CLEAR else flow)


def wind_words(direction: str, case: str, side: str, flow: str) -> str:
    """Return the same in words, such as "wind in the face, gust on the left half"."""
    half = "" if side == EVEN else f"gust on the {side} half"
    under = "" if flow == CLEAR else "air blocked under the panels"
    return join(_FROM[direction], _SHAPE.get((direction, case), ""), half, under)
