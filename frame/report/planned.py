"""The rack file as the plan leaves it."""

from frame.plan.decision import Decision
from frame.rack.rack import bracing_title
from frame.report.headed import headed

TOP = "# rack compare: "
"""How the lines at the top of such a file begin."""
STOOD = "What [stood] tells is of the rack before these steps: take it out once they are made."


def planned_file(decision: Decision) -> str:
    """Return the text of the file with every step of the plan made.

    Its top says what is to be fitted. Lines that an earlier plan has left there are taken away.
    """
    plan = decision.plan
    many = len(plan.steps)
    said = [f"the rack after {many} step{'s' * (many != 1)}, {bracing_title(plan.end.bracing)}."]
    if plan.end.rack.stood:
        said.append(STOOD)
    return headed(plan.end.text, TOP, said)
