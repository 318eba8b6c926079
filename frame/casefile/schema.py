"""The JSON Schema of a rack file, from the same models that read it."""

import json
from typing import Any

from frame.casefile.keys.rack import RackKeys

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a rack file, every key described."""
    return {"$schema": DIALECT, **RackKeys.model_json_schema(), "title": "Rack file"}


def schema_text() -> str:
    """Return the JSON Schema as indented text."""
    return json.dumps(schema(), indent=2)
