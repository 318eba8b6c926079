"""Can the bracing be built? Knees that fit under the beam, guys and stays that run down."""

import math

from frame.casefile.notes import Notes
from frame.rack.brace import Stays
from frame.rack.guy import POST_TOP, RAIL_CORNERS, Guys
from frame.rack.rack import Rack

STEEP = 0.5
"""Run over height under which a guy is called steep: common practice, no source."""


def check_bracing(rack: Rack, notes: Notes) -> None:
    """Note all bracing that cannot be fitted as described."""
    check_knees(rack, notes)
    for number, group in enumerate(rack.guys, 1):
        check_line(rack, notes, f"guys[{number}]" if len(rack.guys) > 1 else "guys", group)
    if rack.stays:
        check_line(rack, notes, "stays", rack.stays)


def check_knees(rack: Rack, notes: Notes) -> None:
    """Check that knees run from below the sleeve to the beam within its arms."""
    knees = rack.knees
    if knees is None:
        return
    height, sleeve = rack.posts.height, rack.sleeve.length + rack.beam.pipe.od / 2
    drop = notes.show(knees.drop)
    if knees.drop >= height:
        right = f"the post is {notes.show(height)} high to the beam's centre line"
        notes.wrong("knees.drop", f"{drop} is longer than the post", right)
    elif knees.drop <= sleeve and (sleeve < height or math.isnan(height)):
        right = f"give more than {notes.show(sleeve)}, where the sleeve ends"
        notes.wrong("knees.drop", f"at {drop} the knee lands on the sleeve", right)
    arm = min(rack.arms)
    if 0 < arm < knees.reach:
        what = f"{notes.show(knees.reach)} is beyond the beam's end"
        notes.wrong("knees.reach", what, f"the arm of the beam is {notes.show(arm)}")
    if knees.reach <= (rack.posts.pipe.od + knees.pipe.od) / 2:
        what = f"{notes.show(knees.reach)} does not clear the post"
        notes.wrong("knees.reach", what, f"the post is {notes.show(rack.posts.pipe.od)} thick")
    posts = rack.posts.positions
    if len(posts) > 1 and knees.reach > (posts[1] - posts[0]) / 2:
        right = f"give at most {notes.show((posts[1] - posts[0]) / 2)}, half the post spacing"
        notes.wrong("knees.reach", "makes the braces of two posts cross", right)


def check_line(rack: Rack, notes: Notes, where: str, line: Guys | Stays) -> None:
    """Check that a guy or stay runs outward and down from its attachment."""
    rise = line.rise if isinstance(line, Guys) else 0.0
    node = lowest_node(rack, line.attach)
    if 0 < node <= rise:
        what = f"the anchor, {notes.show(rise)} above grade, is above the {line.attach}"
        right = f"the lowest of them is {notes.show(node)} above grade: a guy must run down"
        notes.wrong(f"{where}.rise", what, right)
    if line.attach == POST_TOP and line.along == 0 and isinstance(line, Guys):
        right = "guys go towards four corners: about as far along the beam as across"
        notes.wrong(f"{where}.along", "zero puts two guys in one line", right)
    run = math.hypot(line.out, line.along)
    if isinstance(line, Guys) and run < STEEP * (node - rise):
        notes.warn(
            f"The guys from the {line.attach} stand {notes.show(run)} out for "
            f"{notes.show(node - rise)} of height: steep guys pull hard on anchors and post."
        )
    if rise < -rack.posts.height * 3:
        right = "measure down from grade at the post"
        notes.wrong(f"{where}.rise", f"{notes.show(-rise)} below grade is a cliff", right)


def lowest_node(rack: Rack, attach: str) -> float:
    """Height above grade [m] of the lowest attachment of a kind, over all tilts."""
    if attach == POST_TOP:
        return rack.posts.height - rack.beam.pipe.od / 2 - rack.sleeve.length
    if attach != RAIL_CORNERS:
        return rack.posts.height
    half = rack.rails.length / 2
    corners = [
        rack.posts.height + rack.stand_off * math.cos(t) - half * math.sin(t) for t in rack.tilts
    ]
    return min(corners, default=rack.posts.height)
