"""Steps in the order a builder works in: no work is put into a part that is replaced later."""

from collections.abc import Sequence
from dataclasses import replace

from frame.changes.offered_fastenings import hung
from frame.plan.offers import Changes, Offer, offers
from frame.plan.standing import Standing
from frame.rack.guy import BEAM_ENDS, POST_TOP, RAIL_CORNERS
from frame.rack.rack import KNEES, STAYS, TIES, Rack

POST, BEAM, SLEEVE, RAILS, WELDS = "post", "beam", "sleeve", "rails", "welds"
NEW_PIPE = {"pipe", "steel"}
NEW_SLEEVE = {"length", "wall", "steel"}
OF_THE_SLEEVE = NEW_SLEEVE | {"play"}
NEW_RAILS = {"channel", "marked", "count", "positions"}
OF_LUGS = {"lug_length", "lug_plate", "lug_bolt"}
"""Keys of the file: what makes a part a new one or puts it elsewhere, what is of a sleeve and not
of its lock, what of the welds is of the lugs."""


def replaced(made: Sequence[Offer], stands: bool) -> frozenset[str]:
    """Name the parts that changes replace: a sleeve is made for its post, rails go elsewhere.

    A rack that `stands` already gets a longer post to be set deeper.
    """
    new = {BEAM: NEW_PIPE, SLEEVE: NEW_SLEEVE, RAILS: NEW_RAILS}
    found = set[str]()
    for section, key in (where for one in made for where in one.edits):
        if section == POST and key in NEW_PIPE:
            found |= {POST, SLEEVE}
        elif key in new.get(section, ()) or (section == POST and key == "depth" and stands):
            found.add(section)
    return frozenset(found)


def worked_on(made: Sequence[Offer], rack: Rack) -> frozenset[str]:
    """Name the parts that changes drill, weld to, clamp round or fill: lost with those parts.

    Guys and stays come off with what they hold on to, rails with the beam they hang on; stops and
    U-bolts sit where the rails are.
    """
    ends = {POST_TOP: {POST}, BEAM_ENDS: {BEAM}, RAIL_CORNERS: {RAILS}}
    held = {
        KNEES: {POST, BEAM},
        TIES: {RAILS},
        **{g.name: ends.get(g.attach, set()) for g in rack.guys},
    }
    if rack.stays:
        held[STAYS] = ends.get(rack.stays.attach, set())
    found = set[str]()
    for one in made:
        found |= {part for name in one.fits for part in held.get(name, ())}
        for section, key in one.edits:
            if section == SLEEVE:
                found |= {POST} if key in NEW_SLEEVE else {POST, SLEEVE}
            elif section == RAILS:
                found |= {BEAM} if key in NEW_RAILS else {BEAM, RAILS}
            elif section in (KNEES, STAYS):
                found |= held[section]
            elif section == WELDS and key in OF_LUGS:
                found |= {part for name in hung(rack, rack.bracing_names) for part in held[name]}
            elif section == WELDS:
                found |= {POST, BEAM, SLEEVE}
            elif section == BEAM and key not in NEW_PIPE:
                found.add(BEAM)
    return frozenset(found)


def in_order(groups: Sequence[Changes], rack: Rack) -> list[Changes]:
    """Put what is done to a part right after the last step that replaces it.

    All else stays in its order. A sleeve of another size is made with a new post.
    """
    waiting = list(_sleeve_with_post(groups))
    found: list[Changes] = []
    while waiting:
        first = next(
            i
            for i in range(len(waiting))
            if not replaced_later(waiting[i], waiting[i + 1 :], rack)
        )
        found.append(waiting.pop(first))
    return found


def small_enough(made: Changes) -> bool:
    """Whether changes are small enough to be made twice: a pin, or set bolts."""
    where = [each for one in made for each in one.edits]
    return bool(where) and all(s == SLEEVE and key not in OF_THE_SLEEVE for s, key in where)


def replaced_later(made: Changes, later: Sequence[Changes], rack: Rack) -> bool:
    """Whether what changes are made to is replaced by later ones."""
    return any(worked_on(made, rack) & replaced(other, rack.stands) for other in later)


def _sleeve_with_post(groups: Sequence[Changes]) -> list[Changes]:
    """Tell the size of the sleeve with the post it is made for."""
    new = [replaced(made, stands=False) for made in groups]
    post = next((i for i, parts in enumerate(new) if {POST, SLEEVE} <= parts), None)
    sleeves = [i for i, made in enumerate(groups) if new[i] and _of_sleeve(made)]
    if post is None:
        return list(groups)
    whole = (*groups[post], *(one for i in sleeves for one in groups[i]))
    return [whole if i == post else made for i, made in enumerate(groups) if i not in sleeves]


def _of_sleeve(made: Changes) -> bool:
    return all({section for section, _ in one.edits} == {SLEEVE} for one in made)


def reworded(one: Offer, now: Standing) -> Offer:
    """Tell a change as it is told of the rack it is made to now."""
    for sizes in offers(now.rack, now.bracing, now.text, every=True):
        for other in sizes:
            if one.edits and other.edits == one.edits and other.helps == one.helps:
                return replace(one, do=other.do, again=other.again)
    return one
