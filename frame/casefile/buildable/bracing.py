"""Can the bracing be built? Knees that fit under the beam, guys and stays that run down."""

import math

from frame.casefile.notes import Notes
from frame.rack.brace import Knees, Stays
from frame.rack.guy import POST_TOP, RAIL_CORNERS, Guys
from frame.rack.knee_foot import least_drop, on_sleeve, sleeve_foot
from frame.rack.rack import Rack
from frame.units import INCH, METRIC, MM

NEARLY = 1e-4
"""Part of a step of the tape that a drop may be short of what is right [1]."""
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
    height, through = rack.posts.height, (rack.posts.pipe.od + knees.pipe.od) / 2
    if knees.drop >= height:
        right = f"the post is {notes.show(height)} high to the beam's centre line"
        notes.wrong("knees.drop", f"{notes.show(knees.drop)} is longer than the post", right)
    elif knees.reach > through and (sleeve_foot(rack) < height or math.isnan(height)):
        _check_seat(rack, knees, notes)
    arm = min(rack.arms)
    if 0 < arm < knees.reach:
        what = f"{notes.show(knees.reach)} is beyond the beam's end"
        notes.wrong("knees.reach", what, f"the arm of the beam is {notes.show(arm)}")
    if knees.reach <= through:
        what = f"{notes.show(knees.reach)} does not clear the post"
        notes.wrong("knees.reach", what, f"the post is {notes.show(rack.posts.pipe.od)} thick")
    posts = rack.posts.positions
    if len(posts) > 1 and knees.reach > (posts[1] - posts[0]) / 2:
        right = f"give at most {notes.show((posts[1] - posts[0]) / 2)}, half the post spacing"
        notes.wrong("knees.reach", "makes the braces of two posts cross", right)


def _check_seat(rack: Rack, knees: Knees, notes: Notes) -> None:
    """Check that knees meet the post under the sleeve, with room for their weld."""
    if not on_sleeve(rack, knees):
        return
    step = MM if notes.system == METRIC else INCH / 16
    least, foot = least_drop(rack, knees), notes.show(sleeve_foot(rack))
    what = f"at {notes.show(knees.drop)} the knee lands on the sleeve, which ends {foot} down"
    reach = notes.show(knees.reach)
    right = f"at a reach of {reach} no drop clears it: give more reach, or a shorter sleeve"
    if math.isfinite(least) and not least + step >= rack.posts.height:
        drop = notes.show(math.ceil(least / step - NEARLY) * step)
        right = f"give at least {drop}: it meets the post higher than their centre lines cross"
    notes.wrong("knees.drop", what, right)


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
        return rack.posts.height - sleeve_foot(rack)
    if attach != RAIL_CORNERS:
        return rack.posts.height
    half = rack.rails.length / 2
    corners = [
        rack.posts.height + rack.stand_off * math.cos(t) - half * math.sin(t) for t in rack.tilts
    ]
    return min(corners, default=rack.posts.height)
