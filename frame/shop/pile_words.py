"""A cut plan in words."""

from frame.shop.cutting.cut_plan import Group
from frame.shop.cutting.greedy import greedy
from frame.shop.cutting.pile import NEARLY, Cut
from frame.shop.job import Job
from frame.shop.words import tape
from frame.units import show


def group_words(group: Group, system: str) -> list[str]:
    """Say what a plan comes to, and what would have to be bought."""
    plan = group.plan
    if plan is None:
        longest = max(n.length for n in group.pile.needs)
        long = tape(longest, system)
        why = "is longer than any stick or new length, and may be spliced nowhere on this rack"
        return [f"No plan: a piece of {long} {why}. Buy it in one length."]
    said = []
    if plan.bought:
        long = tape(max(s.length for s in group.pile.sticks if not s.at_hand), system)
        said.append(f"The pile does not suffice: buy {plan.bought} of {long}.")
    if plan.splices:
        some = "splice" if plan.splices == 1 else "splices"
        said.append(
            f"{plan.splices} {some}: bevelled, backing ring or inside sleeve, full penetration; "
            "only where drawn, where the pipe is lightly bent."
        )
        whole = greedy(group.pile)
        if whole is not None and whole.bought > plan.bought:
            said.append(f"Without a splice it takes {whole.bought} new: what is a splice worth?")
    if not plan.proved:
        bought, splices, money = plan.bound
        said.append(
            "The search was stopped: there may be a better plan, but none with less than "
            f"{bought:.0f} bought, then {splices:.0f} splices, then {money:.2f} of money."
        )
    return said


def stick_words(group: Group, number: int, system: str) -> str:
    """Name a stick: its length, its wall, what is left of it."""
    stick, pipe = group.pile.sticks[number], group.pipes[number]
    assert group.plan is not None
    cuts = group.plan.of_stick(number)
    end = max(c.at + c.stop - c.start for c in cuts) + group.pile.kerf
    rest = max(stick.length - end, 0.0)
    wall = f", wall {show(pipe.wall, 'thickness', system)}" if pipe else ""
    return f"{stick.name}: {tape(stick.length, system)}{wall}; left {tape(rest, system)}"


def part_words(group: Group, cut: Cut, system: str) -> str:
    """Say what one cut makes: a whole piece, or which part of one."""
    need = group.pile.needs[cut.need]
    said = f"{group.label(cut.need)} {tape(cut.stop - cut.start, system)}"
    if cut.stop - cut.start < need.length - NEARLY:
        said += f" (its {tape(cut.start, system)} to {tape(cut.stop, system)})"
    if cut.at > NEARLY:
        said += f" from {tape(cut.at, system)} on"
    return said


def again_words(job: Job) -> list[str]:
    """Say what the splices chosen use, and what the rack does with them and the weakest pipe."""
    return [*_solved_again(job), *_used(job)]


def _used(job: Job) -> list[str]:
    if job.cuts is None:
        return []
    return [
        f"At the site's gust the splices of {letter} use {100 * use:.0f} % of what they may; "
        f"they were put where it is under {100 * job.cuts.cutting.share:.0f} %."
        for letter, use in job.cuts.uses.items()
    ]


def _solved_again(job: Job) -> list[str]:
    if job.cuts is None or job.cuts.again is None or job.again is None or job.result is None:
        return []
    system = job.rack.units

    def gust(value: float | None) -> str:
        return "over all looked at" if value is None else show(value, "speed", system)

    now, before = job.again, job.result
    solved = (
        "Solved again with these splices and the weakest pipe used: the code's margin is kept up "
        f"to {gust(now.limit_gust)} (without: {gust(before.limit_gust)}); the first part is "
        f"expected to let go at {gust(now.let_go_gust)} (without: {gust(before.let_go_gust)})."
    )
    return [solved]
