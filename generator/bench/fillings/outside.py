"""What is bolted to the frame and fills no bay: it brings goods, bodies and steps as what fills a bay does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from generator.bench.fillings.facts import StackSlot
from generator.bench.fillings.kind import FillingKind
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.place import Place
from generator.geometry import Span
from generator.spec.fillings import StackItem
from generator.spec.load import LoadedSpec


@dataclass(frozen=True)
class Nothing:
    """What it places in a bay: there is never one."""

    bay: str = ""
    number: int = 0
    place: Place = field(default_factory=Place)
    fills_width: Span | None = None
    takes: Span | None = None


class OutsideBays(FillingKind[Nothing]):
    """A kind that no stack names."""

    placed = Nothing

    @property
    def stacks(self) -> bool:
        """It is in no stack."""
        return False

    def takes(self, item: StackItem) -> bool:
        """No item is of this kind."""
        return False

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[Nothing]:
        """Nothing in any bay."""
        yield from ()
