"""What goods are called on a page: what they are, and small beside it their name in the spec."""

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
        self._kinds = {row.item: row.kind for row in figures.hardware if row.has_card}
        #: names that are the kind's own with hyphens
        self._plain = {name: kind for name, kind in self._kinds.items() if name.replace("-", " ") == kind}

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {
            "material": self.material,
            "made_of": self.made_of,
            "item": self.item,
            "fitting": self.fitting,
            "spoken": self.spoken,
        }

    def made_of(self, name: str) -> str:
        """What the material is; a name of anything else stays as it is."""
        return self._labels.get(name, name)

    def material(self, name: str) -> str:
        """What it is, with its name in the spec where the words do not have it."""
        label = self.made_of(name)
        return label if with_name(label, name) == label else _beside(label, name)

    def fitting(self, name: str) -> str:
        """What a piece of hardware is, with its name in the spec where that is another word."""
        kind = self._kinds.get(name, name)
        return kind if name in self._plain or name == kind else _beside(kind, name)

    def spoken(self, text: str) -> str:
        """A text in which the spec's `end-clip` is the trade's end clip; a material's name alone says what it is."""
        if text in self._labels:
            return self.material(text)
        for name, kind in self._plain.items():
            text = text.replace(name, kind)
        return text

    def item(self, row: Purchase) -> str:
        """A line of the shopping list."""
        return self.fitting(row.item) if row.unit == "pieces" else self.material(row.item)


def _beside(label: str, name: str) -> Markup:
    return Markup('{} <small class="bm-key">{}</small>').format(literal(label), literal(name))
