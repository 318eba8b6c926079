"""Words for things to buy."""

from frame.rack.guy import BLOCK, DEADMAN, PICKETS, ROCK, SCREW, Guys
from frame.units import show

SLEEVE_STOCK = "sleeve stock"


def grade_words() -> str:
    """Say which bolts are meant: the checks count rods without a mark as mild steel."""
    return "mild steel counted; ASTM A307 or better where it is marked"


def anchor_words(group: Guys, system: str) -> str:
    """Say what an anchor is, as far as the file describes it."""
    hold = group.hold

    def said(value: float) -> str:
        return show(value, "length", system)

    if hold.tested:
        return f"{group.anchor} like the one that was tested"
    words = {
        DEADMAN: f"deadman, face {said(hold.height)} x {said(hold.length)}, middle "
        f"{said(hold.depth)} deep",
        BLOCK: f"concrete block of {show(hold.weight, 'weight', system)}",
        SCREW: f"screw anchor, helix {said(hold.size)}",
        PICKETS: f"pickets {hold.holdfast}",
        ROCK: f"eye grouted in a {said(hold.size)} hole, {said(hold.length)} deep",
    }
    return words[group.anchor]
