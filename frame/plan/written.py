"""Changes of a plan written into the rack file that it started from."""

from collections.abc import Sequence

from frame.casefile.read import parse_rack
from frame.casefile.write import Value, Where, edited
from frame.plan.offers import Offer, guys_by_section
from frame.plan.standing import Standing
from frame.rack.rack import KNEES, STAYS, TIES, Rack
from frame.solved.frames import Bracing


def on_what_is_there(one: Offer, rack: Rack, fitted: Sequence[str]) -> bool:
    """Whether a change is of something that the rack has with that bracing fitted."""
    bracing = {KNEES: KNEES, TIES: TIES, STAYS: STAYS, **guys_by_section(rack)}
    return all(bracing.get(section, "") in ("", *fitted) for section, _ in one.edits)


def written(start: Standing, made: Sequence[Offer], name: str) -> tuple[str, Rack, Bracing]:
    """Return the file with changes made, its rack, and the bracing fitted.

    Raises
    ------
    FrameError
        Where such a rack cannot be built.
    """
    edits: dict[Where, Value] = {}
    for one in made:
        edits.update(one.edits)
    text = edited(start.text, edits) if edits else start.text
    rack = parse_rack(text, name)
    fitted = {*start.bracing, *(one for o in made for one in o.fits)}
    return text, rack, tuple(b for b in rack.bracing_names if b in fitted)
