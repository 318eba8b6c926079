"""Can it be built? Geometry that contradicts itself is an error, what is doubtful a warning.

Every comparison is written so that NaN, which stands for a value already reported, is silent.
"""

from frame.casefile.buildable.bracing import check_bracing
from frame.casefile.buildable.panels import SLACK, check_panels, other_way, overhang
from frame.casefile.notes import Notes
from frame.rack.rack import Rack
from frame.rack.sleeve import Pin
from frame.units import parse

STEEPEST, STEEPEST_COVERED, FLATTEST_COVERED = "60 deg", "45 deg", "8 deg"
LEAST_MAP_GUST = "85 mph"


def check_rack(rack: Rack, notes: Notes) -> None:
    """Note everything about the rack that cannot be, or that an answer must be read with."""
    check_wind(rack, notes)
    check_tilts(rack, notes)
    check_posts(rack, notes)
    check_sleeve(rack, notes)
    check_rails(rack, notes)
    check_panels(rack, notes)
    check_bracing(rack, notes)


def check_wind(rack: Rack, notes: Notes) -> None:
    """Warn of a map gust lower than the maps show."""
    gust = rack.site.map_gust
    if gust < parse(LEAST_MAP_GUST, "speed"):
        least = notes.show(parse(LEAST_MAP_GUST, "speed"), "speed")
        notes.warn(
            f"The map gust of {notes.show(gust, 'speed')} is below {least}: lower than the code's "
            "maps go. Use the 3-second gust mapped for the site, not the worst wind remembered."
        )
    if rack.site.service_gust > gust:
        right = f"give at most the map gust, {notes.show(gust, 'speed')}"
        notes.wrong("site.service_gust", "is above the map gust", right)


def check_tilts(rack: Rack, notes: Notes) -> None:
    """Check that tilts lie between flat and 60 degrees, each once."""
    if not rack.tilts:
        notes.wrong("tilts", "is empty", 'list the tilts in use, as ["15 deg", "35 deg"]')
    if len(rack.tilts) > 20:
        notes.wrong("tilts", f"lists {len(rack.tilts)} tilts", "list at most 20")
    for number, tilt in enumerate(rack.tilts, 1):
        shown = notes.show(tilt, "angle")
        if tilt < 0 or tilt > parse(STEEPEST, "angle") + SLACK:
            right = f"give a tilt from 0 deg (flat) to {STEEPEST}"
            notes.wrong(f"tilts[{number}]", f"{shown} is out of range", right)
        elif tilt > parse(STEEPEST_COVERED, "angle") + SLACK:
            notes.warn(f"Tilt {shown} is over {STEEPEST_COVERED}: not covered by the wind tables.")
        elif tilt < parse(FLATTEST_COVERED, "angle") - SLACK:
            notes.warn(
                f"Tilt {shown} is under {FLATTEST_COVERED}: near flat, panels can flutter, which "
                "no answer here covers."
            )
        if any(abs(tilt - other) < 1e-6 for other in rack.tilts[: number - 1]):
            notes.wrong(f"tilts[{number}]", f"{shown} is listed twice", "list each tilt once")


def check_posts(rack: Rack, notes: Notes) -> None:
    """Check that the posts stand under the beam, in a hole that takes them."""
    posts, footing = rack.posts, rack.posts.footing
    if posts.pipe.od > footing.hole:
        what = f"{notes.show(footing.hole)} is smaller than the post"
        notes.wrong("post.hole", what, f"the post is {notes.show(posts.pipe.od)} thick")
    if footing.ignored >= footing.depth:
        what = f"{notes.show(footing.depth)} leaves no post in soil that counts"
        right = f"go deeper than the {notes.show(footing.ignored)} of top soil ignored"
        notes.wrong("post.depth", what, right)
    check_frost(rack, notes)
    if posts.positions[-1] >= rack.beam.length / 2:
        what = f"puts the outer posts at {notes.show(posts.positions[-1])} from the middle"
        right = f"the beam ends at {notes.show(rack.beam.length / 2)}"
        notes.wrong("post.spacing", what, right)
    gaps = [b - a for a, b in zip(posts.positions, posts.positions[1:], strict=False)]
    if any(gap <= max(footing.hole, posts.pipe.od) for gap in gaps):
        right = f"keep more than the hole's {notes.show(footing.hole)} apart"
        notes.wrong("post.spacing", "makes neighbouring holes run together", right)


def check_frost(rack: Rack, notes: Notes) -> None:
    """Warn of frost that lifts the posts, or reaches below the soil left out."""
    frost, footing = rack.site.frost, rack.posts.footing
    if frost > footing.depth:
        notes.warn(
            f"Frost reaches {notes.show(frost)}, below the foot of the post: the ground will lift "
            "it year by year, whatever it carries."
        )
    elif frost > footing.ignored:
        notes.warn(
            f"Frost reaches {notes.show(frost)}, but only {notes.show(footing.ignored)} of soil "
            "is left out at the top (post.ignored): give at least the depth of the frost."
        )


def check_sleeve(rack: Rack, notes: Notes) -> None:
    """Check that the sleeve is shorter than the post, with play and a lock that fit it."""
    sleeve, od = rack.sleeve, rack.posts.pipe.od
    room = rack.posts.height - rack.beam.pipe.od / 2
    if sleeve.length >= room:
        what = f"{notes.show(sleeve.length)} reaches the ground"
        right = f"give less than {notes.show(room)}, what the post shows under the beam"
        notes.wrong("sleeve.length", what, right)
    elif sleeve.length < od:
        notes.warn(
            f"The sleeve is {notes.show(sleeve.length)} long, less than the post is thick "
            f"({notes.show(od)}): it will rock."
        )
    if sleeve.clearance > od / 4:
        what = f"{notes.show(sleeve.clearance)} is more play than a sleeve can have"
        right = f"give bore less post diameter; shim anything over {notes.show(od / 4)}"
        notes.wrong("sleeve.clearance", what, right)
    bolt = sleeve.lock.diameter
    key = "sleeve.pin" if isinstance(sleeve.lock, Pin) else "sleeve.set_bolt"
    if bolt > od / 2:
        what = f"{notes.show(bolt)} is more than half the post's diameter"
        notes.wrong(key, what, f"the post is {notes.show(od)} thick")


def check_rails(rack: Rack, notes: Notes) -> None:
    """Check that rails sit on the beam, apart, and reach the outermost clamps."""
    rails, panels, half = rack.rails, rack.panels, rack.beam.length / 2
    if not rails.positions:
        notes.wrong("rails.positions", "is empty", "give at least two rails, or leave it out")
        return
    outer = max(abs(x) for x in rails.positions) + rails.channel.width / 2
    if outer > half + SLACK and not overhang(rack) > 0:
        what = f"rails reach {notes.show(outer)} from the middle, wider than the beam"
        right = f"the beam ends at {notes.show(half)}: a longer beam, or positions within it"
        notes.wrong("rails.positions", what, right)
    pairs = zip(rails.positions, rails.positions[1:], strict=False)
    if any(b - a < rails.channel.width for a, b in pairs):
        right = f"keep at least {notes.show(rails.channel.width)}, a rail's width, between them"
        notes.wrong("rails.positions", "puts two rails in one place", right)
    if rails.stops > len(rails.positions):
        what = f"is {rails.stops}, more than the {len(rails.positions)} rails"
        notes.wrong("rails.tilt_stops", what, "a rail has one stop at most")
    need = panels.chord - panels.height / 2
    if rails.length < need - SLACK:
        what = f"{notes.show(rails.length)} is too short for the outermost clamps"
        right = f"give {notes.show(need)} or more: clamps sit at the panels' quarter points"
        notes.wrong("rails.length", what, right + other_way(rack))
    if rails.length > 2 * panels.chord:
        what = f"{notes.show(rails.length)} is more than twice what the panels cover"
        notes.wrong("rails.length", what, f"the panels cover {notes.show(panels.chord)}")
    check_support(rack, notes)


def check_support(rack: Rack, notes: Notes) -> None:
    """Check that every column of panels lies on two rails; two columns may share one."""
    panels, positions = rack.panels, rack.rails.positions
    edge = panels.gap + rack.rails.channel.width
    bad = [
        str(number)
        for number, (left, right) in enumerate(panels.column_edges(), 1)
        if sum(x < left - edge or x > right + edge for x in positions) > len(positions) - 2
    ]
    if bad:
        what = f"leaves less than two rails under panel column {', '.join(bad)} from the left"
        notes.wrong("rails.positions", what, "put two rails under every panel")
