"""Which lines the first screen has, in which order, and what goes where room is short."""

from collections.abc import Callable, Mapping, Sequence

from frame.plan.decision import Decision
from frame.report.screen import doubts, lines
from frame.report.screen.phrases import INDENT, WIDTH
from frame.report.screen.reached import reached
from frame.report.screen.steps import steps
from frame.report.typed import typed

MOST = 40
LAST_FEW = 6
"""Lines at the end of a screen within which it is cut where a sentence ends."""
CAUTIONS = (
    "An estimate on the numbers in the file; local codes decide. Where people pass",
    "under it, a licensed engineer looks first.",
)
Paragraph = Callable[[Decision], list[str]]
Said = Mapping[str, list[str]]
"""Lines of every paragraph by its name."""


def first_screen(decision: Decision, file: str, most: float = MOST) -> list[str]:
    """Return the first screen for a rack file: `most` lines of 80 letters.

    Where that is too little, blank lines go first, then what a builder misses least, and of that
    what there is room for after all comes back; which paragraphs are left out is said at the end.
    """
    said = {name: paragraph(decision) for name, paragraph in PARAGRAPHS.items()}
    brief = {name: paragraph(decision) for name, (_, paragraph) in BRIEFLY.items()}

    def shown(spared: Sequence[str]) -> list[str]:
        told = said | {BRIEFLY[name][0]: brief[name] for name in spared if name in BRIEFLY}
        return [*_assembled(told, spared), *_end(decision, file, said, spared)]

    fitting = (n for n in range(len(SPARED) + 1) if len(shown(SPARED[:n])) <= most)
    count = next(fitting, None)
    if count is None:
        end = _end(decision, file, said, SPARED)
        return [*_whole(_assembled(said, SPARED)[: int(most) - len(end)]), *end]
    spared = SPARED[:count]
    for name in reversed(spared):
        fewer = tuple(other for other in spared if other != name)
        spared = fewer if len(shown(fewer)) <= most else spared
    return shown(spared)


def _whole(lines: Sequence[str]) -> Sequence[str]:
    """Return lines up to where a sentence ends, if one does in the last few."""
    ends = [i for i, line in enumerate(lines) if line.endswith((".", "?"))]
    return lines[: ends[-1] + 1] if ends and ends[-1] > len(lines) - LAST_FEW else lines


def _end(decision: Decision, file: str, said: Said, spared: Sequence[str]) -> list[str]:
    """Return what is not shown for want of room, the cautions and the next commands."""
    fitted = "" if decision.ours else _fitted(decision)
    further = () if decision.plan.reached else ("rack size {}",)
    commands = (*further, "rack compare {} --all", "rack draw {}", f"rack check {{}}{fitted}")
    more = _more(commands, "FILE" if "name of the file" in spared else file)
    missing = [said[name] for name in spared if said.get(name)]
    heads = [lines[0][:INDENT].strip() for lines in missing if lines[0][0] != " "]
    left = [f"See --all for: {', '.join(heads)}."] if heads else []
    return [*left, *CAUTIONS, *more]


def _more(commands: Sequence[str], file: str) -> list[str]:
    """Return the next commands, as many on a line as fit; FILE stands for a long name."""
    lines = ["More: " + commands[0].format(file)]
    for command in commands[1:]:
        told = command.format(file)
        if len(lines[-1]) + len(told) + 2 <= WIDTH:
            lines[-1] += f", {told}"
        else:
            lines.append(f"      {told}")
    if max(map(len, lines)) <= WIDTH:
        return lines
    return ["More: " + ", ".join(c.partition(" --b")[0].format("FILE") for c in commands)]


def _fitted(decision: Decision) -> str:
    """Return the option that looks into the bracing that the plan ends with."""
    names = decision.plan.end.bracing
    return f" --bracing {typed(','.join(names))}" if names else " --bracing bare"


def _assembled(said: Said, spared: Sequence[str]) -> list[str]:
    gap = [] if "blanks" in spared else [""]
    made: list[str] = []
    for group in GROUPS:
        shown = [line for name in group if name not in spared for line in said[name]]
        made += [*shown, *gap] if shown else []
    return made


PARAGRAPHS: dict[str, Paragraph] = {
    "head": lines.head_paragraph,
    "droops": lines.droop_paragraph,
    "sways": lines.sway_paragraph,
    "steps": steps,
    "left out": lines.left_out,
    "reached": reached,
    "guys": lines.guy_paragraph,
    "knees": lines.knee_paragraph,
    "cut": lines.cut_paragraph,
    "concrete": lines.concrete,
    "storm": lines.lay_down_paragraph,
    "hangs on": doubts.hangs_on,
    "second unknown": lambda decision: doubts.unknown(decision, 1),
    "third unknown": lambda decision: doubts.unknown(decision, 2),
    "what it stood": doubts.ask_what_it_stood,
    "stood": doubts.stood,
    "warned": doubts.warned,
}
GROUPS = (
    ("head", "droops", "sways", "stood"),
    ("steps", "left out", "reached"),
    ("guys", "knees", "cut", "concrete"),
    ("storm",),
    ("hangs on", "second unknown", "third unknown", "what it stood"),
    ("warned",),
)
BRIEFLY: dict[str, tuple[str, Paragraph]] = {
    "rest of storm": ("storm", lines.lay_down_line),
    "rest of droops": ("droops", lines.droop_line),
    "rest of sways": ("sways", lines.sway_line),
    "rest of guys": ("guys", lines.guy_line),
}
"""What is told of a paragraph without its rest."""
SPARED = (
    "blanks", "third unknown", "second unknown", "what it stood", "name of the file", "left out",
    "rest of storm", "rest of droops", "rest of sways", "rest of guys", "knees", "droops", "sways",
    "stood", "concrete", "cut", "guys",
)  # fmt: skip
"""What goes where room is short, in this order."""
