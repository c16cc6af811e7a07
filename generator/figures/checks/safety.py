"""Which checks someone can be hurt by, each with the caution that belongs to it."""

from __future__ import annotations

from collections.abc import Mapping

#: Code of a check -> key of the caution that stands before it.
SAFETY: Mapping[str, str] = {
    "tips-by-pull": "tip",
    "drawer-tips": "tip",
    "drawers-open": "tip",
    "tote-bearing": "tip",
    "lift-weight": "lift",
}
