"""What weighs on the rack, and the chain from the map gust to the force on it, as plain data."""

from collections.abc import Sequence

from frame.loads.wind import DIRECTIONALITY, GUST_EFFECT
from frame.rack.rack import Rack
from frame.records.results import BracingResult
from frame.report.data.plain import Data
from frame.units import DEG
from frame.verdict.weights import lying
from frame.verdict.wind_forces import wind_forces


def weights_data(rack: Rack) -> list[Data]:
    """Return what weighs on the rack beside the wind for JSON, SI."""
    return [
        {
            "load": one.words,
            "tilt_deg": None if one.tilt is None else one.tilt / DEG,
            "pressure": one.pressure,
            "weight": one.total,
            "source": one.source,
        }
        for one in lying(rack)
    ]


def wind_data(rack: Rack, results: Sequence[BracingResult]) -> list[Data]:
    """Return the chain at every tilt for JSON, SI.

    Forces are those of `gust_effect`; the code's margin of `results` counts `gust_effect_slow` at
    most, where that is more.
    """
    slow = max((r.gust_effect for r in results), default=GUST_EFFECT)
    return [
        {
            "tilt_deg": at.tilt / DEG,
            "gust": rack.site.map_gust,
            "height": at.height,
            "exposure_factor": at.exposure,
            "hill_factor": at.hill,
            "elevation_factor": at.elevation,
            "velocity_pressure": at.pressure,
            "directionality": DIRECTIONALITY,
            "gust_effect": GUST_EFFECT,
            "gust_effect_slow": slow if slow > GUST_EFFECT else None,
            "area": rack.panels.area,
            "share_pressing": at.share.pressing,
            "share_lifting": at.share.lifting,
            "forces": [
                {
                    "wind": one.wind.name,
                    "low": one.low,
                    "high": one.high,
                    "square": one.square,
                    "level": one.level,
                    "down": one.down,
                    "about_beam": one.about_beam,
                    "at_grade": one.at_grade,
                    "swing": one.swing,
                }
                for one in at.forces
            ],
        }
        for at in wind_forces(rack)
    ]
