"""What a rack stands at the flattest tilt its file lists: what lowering the panels gains."""

from collections.abc import Sequence

from frame.rack.rack import Rack
from frame.records.what_if import Lowered
from frame.search.survived import Learned
from frame.search.weakest import weakest
from frame.solved.blocks import Block, solved_models, split
from frame.whatif.tilts import COVERED, SAME_TILT, holds_one_tilt


def lowered(
    rack: Rack, bracing: tuple[str, ...], learned: Learned, found: Sequence[Block] = ()
) -> Lowered | None:
    """Find the act-by gust at the flattest tilt of the file; None if there is none to lower to.

    Tilts flatter than a static answer covers do not count. `found`: the blocks of the bracing,
    if at hand; `learned` of what the rack has stood.
    """
    covered = [t for t in rack.tilts if t >= COVERED[0] - SAME_TILT / 10]
    if not covered or min(covered) > max(rack.tilts) - SAME_TILT:
        return None
    tilt = min(covered)
    there = [b for b in found if b.median and b.frame.ideal.tilt == tilt]
    if not there:
        _, there = map(list, split(solved_models(rack, bracing, [tilt])))
    act_by = weakest(there, learned).act_by
    return Lowered(
        tilt=tilt,
        act_by_gust=act_by.low if act_by else None,
        rigged_anew=holds_one_tilt(rack, bracing),
    )
