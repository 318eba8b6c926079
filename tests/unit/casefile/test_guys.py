"""Names and pretension of guy groups."""

import pytest

from frame.casefile.assemble.bracing import build_guys, group_names
from frame.casefile.keys.lines import GuyKeys
from frame.casefile.notes import Notes


def group(attach: str, **more: str) -> GuyKeys:
    keys = {"from": attach, "wire": "1/4 in EHS strand", "out": "5 ft", "along": "5 ft", **more}
    return GuyKeys.model_validate(keys)


def test_the_only_group_is_called_guys() -> None:
    assert group_names([group("rail corners")]) == ("guys",)


def test_several_groups_are_called_by_where_they_start() -> None:
    groups = [group("post top"), group("beam ends"), group("rail corners"), group("post top")]
    names = ("post-top guys", "beam-end guys", "corner guys", "post-top guys 2")
    assert group_names(groups) == names


def test_a_name_given_is_kept() -> None:
    assert group_names([group("post top", name="yard guys")]) == ("yard guys",)


@pytest.mark.parametrize("name", ["bare", "Knees", "a, b", "a + b", "all"])
def test_names_that_could_be_mistaken_are_refused(name: str) -> None:
    notes = Notes("us")
    build_guys(notes, [group("post top", name=name)])
    assert [problem.where for problem in notes.problems] == ["guys.name"]


def test_pretension_is_a_pull_by_hand() -> None:
    """1/4 in EHS strand breaks at 6650 lb (ASTM A475), so 200 lb is well under 10 %."""
    notes = Notes("us")
    (guys,) = build_guys(notes, [group("post top")])
    assert guys.pretension == pytest.approx(200 * 4.4482216)
    assert "guys.pretension" in [a.key for a in notes.assumptions]


@pytest.mark.parametrize("attach", ["beam ends", "rail corners"])
def test_guys_that_would_bend_the_rack_are_snug(attach: str) -> None:
    """Snug is a pull of 50 lb: judgement."""
    notes = Notes("us")
    (guys,) = build_guys(notes, [group(attach)])
    assert guys.pretension == pytest.approx(50 * 4.4482216)
    said = {a.key: a.value for a in notes.assumptions}
    assert said["guys.pretension"] == "50 lb, snug"


def test_pretension_of_thin_wire_stays_at_a_tenth_of_breaking() -> None:
    """1/8 in common strand breaks at 540 lb (ASTM A475)."""
    (guys,) = build_guys(Notes("us"), [group("post top", wire="1/8 in common strand")])
    assert guys.pretension == pytest.approx(54 * 4.4482216)
