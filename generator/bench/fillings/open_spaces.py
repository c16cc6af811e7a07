"""Spaces that a stack leaves empty."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fillings.facts import Opening, Solved, StackSlot
from generator.bench.fillings.kind import FillingKind
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.place import Place
from generator.geometry import Span
from generator.spec.load import LoadedSpec


@dataclass(frozen=True)
class OpenSpace:
    """A space that the stack leaves empty; `bottom` above the frame's underside."""

    bay: str
    number: int
    bottom: Fraction
    height: Fraction

    @property
    def place(self) -> Place:
        """Its bay."""
        return Place(bay=self.bay)

    @property
    def fills_width(self) -> Span | None:
        """Strips may pass it."""
        return None

    @property
    def takes(self) -> Span | None:
        """Nothing is there."""
        return None


class OpenSpaces(FillingKind[OpenSpace]):
    """Room of a height, without a piece."""

    kind, placed = "open", OpenSpace

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[OpenSpace]:
        """Each where its slot is."""
        for number, slot in enumerate(slots, 1):
            yield OpenSpace(bay.name, number, slot.bottom, slot.height)

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """Itself."""
        for each in bench.storage.of(OpenSpace):
            top = each.bottom + each.height
            yield Opening(each.bay, f"open {each.number}", each.height, each.bottom, top)
