"""ASCE/SEI 7-22 2.4.1 combination 6: snow and wind together are looked at where it snows."""

from dataclasses import replace

from frame.loads.combinations import ASD_SNOW
from frame.search.survey import survey
from frame.solved.blocks import both_models, split
from frame.solved.frames import solve_frames
from frame.solved.situation import situations, wintry
from tests.unit.parts.racks import ONE_POST


def test_snow_and_wind_act_together_where_it_snows() -> None:
    tilts = ONE_POST.tilts[:1]
    for snow in (0.0, 3000.0):
        rack = replace(ONE_POST, site=replace(ONE_POST.site, snow=snow))
        found = both_models(solve_frames(rack, [()], tilts), (), tilts)
        labels = {label for now in situations(split(found)[0]) for label in now.table.labels}
        name = ASD_SNOW[1].name
        assert any(label.startswith(name) for label in labels) == (snow > 0)
        assert bool(wintry(found[0])) == (snow > 0)
        governed = [row.case.startswith(name) for row in survey(found)]
        assert any(governed) == (snow > 0)
