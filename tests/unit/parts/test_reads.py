"""Which uncertain inputs a check is said to read: no other changes its use."""

from dataclasses import replace

import numpy as np
import pytest

from frame.loads.expected_winds import CASE_B, ONE_SIDED, WIND
from frame.rack.sleeve import Pin
from frame.search.searched import Search
from frame.search.stack import whole
from frame.solved.blocks import split
from frame.tables import soils
from frame.tables.expected import MEDIANS, variants
from tests.builders import MPH, case, case_models, models_of

BY_THE_LOADS = {WIND, ONE_SIDED, CASE_B}


def sandy():
    """A pinned post in concrete and sand, splices in the beam."""
    rack = case("salvage_yard")
    footing = replace(rack.posts.footing, backfill="concrete")
    return replace(
        rack,
        site=replace(rack.site, soil=soils.find("sandy gravel")),
        posts=replace(rack.posts, footing=footing),
        sleeve=replace(rack.sleeve, lock=Pin(diameter=0.016)),
        beam=replace(rack.beam, splices=(0.3,)),
    )


RACKS = {
    "boat_shed": lambda: case_models("boat_shed", ("knees", "guys")),
    "wash_house": lambda: case_models("wash_house", ("knees", "ties")),
    "salvage_yard": lambda: case_models("salvage_yard", ("post-top guys", "corner guys")),
    "hay_barn": lambda: case_models("hay_barn", ("knees", "ties", "guys")),
    "sandy": lambda: models_of(sandy()),
}


@pytest.mark.parametrize("name", list(RACKS))
def test_an_input_that_no_checker_asked_for_changes_no_use_of_its_checks(name):
    """Every variant of a few cases, weak and strong wind, against the medians."""
    _, blocks = split(RACKS[name]())
    work = Search.of(blocks)
    winds = range(0, len(work.tables[0].labels), 7)
    rows = [(case, gust * MPH) for case in winds for gust in (15.0, 60.0)]
    count = len(variants())
    case_of = np.repeat([c for c, _ in rows], count)
    gust = np.repeat([g for _, g in rows], count)
    variant = np.tile(np.arange(count), len(rows))
    used = work.used(whole(work.blocks, work.tables, 0 * case_of, case_of, gust, variant))
    moved = set()
    for key, one in used.items():
        use = one.use.reshape(len(rows), count)
        differs = ~np.isclose(use, use[:, [MEDIANS]], rtol=1e-9, atol=1e-12).all(axis=0)
        changing = {variants()[j].key for j in np.flatnonzero(differs)}
        assert changing <= one.read | BY_THE_LOADS, (key, changing - one.read)
        moved |= changing - BY_THE_LOADS
    assert moved, "no input changes any use: nothing was tried"
