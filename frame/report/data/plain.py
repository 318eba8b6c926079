"""What every JSON document begins and ends with, and plain numbers in between."""

import math
from typing import Any

import numpy as np

from frame.rack.rack import Rack
from frame.report.cautioned import warnings
from frame.report.data.built import built_data
from frame.units import DEG

SCHEMA = 1
METHOD = "ASD"
Data = dict[str, Any]


def document_opening(rack: Rack) -> Data:
    """Return what every document begins with."""
    site = rack.site
    return {
        "schema": SCHEMA,
        "rack": rack.name,
        "method": METHOD,
        "site": {
            "map_gust": site.map_gust,
            "service_gust": site.service_gust,
            "exposure": site.exposure,
            "elevation": site.elevation,
            "hill_factor": site.hill_factor,
            "flow": list(site.flow),
            "soil": site.soil.name,
        },
        "tilts_deg": [t / DEG for t in rack.tilts],
    }


def footing_data(rack: Rack) -> Data:
    """Return what every document ends with: what was assumed, and the warnings."""
    return {
        "assumptions": [
            {"key": a.key, "value": a.value, "errs": a.errs, "find_out": a.find_out}
            for a in rack.assumptions
        ],
        "counted_on": built_data(rack),
        "warnings": list(warnings(rack)),
    }


def finite(document: Data) -> Data:
    """Return the same data with plain numbers, and null for what is infinite or undefined."""
    return {key: _plain(value) for key, value in document.items()}


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return finite(value)
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    if isinstance(value, np.generic):
        value = value.item()
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value
