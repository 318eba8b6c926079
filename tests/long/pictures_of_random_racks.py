"""Pictures of sixty random racks: no label on another or on steel, nothing off the sheet.

.venv/bin/python -m pytest tests/long/pictures_of_random_racks.py
"""

import pytest

from frame.draw.rack_sheet import force_sheet, space_sheet
from frame.draw.two_panes import two_panes
from frame.errors import DisagreementError
from frame.pictured.beside import of_bracing
from tests.drawn import clashes, off_the_sheet, on_steel
from tests.random_racks import random_rack


@pytest.mark.parametrize("seed", range(60))
def test_pictures_of_a_random_rack(seed: int) -> None:
    rack = random_rack(seed)
    shown = of_bracing(rack, rack.bracing_names)
    figures = [two_panes(shown, rack.units), space_sheet(shown, rack.units)]
    try:
        figures += [force_sheet(shown, what, rack.units) for what in ("moments", "shear", "axial")]
    except DisagreementError:
        pytest.skip("the two solvers disagree: nothing is drawn")
    for figure in figures:
        figure.canvas.draw()
        assert not clashes(figure)
        assert not off_the_sheet(figure)
        assert not on_steel(figure)
