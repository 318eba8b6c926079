"""Second order of whole racks against the exact buckling factors of the frame."""

from dataclasses import replace

import numpy as np
import pytest

from frame.fem.buckling import buckling_factors
from frame.fem.cases import Answer, Shapes
from frame.fem.ritz import Ritz
from frame.loads.cases import ASD, WHOLE_WIND
from frame.study.frames import Block
from frame.study.situation import situation
from frame.study.stability import BUCKLED, buckling_factor, second_order
from tests.builders import case_blocks, every_bracing, load


def exact(block: Block, answer: Answer, cases: np.ndarray) -> np.ndarray:
    """Lowest factors of the whole frame, guys as stiff as they are at this corner."""
    model = block.with_band(block.band[0])
    return buckling_factors(replace(answer, response=replace(answer.response, model=model)), cases)


@pytest.mark.parametrize(("name", "bracing"), every_bracing())
def test_factor_of_the_whole_frame(name: str, bracing: tuple[str, ...]) -> None:
    for block in case_blocks(name, bracing)[::3]:
        gust = block.frame.rack.site.map_gust
        tables = ((ASD, gust), (WHOLE_WIND, 1.4 * gust), (WHOLE_WIND, 0.5 * gust))
        answers = [situation(block, block.frame.cases(c), [g]).answer for c, g in tables]
        answers.append(situation(block, block.frame.fixed_cases(), [gust]).answer)
        for answer in answers:
            found = buckling_factor(block.shapes, answer)
            cases = np.argsort(found)[:: max(1, len(found) // 4)][:3]
            factors = exact(block, answer, cases)
            assert (found[cases] <= factors).all()
            low = factors < 50
            assert (found[cases][low] >= 0.95 * factors[low]).all()


def test_a_heavier_rack_never_has_a_higher_factor() -> None:
    block = case_blocks("boat_shed")[0]
    factors = np.zeros((30, len(block.response.displacements)))
    weights = [load(block, "steel weight"), load(block, "panel weight")]
    factors[:, weights] = np.linspace(0.2, 60.0, 30)[:, None]
    answer = block.answer(factors)
    assert (np.diff(buckling_factor(block.shapes, answer)) < 0).all()
    grown = second_order(block.shapes, answer)
    assert (np.diff(grown) >= 0).all()
    assert grown[0] < 1.1
    assert grown[-1] == BUCKLED


@pytest.mark.parametrize(
    ("factor", "expected"),
    [(20.0, 1.1139), (4.0, 2.0250), (2.0, BUCKLED), (1.5, BUCKLED), (-3.0, 1.0012)],
)
def test_sway_grown_by_hand(factor: float, expected: float) -> None:
    # lambda 4: 1/lambda 0.25 x 1.01 + 0.0006 = 0.2531; B = 1 / (1 - 1.6 / 0.8 x 0.2531) = 2.025.
    # lambda 20: 0.0511, B = 1.1138; tension: 0.0006, B = 1.0012.
    block = case_blocks("fifteen_lines")[0]
    answer = replace(
        block.answer(np.zeros((1, len(block.response.displacements)))), factors=np.array([[1.0]])
    )
    none = np.zeros(1)
    shapes = Ritz(
        geometric=np.array([[[-1 / factor]]]),
        pulls=np.zeros((1, 0)),
        pushes=np.zeros((1, 1, 1)),
        shapes=Shapes(
            displacements=none,
            member_forces=none,
            connection_forces=none,
            reactions=none,
            slender=none,
        ),
    )
    assert second_order(shapes, answer)[0] == pytest.approx(expected, abs=2e-4)
