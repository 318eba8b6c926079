"""Words for things to buy."""

from frame.rack.guy import BLOCK, DEADMAN, PICKETS, ROCK, SCREW, Guys
from frame.units import KSI, show

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


def eye_words(group: Guys) -> str:
    """Say what brings a buried log up to the guy; empty for other anchors."""
    if group.anchor != DEADMAN or group.hold.tested:
        return ""
    return (
        "with a rod from its middle to an eye over the ground, as strong as the guy, painted; how "
        "long and where: with the stakes"
    )


def rod_words(electrode: float) -> str:
    """Name the rod of a strength [Pa]."""
    return "E7018, dry" if electrode >= 70 * KSI * (1 - 1e-6) else "E6010 or E6011"
