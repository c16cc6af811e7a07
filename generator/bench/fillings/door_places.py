"""A door in its bay: where it is, how large it is, on which side it turns, and where its hinges are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fillings.covers import overlay_of, overlays
from generator.bench.frames.panels import trim_thickness
from generator.bench.layout import BayPlace, Layout
from generator.bench.place import End, Item, Place
from generator.calculators.doors import hinge_count, hinge_places, inset_size, overlay_size
from generator.calculators.mass import solid_mass
from generator.geometry import Span
from generator.provenance import least
from generator.spec.load import LoadedSpec

GROUP = "door"
#: Screws of each leaf, cup and plate of a hinge. Common practice, no source.
PER_LEAF = 2


@dataclass(frozen=True)
class PlacedDoor:
    """A door: its `size` in the bay's `x` and in height `z` (mm), hinges above its lower end (mm), mass (kg)."""

    bay: str
    number: int
    hinge_side: End
    x: Span
    z: Span
    thickness: Fraction
    hinges: tuple[Fraction, ...]
    mass: float

    @property
    def place(self) -> Place:
        """Where its board is."""
        return Place(bay=self.bay, item=Item(GROUP, self.number))

    @property
    def name(self) -> str:
        """What a reader calls it."""
        return f"bay {self.bay}, door {self.number}"

    @property
    def fills_width(self) -> Span | None:
        """It is before all strips."""
        return None

    @property
    def takes(self) -> Span | None:
        """It is before all things."""
        return None

    def hinge_name(self, number: int) -> str:
        """What one of its hinges is called as a body."""
        return f"hinge {self.bay}.{self.number}.{number}"


def placed_doors(loaded: LoadedSpec, layout: Layout, bay: BayPlace) -> Iterator[PlacedDoor]:
    """One door that turns on its side of the opening, or a pair."""
    if bay.spec.door is None:
        return
    rules, sheet = loaded.spec.doors, loaded.goods.sheets[loaded.spec.doors.material]
    sides: tuple[End, ...] = ("left", "right") if bay.spec.door.hinge == "pair" else (bay.spec.door.hinge,)
    width, height, left, low = _sizes(loaded, layout, bay, len(sides))
    mass = solid_mass(width * height * sheet.thickness, sheet.density)
    count = hinge_count(height, width, mass)
    for number, side in enumerate(sides, 1):
        start = left + (number - 1) * (width + rules.gap)
        yield PlacedDoor(
            bay.name, number, side, Span(start, start + width), Span(low, low + height), sheet.thickness,
            hinge_places(height, count), mass,
        )  # fmt: skip


def _sizes(
    loaded: LoadedSpec, layout: Layout, bay: BayPlace, count: int
) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Width and height of each door of a bay, and where the first begins: in the opening, or over its edges."""
    gap, opening, start = loaded.spec.doors.gap, layout.levels.opening, bay.x.middle - bay.clear / 2
    if not overlays(loaded):
        width, height = inset_size(bay.clear, gap, count), inset_size(opening, gap, 1)
        return width, height, start + gap, layout.levels.base_top + gap
    over = overlay_of(loaded)
    above = over
    if loaded.spec.tray.there:
        above = least(over, trim_thickness(loaded) + loaded.goods.tray.thickness)
    width = overlay_size(bay.clear, 2 * over, gap, count)
    return width, opening + over + above, start - over, layout.levels.base_top - over
