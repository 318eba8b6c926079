"""Whether a movement still means anything at the gust it is told for."""

from frame.records.going import Going
from frame.records.motion import Sway

TOPPLES, BROKEN = "topples", "broken"


def gone(sway: Sway, first_break: Going | None, height: float) -> str:
    """Say why a movement means nothing, "topples" or "broken"; empty where it does.

    It sways over, or farther than the post's `height` [m]; or a part breaks at no higher gust.
    """
    if sway.topples or sway.top > height:
        return TOPPLES
    broken = first_break is not None and first_break.gust <= sway.gust
    return BROKEN if broken else ""
