"""The card to tighten guys by, and what each anchor must stand."""

from frame.draw.shop.paper import BODY, SMALL, TITLE, Column, Paper
from frame.shop.job import Job
from frame.shop.job_words import foot_words, proof_words
from frame.shop.words import tape
from frame.shop.yard.pull import TensionCard
from frame.units import F_STEP, METRIC, show

STEPS = {"us": (10 * F_STEP, "10 F"), METRIC: (5.0, "5 C")}
"""A change of temperature [K], in words."""


def write_tension_sheet(paper: Paper, job: Job) -> None:
    """Write a card for every length of guy on a new page, and what the feet of stays must stand.

    Nothing where there are neither.
    """
    feet = foot_words(job)
    if not job.cards and not feet:
        return
    paper.new_page()
    if not job.cards:
        paper.heading(f"{job.rack.name}: try the feet of the stays", TITLE)
        for said in feet:
            paper.paragraph(said)
        return
    paper.heading(f"{job.rack.name}: tighten the guys", TITLE)
    paper.paragraph(
        "With the panels on, in still air, a quarter turn at a time, guy after guy crosswise: "
        "each one loosens the others. Then measure by one of the ways below and go round again."
    )
    for card in job.cards:
        _card(paper, card, job.rack.units)
    for said in (*proof_words(job), *feet):
        paper.paragraph(said)


def _card(paper: Paper, card: TensionCard, system: str) -> None:
    length = tape(card.length, system)
    pull = show(card.wanted, "force", system)
    paper.heading(f"{card.name}, {length} pin to pin: {pull}", BODY + 2, keep=2.2)
    if card.turn[0]:
        low, high = (show(t, "force", system, 2) for t in card.turn)
        fewest, most = card.turns
        paper.paragraph(
            f"By turns: a full turn of the turnbuckle adds {low} (the anchor gives) to {high} (it "
            f"stands firm). From snug, {fewest:.1f} to {most:.1f} turns; count them, but believe "
            "the table."
        )
    step, words = STEPS[system]
    more = show(card.a_degree * step, "force", system, 2)
    paper.paragraph(f"Each {words} colder it pulls up to {more} more, each {words} warmer less.")
    side = show(card.side, "force", system)
    paper.table(
        (
            Column("pull in the guy", 1.7, bold=True),
            Column(f"{side} square to it at its middle moves it", 2.9),
            Column("plucked, it swings", paper.width - 4.6),
        ),
        [
            (
                show(r.pull, "force", system) + (" wanted" if r.pull == card.wanted else ""),
                show(r.aside, "movement", system),
                f"{r.pluck:.1f} times a second",
            )
            for r in card.readings
        ],
        SMALL + 1.5,
    )
