"""One step of a plan, and steps put in order: a size passed through is no step."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from frame.changes.offered_fastenings import hung
from frame.errors import FrameError
from frame.plan.in_order import OF_LUGS, WELDS, in_order, replaced_later, reworded, small_enough
from frame.plan.offers import BRACING, MOVE, Offer, guys_by_section
from frame.plan.price import added_cost, added_steel
from frame.plan.standing import Asked, Standing, light, stand_like
from frame.plan.trimmed import trimmed
from frame.plan.written import written
from frame.rack.rack import Rack

JOBS = {"post", "beam", "sleeve", "rails"}
"""Sections of the file of parts that are exchanged as one job, however much changes of them."""

MEANWHILE = "if the new ones must wait: through the old ones now"
"""Said of a pin or set bolts that gain at once, but come after a new post or sleeve."""


@dataclass(frozen=True, kw_only=True)
class PlanStep:
    """One step: what is `made` (more than one change where they only help together), and `after`.

    The standing after it is light: many of them are kept.
    `added_steel` [N], `added_cost` in the file's currency, None without prices. `meanwhile`: what
    it replaces stands, and may be mended so until it is replaced.
    """

    made: tuple[Offer, ...]
    after: Standing
    added_steel: float
    added_cost: float | None
    meanwhile: bool = False

    @property
    def do(self) -> tuple[str, ...]:
        """What to do, in words."""
        return tuple(o.do for o in self.made)

    @property
    def words(self) -> str:
        """What to do in one line: one job with commas, else one thing after the other.

        What is done to bracing just fitted goes with it.
        """
        if _job(self.made):
            return ", ".join((self.do[0], *(o.again or o.do for o in self.made[1:])))
        if self.meanwhile:
            return f"{'; then '.join(self.do)} ({MEANWHILE})"
        made = sorted(self.made, key=_place_on_line) if len(self.names) == 1 else self.made
        said, fits = "", True
        for words in (one.do for one in made):
            joins = [(f"{n}: ", ": " if fits else "; ") for n in self.names]
            joins += [(f"{n} ", " " if fits else ", ") for n in self.names]
            own, join = next((j for j in joins if words.startswith(j[0])), ("", "; then "))
            said = (said + join if said else "") + words.removeprefix(own)
            fits = not own
        return said

    @property
    def kind(self) -> str:
        """Whether it fits bracing or changes something else."""
        return BRACING if self.names else MOVE

    @property
    def names(self) -> tuple[str, ...]:
        """Bracing it fits."""
        return tuple(name for o in self.made for name in o.fits)


def step_to(before: Standing, made: tuple[Offer, ...], after: Standing) -> PlanStep:
    """Return the step from a standing to the one `after` changes `made`."""
    return PlanStep(
        made=made,
        after=light(after),
        added_steel=added_steel(before, after.rack, after.steel),
        added_cost=added_cost(before, after.rack, after.cost),
    )


def subjects(one: Offer, rack: Rack) -> frozenset[str]:
    """Name what a change is of: bracing by its name, all else by the section it is written in.

    Lugs are of the bracing that hangs on them.
    """
    groups = guys_by_section(rack)
    if one.edits and all(s == WELDS and key in OF_LUGS for s, key in one.edits):
        return frozenset((*one.fits, *hung(rack, rack.bracing_names)))
    written = (groups.get(section, section) for section, _ in one.edits)
    return frozenset((*one.fits, *written))


def steps_through(
    before: Standing, made: tuple[Offer, ...], through: Sequence[Standing]
) -> list[PlanStep]:
    """Return the steps that changes `made` take one by one, `through` a standing after each.

    What has nothing to do with the change before it is a step of its own, though it takes both to
    gain anything.
    """
    steps: list[PlanStep] = []
    now, group = before, tuple[Offer, ...]()
    for i, one in enumerate(made):
        group = (*group, one)
        of = frozenset[str]().union(*(subjects(o, before.rack) for o in group))
        more = i + 1 < len(made)
        if not more or not of & subjects(made[i + 1], before.rack):
            steps.append(step_to(now, group, through[i]))
            now, group = through[i], ()
    return steps


def joined(steps: Sequence[PlanStep], rack: Rack) -> list[PlanStep]:
    """Make one step of bracing fitted and what is done to it right after."""
    found: list[PlanStep] = []
    for step in steps:
        of = frozenset[str]().union(*(subjects(o, rack) for o in step.made))
        if found and found[-1].names and of <= set(found[-1].names):
            last = found[-1]
            found[-1] = PlanStep(
                made=(*last.made, *step.made),
                after=step.after,
                added_steel=last.added_steel + step.added_steel,
                added_cost=_sum(last.added_cost, step.added_cost),
            )
        else:
            found.append(step)
    return found


def _sum(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one + other


def tidied(
    start: Standing, steps: list[PlanStep], end: Standing, asked: Asked
) -> tuple[list[PlanStep], Standing]:
    """Take at once the last of several sizes, and all that is one job; solve again.

    A post that is set and dug out again for the next step is two jobs where one would do. What the
    end is as good without is left out. What is done to a part comes after the step that replaces
    it: the end is the same. Returns what then is reached too.
    """
    if not steps:
        return steps, end
    kept = last_sizes([step.made for step in steps])
    kept, less = trimmed(start, _jobs_at_once(kept, start.rack), end, asked)
    for order in (in_order(kept, start.rack), kept):
        try:
            return _solved_again(start, steps, order, less, asked), less
        except FrameError:
            # Halfway through, such a rack cannot be built.
            continue
    return steps, end


def last_sizes(groups: Sequence[tuple[Offer, ...]]) -> list[tuple[Offer, ...]]:
    """Take the last of several sizes of a thing where its first one stood, in its own step too."""
    all_made = [(i, one) for i, made in enumerate(groups) for one in made]
    kept: list[list[Offer]] = [[] for _ in groups]
    for n, (i, one) in enumerate(all_made):
        if not any(_same(one, earlier) for _, earlier in all_made[:n]):
            kept[i].append(_last(one, [later for _, later in all_made[n + 1 :]]))
    return [tuple(made) for made in kept if made]


def with_meanwhile(
    steps: Sequence[PlanStep], climbed: Sequence[PlanStep], start: Rack
) -> list[PlanStep]:
    """Say of a pin or set bolts that gained at once that what stands may have them meanwhile.

    `climbed`: the steps in the order in which they gained most. A rack that is not yet built has
    nothing to mend.
    """
    groups = [step.made for step in climbed]
    early = [
        [one.edits for one in made]
        for i, made in enumerate(groups)
        if start.stands and small_enough(made) and replaced_later(made, groups[i + 1 :], start)
    ]
    return [replace(s, meanwhile=[one.edits for one in s.made] in early) for s in steps]


def _solved_again(
    start: Standing,
    steps: list[PlanStep],
    kept: Sequence[tuple[Offer, ...]],
    end: Standing,
    asked: Asked,
) -> list[PlanStep]:
    """Solve the steps that are no longer as they were, up to the `end` known."""
    groups = [step.made for step in steps]
    if kept == groups:
        return steps
    tidied, now = list[PlanStep](), start
    for i, made in enumerate(kept):
        if kept[: i + 1] == groups[: i + 1]:
            tidied.append(steps[i])
            now = steps[i].after
            continue
        after = end if i == len(kept) - 1 else _after(now, made, asked)
        told = tuple(reworded(one, now) for one in made)
        tidied.append(step_to(now, told, after))
        now = after
    return tidied


def _jobs_at_once(groups: Sequence[tuple[Offer, ...]], rack: Rack) -> list[tuple[Offer, ...]]:
    """Put every later change for which a part is dug out or taken down again into the first.

    So too with what is done to bracing that is fitted before: it is fitted so.
    """
    found: list[tuple[Offer, ...]] = []
    places: dict[str, int] = {}
    for made in groups:
        job = _job(made) or _fitted_by(made, found, rack)
        if job in places:
            at = places[job]
            found[at] = (*found[at], *made)
            if job in JOBS:
                found[at] = tuple(sorted(found[at], key=lambda o: _place_in_job(o, job)))
            continue
        names = (job, *(name for o in made for name in o.fits))
        places |= dict.fromkeys(filter(None, names), len(found))
        found.append(made)
    return found


def _fitted_by(made: Sequence[Offer], before: Sequence[Sequence[Offer]], rack: Rack) -> str:
    """Name the bracing fitted before that changes are made to and nothing else, "" for others."""
    fitted = {name for group in before for o in group for name in o.fits}
    of = frozenset[str]().union(*(subjects(o, rack) for o in made))
    return next(iter(of)) if len(of) == 1 and of <= fitted else ""


def _job(made: Sequence[Offer]) -> str:
    """Part that has to be dug out or taken down for changes of it alone, "" for all else.

    A post with the sleeve that is made for it is one.
    """
    sections = {next(iter(o.edits), ("", ""))[0] for o in made}
    heavy = all(o.edits and (o.digs or o.unloads) and not o.fits for o in made)
    if heavy and sections == {"post", "sleeve"}:
        return "post"
    return sections.pop() if heavy and sections <= JOBS and len(sections) == 1 else ""


def _place_in_job(one: Offer, section: str) -> int:
    """Where a change is told: the pipe or channel, its steel, how deep, then the rest."""
    keys = ("pipe", "channel", "steel", "depth")
    return next((i for i, key in enumerate(keys) if (section, key) in one.edits), len(keys))


def _place_on_line(one: Offer) -> int:
    """Where a change of bracing is told: that it is fitted, then its guys from wire to anchor."""
    keys = ("wire", "fitting", "anchor", "out")
    found = {key for _, key in one.edits}
    return -1 if one.fits else next((i for i, key in enumerate(keys) if key in found), len(keys))


def _last(one: Offer, later: Sequence[Offer]) -> Offer:
    """Return the last change of the same thing, with what the ones before it set beside it."""
    edits = dict(one.edits)
    for other in later:
        if _same(one, other):
            one = other
            edits.update(other.edits)
    return replace(one, edits=edits)


def _same(one: Offer, other: Offer) -> bool:
    """Whether two changes set the same thing."""
    return bool(set(one.edits) & set(other.edits))


def _after(now: Standing, made: Sequence[Offer], asked: Asked) -> Standing:
    text, _, bracing = written(now, made, asked.name)
    return stand_like(now, text, bracing, asked)
