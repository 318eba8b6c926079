"""The screen of `rack diagnose`: which movement it is, and what that changes, in 40 lines."""

from collections.abc import Callable

from frame.diagnosis.diagnosis import Diagnosis
from frame.diagnosis.expected_readings import tellable
from frame.diagnosis.movements import BOW, DROOP, SWAY, MovementFound, Share
from frame.diagnosis.yielding import STORM, Yielding
from frame.plan.greedy import Plan
from frame.report.readings.words import reading_name, reading_shown
from frame.report.screen.phrases import gust, movement, paragraph
from frame.tables.causes import causes
from frame.tables.readings import reading_kinds
from frame.units import DEG, show

MOST, INDENT = 40, 11
SMALL = 0.08
"""Share of a movement below which a part of it is not named."""
LIKELY = 0.5
BEND = "bend"
CAUTIONS = (
    "A fit to a few readings, no proof of strength: the code's margin takes only what",
    "was measured. Local codes decide; where people pass, a licensed engineer looks.",
)


def diagnosis_screen(found: Diagnosis, file: str) -> list[str]:
    """Return the answer for a rack file: at most 40 lines of 80 letters."""
    paragraphs: list[list[str]] = [
        what_was_read(found),
        *(movement_paragraph(found, m) for m in found.movements),
        *(part(found) for part in PARTS),
    ]
    end = [*CAUTIONS, *more(found, file)]
    made = [line for some in paragraphs for line in some]
    return [*made[: MOST - len(end)], *end]


def what_was_read(found: Diagnosis) -> list[str]:
    """Say which rack was read, how, and whether the readings agree."""
    rack, measured = found.rack, found.found.forward.measured
    fitted = ", ".join(measured.fitted) or "bare"
    said = (
        f"{len(measured.taken)} readings, {fitted}, panels at {measured.tilt / DEG:.0f} deg. "
        "Least squares with what is likely beforehand; bands hold in 19 of 20."
    )
    lines = paragraph(rack.name.upper(), said, min(len(rack.name) + 2, 30))
    unused = [r.key for r in measured.taken if r.key not in tellable(rack, measured)]
    if unused:
        names = ", ".join(reading_name(key) for key in unused)
        why = "several posts hold the beam" if len(rack.posts.positions) > 1 else "no guys are on"
        lines += paragraph("Not used", f"{names}: {why}.", INDENT)
    left = found.left_out
    if left is not None:
        units = rack.units
        said = (
            f"{reading_name(left.key)} ({reading_shown(left.key, left.value, units)}) does not go "
            "with the others: take it again. It is left out below."
        )
        lines += paragraph("TAKE AGAIN", said, INDENT)
    elif found.consistency.suspect is not None:
        lines += paragraph("TAKE AGAIN", "the readings contradict one another.", INDENT)
    return lines


def movement_paragraph(found: Diagnosis, told: MovementFound) -> list[str]:
    """Say how far it droops, moves or turns, in shares, beside what is normal, and the cause."""
    rack, measured = found.rack, found.found.forward.measured
    units = rack.units
    if told.kind == DROOP:
        name, under = "Droops", f"at the {('left', 'right')[told.side]} end"
    elif told.kind == SWAY:
        name, under = (
            "Moves",
            f"at the post top by a pull of {show(measured.pull, 'force', units, 2)}",
        )
    else:
        name, under = "Turns", f"at the end by a push of {show(measured.push, 'force', units, 2)}"
    low, _, high = (movement(n, units) for n in told.normal)
    whole = movement(told.size, units)
    shares = _shares(found, told)
    read = "" if told.read else ", not read but worked out"
    said = f"{whole} {under}{read}: {shares}. Normal {low.split()[0]} to {high}"
    said += f", limit {movement(told.limit, units)}." if told.limit else "."
    return paragraph(name, f"{said} {_cause(found, told)}", INDENT)


def _shares(found: Diagnosis, told: MovementFound) -> str:
    least = SMALL * max(abs(told.size), 1e-6)
    large = sorted((s for s in told.shares if abs(s.size) >= least), key=lambda s: -abs(s.size))
    return ", ".join(f"{_part(found, s)} {movement(s.size, found.rack.units)}" for s in large[:4])


def _part(found: Diagnosis, share: Share) -> str:
    return causes()[_named(found, share.part)].words


def _named(found: Diagnosis, part: str) -> str:
    return BEND if part == BOW and found.bent > LIKELY else part


def _cause(found: Diagnosis, told: MovementFound) -> str:
    first, second = told.causes[:2]
    if told.cause is None:
        either = " or ".join(causes()[_named(found, part)].words for part, _ in (first, second))
        return f"Can't tell whether {either}." if second[1] > 0.05 else ""
    cause = causes()[_named(found, told.cause)]
    if told.beyond_normal <= 1:
        return f"Nothing out of the ordinary; mostly {cause.words}."
    return f"Because of {cause.words}. {cause.worse} {cause.cure}"


def yielded(found: Diagnosis) -> list[str]:
    """Say whether a pipe was bent past yield."""
    beam = next(y for y in found.yieldings if y.part == "beam")
    likely = [y for y in found.yieldings if y.chance >= LIKELY and y.part != "beam"]
    told = [f"the {y.part} {_under(found, y)} (chance {100 * y.chance:.0f} %)" for y in likely[:1]]
    if max(beam.chance, found.bent) >= LIKELY:
        kept = f", and by what was read it keeps a bend ({100 * found.bent:.0f} %)"
        told.insert(0, f"the beam {_under(found, beam)}{kept if found.bent >= LIKELY else ''}")
    if not told:
        worst = found.yieldings[0]
        said = (
            f"no pipe was bent past yield: the {worst.part} came to {100 * worst.use:.0f} % of it"
        )
        return paragraph("Yield", f"{said} {_under(found, worst)}.", INDENT)
    return paragraph("Yield", f"bent past yield: {'; '.join(told)}.", INDENT)


def _under(found: Diagnosis, y: Yielding) -> str:
    stood = found.rack.stood
    if y.under == STORM and stood is not None:
        return f"in the {gust(stood.gust, found.rack.units)} it stood"
    return "by its weight"


def told_values(found: Diagnosis) -> list[str]:
    """Say what was fitted, with its band."""
    units = found.rack.units
    words = {
        "ground": "ground {} times as stiff as the middle of its kind",
        "sleeve": "sleeve {} times as stiff as worked out",
        "play": "play of the sleeve {}",
        "beam_wall": "wall of the beam {}",
        "post_wall": "wall of the post {}",
        "bow": "beam ends hang {} for good",
        "guy_pull": "guys pull {}",
    }
    each = [
        f"{words[f.key].format(f.shown(f.value, units))} ({f.shown_band(units)})"
        for f in found.fitted
    ]
    said = "; ".join(each) if each else "nothing better than was thought beforehand"
    return paragraph("Fitted", f"{said}.", INDENT)


def left_open(found: Diagnosis) -> list[str]:
    """Say what the readings can't tell."""
    some = {f.key for f in found.fitted}
    names = {
        "ground": "the ground",
        "play": "the sleeve's play",
        "beam_wall": "the beam's wall",
        "post_wall": "the post's wall",
        "sleeve": "the sleeve's stiffness",
    }
    left = [name for key, name in names.items() if key not in some]
    return paragraph("Can't tell", f"{', '.join(left)}: taken as thought.", INDENT) if left else []


def next_reading(found: Diagnosis) -> list[str]:
    """Say which one reading to take next, and what it would narrow."""
    proposal = found.proposal
    if proposal is None:
        return paragraph("Read next", "nothing more that a tape could tell.", INDENT)
    best, units = proposal.best, found.rack.units
    low, high = (reading_shown(best.key, end, units) for end in best.expected)
    share = best.narrows if proposal.for_break else best.splits
    what = (
        "of what is unsure of the first break"
        if proposal.for_break
        else "of what is unsure of the cause"
    )
    said = (
        f"{reading_name(best.key)} ({reading_kinds()[best.key].tool}), likely {low} to {high}: of "
        f"all {len(proposal.tried)} tried it takes away most {what} ({100 * share:.0f} %)."
    )
    return paragraph("Read next", said, INDENT)


def plan_before_and_after(found: Diagnosis) -> list[str]:
    """Say what the readings do to the plan, before and after."""
    both = found.effect
    if found.text is None:
        said = "not told: the file is laid out in a way that is not edited here."
        return paragraph("Plan", said, INDENT)
    if both is None:
        return []
    before, after = _breaks(found, both.before), _breaks(found, both.after)
    lines = paragraph("Plan", f"before the readings, {before}; with them, {after}.", INDENT)
    if both.dropped:
        lines += paragraph(" ", f"No longer buys: {'; '.join(both.dropped)}.", INDENT)
    if both.added:
        lines += paragraph(" ", f"Now buys: {'; '.join(both.added)}.", INDENT)
    if both.changed:
        lines += paragraph(" ", f"Now another size: {'; '.join(both.changed)}.", INDENT)
    if not both.dropped and not both.added and not both.changed:
        lines += paragraph(" ", "The steps stay the same.", INDENT)
    return lines


def _breaks(found: Diagnosis, told: Plan) -> str:
    units = found.rack.units
    start, end = (
        "nothing breaks" if at.first_break is None else gust(at.first_break.gust, units)
        for at in (told.start, told.end)
    )
    count = len(told.steps)
    steps = f"after {count} step{'s' * (count != 1)} {end}" if count else "no step"
    return f"the first break is at {start}, {steps}"


def more(found: Diagnosis, file: str) -> list[str]:
    """Name the commands that go on from here."""
    some = [f"More: rack measure {file} --fill"]
    if found.fitted:
        some[0] += f", rack diagnose {file} --write"
    return ["More: rack measure FILE, rack diagnose FILE --write"] if len(some[0]) > 80 else some


PARTS: tuple[Callable[[Diagnosis], list[str]], ...] = (
    yielded,
    told_values,
    left_open,
    next_reading,
    plan_before_and_after,
)
