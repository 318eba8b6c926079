"""What readings do to a plan, told from plans made up by hand."""

from types import SimpleNamespace
from typing import Any

from frame.diagnosis.effect import Effect
from frame.plan.offers import Offer


def plan(*offers: Offer) -> Any:
    """No rack, only what is done, each in a step of its own."""
    return SimpleNamespace(steps=[SimpleNamespace(made=(one,)) for one in offers])


def offer(do: str, **edits: str) -> Offer:
    return Offer(
        do=do, kind="made up", edits={("beam", key): value for key, value in edits.items()}
    )


SHIM = offer("a shim in the sleeve", play="1/32 in")
PIN = offer("a pin through the sleeve", pin="1 in")


def test_what_both_plans_do_is_neither_dropped_nor_added() -> None:
    """A new beam also takes out the bow that was read, so that it edits a key more."""
    beam = offer("a beam of 3 in", pipe="3 in")
    straight = offer("a beam of 3 in", pipe="3 in", bow="0 in")
    found = Effect(before=plan(SHIM, beam), after=plan(straight, PIN))
    assert found.dropped == ("a shim in the sleeve",)
    assert found.added == ("a pin through the sleeve",)
    assert not found.changed


def test_another_size_is_neither_dropped_nor_added() -> None:
    found = Effect(before=plan(SHIM), after=plan(offer("a thicker shim", play="1/16 in")))
    assert (found.dropped, found.added) == ((), ())
    assert found.changed == ("a thicker shim",)


def test_order_counts_for_nothing() -> None:
    found = Effect(before=plan(SHIM, PIN), after=plan(PIN, SHIM))
    assert (found.dropped, found.added, found.changed) == ((), (), ())
