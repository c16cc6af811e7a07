"""What a material is called on a page: what it is, and small beside it its name in the spec."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from markupsafe import Markup

from generator.figures.model import Figures
from generator.figures.rows.buying import Purchase
from generator.pages.literal import literal
from generator.spec.labels import with_name


class Materials:
    """Filters for one manual."""

    def __init__(self, figures: Figures) -> None:
        self._labels = figures.materials

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {"material": self.material, "made_of": self.made_of, "item": self.item}

    def made_of(self, name: str) -> str:
        """What the material is; a name of anything else stays as it is."""
        return self._labels.get(name, name)

    def material(self, name: str) -> str:
        """What it is, with its name in the spec where the words do not have it."""
        label = self.made_of(name)
        if with_name(label, name) == label:
            return label
        return Markup('{} <small class="bm-key">{}</small>').format(literal(label), literal(name))

    def item(self, row: Purchase) -> str:
        """A line of the shopping list: hardware by its own name."""
        return row.item if row.unit == "pieces" else self.material(row.item)
