"""Pipes as a builder knows them: by name, by calipers, by the scale."""

import pytest

from frame.casefile.assemble.pipe import build_pipe
from frame.casefile.keys.pipes import PipeKeys
from frame.casefile.notes import Notes

INCH = 0.0254


def make(keys: str | dict[str, str], steel: str | None = "A53 B") -> tuple:
    notes = Notes("us")
    read = keys if isinstance(keys, str) else PipeKeys.model_validate(keys)
    return build_pipe(notes, "post", read, steel), notes


def test_listed_standard_pipe_counts_093_of_its_wall() -> None:
    """AISC 360-22 B4.2: 0.93 of the nominal wall of electric-resistance-welded pipe."""
    pipe, notes = make("4 in nominal")
    assert pipe.od == pytest.approx(4.5 * INCH)  # ASME B36.10M
    assert pipe.wall == pytest.approx(0.237 * INCH)  # ASME B36.10M
    assert pipe.design.wall == pytest.approx(0.93 * 0.237 * INCH)
    assert not notes.problems
    assert not notes.assumptions


def test_unmeasured_tubing_counts_less_and_says_so() -> None:
    pipe, notes = make("2-7/8 in tubing 6.5 lb/ft")
    assert pipe.wall_factor == 0.875  # judgement
    assert [a.key for a in notes.assumptions] == ["post.pipe.condition"]


@pytest.mark.parametrize(
    ("keys", "factor"),
    [
        ({"listed": "4 in nominal", "condition": "pitted"}, 0.75),
        ({"listed": "4 in nominal", "condition": "sound"}, 0.93),
        ({"listed": "2-7/8 in tubing 6.5 lb/ft", "condition": "sound"}, 0.875),
        ({"od": "4.5 in", "wall": "0.22 in", "condition": "pitted"}, 0.93),
        ({"od": "4.5 in", "weight": "10.2 lb/ft"}, 0.93),
        ({"od": "4.5 in", "weight": "10.2 lb/ft", "condition": "pitted"}, 0.75),
    ],
)
def test_wall_counted_on(keys: dict[str, str], factor: float) -> None:
    pipe, notes = make(keys)
    assert pipe.wall_factor == factor
    assert not notes.problems


def test_a_weighed_standard_pipe_gets_its_listed_wall_back() -> None:
    """Nominal 3 sch 40: 3.500 x 0.216 in, 7.58 lb/ft (ASME B36.10M)."""
    pipe, _ = make({"od": "3.5 in", "weight": "7.58 lb/ft"})
    assert pipe.wall == pytest.approx(0.216 * INCH, rel=3e-3)


def test_a_measured_pipe_gets_its_listed_weight_back() -> None:
    """Nominal 6 sch 40: 6.625 x 0.280 in, 18.97 lb/ft (ASME B36.10M)."""
    pipe, _ = make({"od": "6.625 in", "wall": "0.280 in"})
    assert pipe.weight == pytest.approx(18.97 * 4.4482216 / 0.3048, rel=2e-3)


def test_rust_comes_off_the_outside() -> None:
    pipe, _ = make({"od": "4 in", "wall": "0.25 in", "rust": "1/32 in"})
    assert pipe.design.od == pytest.approx((4 - 1 / 16) * INCH)
    assert pipe.design.wall == pytest.approx((0.93 * 0.25 - 1 / 32) * INCH)


def test_steel_nobody_identified_is_taken_as_weak() -> None:
    pipe, notes = make("4 in nominal", None)
    assert not pipe.steel.identified
    assert notes.assumptions[-1].key == "post.steel"
    assert "30 ksi" in notes.assumptions[-1].value
