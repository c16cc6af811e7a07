"""The JSON Schema of the spec language."""

from __future__ import annotations

import json
from typing import Any

from generator.spec.cards import SECTIONS
from generator.spec.schema import Spec

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_json() -> str:
    """JSON Schema (draft 2020-12) as text, ending with a newline."""
    data = _as_written(Spec.model_json_schema())
    return (
        json.dumps({"$schema": DIALECT, **data, "title": "bench-manual spec"}, indent=1, ensure_ascii=False)
        + "\n"
    )


def _as_written(data: dict[str, Any]) -> dict[str, Any]:
    """Fit the models' schema to what a user may write: `spec: 1` as a number, entries that only say `use:`."""
    properties = data["properties"]
    properties["spec"] = {"enum": [1, "1"], "description": "Version of the language."}
    card = {
        "type": "object",
        "properties": {"use": {"type": "string", "description": "Name of a typical data card."}},
        "required": ["use"],
    }
    for section in SECTIONS:
        entry = properties[section]["additionalProperties"]
        properties[section]["additionalProperties"] = {"anyOf": [entry, card]}
    return data
