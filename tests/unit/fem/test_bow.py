"""What an axial force adds at the ends of a member that bends between them: statics by hand."""

import numpy as np
import pytest

from frame.fem.bow import bow

LENGTH = np.array([2.0, 0.5])


def added(forces: np.ndarray, tension: float) -> np.ndarray:
    """What comes on top, (M, 12, n), where N L2 / E I is 0.3 about y and 0.6 about z."""
    after = forces.copy()
    pull = np.full((len(forces), forces.shape[2]), tension)
    bow(after, pull, np.array([[0.3, 0.6]] * len(forces)) / 100.0, LENGTH[: len(forces)])
    return after - forces


def test_what_comes_on_top_is_in_balance() -> None:
    """Moments about the first end and shears of each plane, local axes, right-handed."""
    more = added(np.random.default_rng(4).normal(size=(2, 12, 3)), 100.0)
    L = LENGTH[:, None]
    assert more[:, 11] != pytest.approx(0.0, abs=1e-6)
    assert more[:, 5] + more[:, 11] + L * more[:, 7] == pytest.approx(0.0, abs=1e-12)
    assert more[:, 4] + more[:, 10] - L * more[:, 8] == pytest.approx(0.0, abs=1e-12)
    assert more[:, 1] + more[:, 7] == pytest.approx(0.0, abs=1e-12)
    assert more[:, 2] + more[:, 8] == pytest.approx(0.0, abs=1e-12)
    assert not more[:, [0, 3, 6, 9]].any()


def test_a_moment_at_one_end_grows_by_a_twentieth_of_it() -> None:
    """McGuire, Gallagher and Ziemian Eq. 9.13 (from memory): c M / 20 there, -c M / 30 beyond."""
    forces = np.zeros((1, 12, 1))
    forces[0, 5] = 60.0
    more = added(forces, 100.0)[0, :, 0]
    assert more[[5, 11]] == pytest.approx([0.6 * 60 / 20, -0.6 * 60 / 30])
    assert more[1] == pytest.approx((0.6 * 60 / 20 - 0.6 * 60 / 30) / 2.0)
