"""Figures as JSON: plain numbers in millimetres and kilograms, at least six decimals, never NaN."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

from generator.figures.model import Figures
from generator.units.format import plain

#: Keys of the contract that Python keeps for itself.
_KEYS = {"for_": "for", "with_": "with"}


def figures_data(figures: Figures) -> dict[str, Any]:
    """The figures as dictionaries, lists, strings and numbers. Raises ValueError for a number that is not finite."""
    data: dict[str, Any] = _plain(figures)
    return data


def figures_json(figures: Figures) -> str:
    """The figures as JSON text, keys in the order of the model, ending with a newline."""
    return json.dumps(figures_data(figures), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def data_json(value: object) -> str:
    """Any frozen result as JSON text, in the manner of the figures."""
    return json.dumps(_plain(value), indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def _plain(value: Any) -> Any:
    if is_dataclass(value):
        return {
            _KEYS.get(f.name, f.name): _plain(getattr(value, f.name))
            for f in fields(value)
            if not f.metadata.get("silent")
        }
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    if isinstance(value, bool | str) or value is None:
        return value
    if isinstance(value, Fraction | float | int):
        return plain(value)
    raise TypeError(f"{type(value).__name__} has no place in figures.json")
