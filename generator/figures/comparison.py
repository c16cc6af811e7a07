"""What a comparison of two benches comes to. Lengths in mm, masses in kg, as in the figures themselves."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.figures.rows.checks import Check
from generator.figures.rows.parts import NotchRow, OperationRow
from generator.figures.rows.spec import SpecFacts

Length = Fraction


@dataclass(frozen=True)
class Piece:
    """One piece with all that it is. Tongues, notches and operations are in one order, so that equal ones are equal."""

    mark: str
    name: str
    group: str
    material: str
    kind: str
    length: Length
    width: Length
    thickness: Length
    mass: float
    along: str
    across: str
    grain: str
    tongue_thickness: Length | None
    rabbet_depth: Length | None
    rabbet_length: Length | None
    corner: tuple[Length, Length, Length]
    where: str
    tongues: tuple[tuple[str, Length], ...] = ()
    bands: tuple[tuple[str, Length], ...] = ()
    """Banding on its edges; `length` and `width` are without it."""
    notches: tuple[NotchRow, ...] = ()
    operations: tuple[OperationRow, ...] = ()


@dataclass(frozen=True)
class FieldChange:
    """A value by its name, before and after; None where there was or is none."""

    what: str
    old: Any
    new: Any


@dataclass(frozen=True)
class ActChange:
    """An operation or a notch: gone (no new one), added (no old one), or another one in its place."""

    old: OperationRow | NotchRow | None
    new: OperationRow | NotchRow | None


@dataclass(frozen=True)
class PartChange:
    """A piece that was added, removed or changed.

    `how` is what a piece that is cut already needs: new piece, trim, rework or nothing; `recut` is yes for the first.
    `state` is how far it is by the new record. `piece` is the whole piece when it was added.
    """

    mark: str
    name: str
    change: str
    how: str
    recut: bool
    state: str
    fields: tuple[FieldChange, ...] = ()
    acts: tuple[ActChange, ...] = ()
    piece: Piece | None = None


@dataclass(frozen=True)
class RowChange:
    """A row of another section of the figures (drawers, sticks, hardware …) by its key."""

    section: str
    key: str
    change: str
    fields: tuple[FieldChange, ...] = ()


@dataclass(frozen=True)
class StockChange:
    """How many bars or sheets of a material are planned, and what those to buy cost (None without prices)."""

    material: str
    old_count: int
    new_count: int
    old_cost: float | None
    new_cost: float | None


@dataclass(frozen=True)
class Comparison:
    """All differences of two benches; empty when they are the same bench."""

    old: SpecFacts
    new: SpecFacts
    parts: tuple[PartChange, ...]
    rows: tuple[RowChange, ...]
    stock: tuple[StockChange, ...]
    failing: tuple[Check, ...]
    """Checks that fail now and did not."""
    mended: tuple[Check, ...]
    """Checks that failed and do no longer."""
    old_cost: float = 0.0
    """What all purchases with a price came to."""
    new_cost: float = 0.0

    @property
    def is_empty(self) -> bool:
        """True when nothing differs that a builder could see."""
        return not (self.parts or self.rows or self.stock or self.failing or self.mended)
