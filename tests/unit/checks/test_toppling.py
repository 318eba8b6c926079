"""A rack that its own loads sway over: the use is the forces counted over those it would take."""

import numpy as np
import pytest

from frame.checks.toppling import toppling
from tests.step_check import assert_steps, printed


def test_use_and_its_steps_by_hand() -> None:
    """AISC 360-22 C2: 1.6 on ASD loads over 0.8 on the stiffness is 2; a rack good for 5 uses 0.4.

    At its own factor it has none left; where nothing is pressed it uses next to nothing.
    """
    check = toppling(np.array([5.0, 2.0, np.inf]), 1.6 / 0.8)
    assert check.utilisation == pytest.approx([0.4, 1.0, 0.0], abs=0.0021)
    assert printed(check.steps, "U")[:2] == pytest.approx([0.4, 1.0])
    for case in range(3):
        assert_steps(check, (case,))
