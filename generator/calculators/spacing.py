"""Dividing a length into fixed sizes and weighted shares, exactly; and where each piece then begins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import rounded_down, rule


@dataclass(frozen=True)
class Share:
    """A part of what the fixed sizes leave, in proportion to its weight."""

    weight: Fraction

    def __str__(self) -> str:
        return "share" if self.weight == 1 else f"share {self.weight}"


@dataclass(frozen=True)
class Division:
    """The sizes of all items in order. `residual` is what nobody takes: 0 when the sum holds.

    A negative residual says by how much the fixed sizes are too long.
    """

    sizes: tuple[Fraction, ...]
    residual: Fraction

    @property
    def ok(self) -> bool:
        """True when the sizes add up to the total exactly; there is no tolerance."""
        return self.residual == 0 and all(size > 0 for size in self.sizes)


@rule("geometry")
def divide(total: Fraction, items: Sequence[Fraction | Share]) -> Division:
    """Shares divide what the fixed sizes leave, in proportion to their weights, exactly.

    Sizes and total in mm: b_j = (total - sum f) k_j / sum k.
    """
    fixed = sum((item for item in items if isinstance(item, Fraction)), Fraction(0))
    weights = sum((item.weight for item in items if isinstance(item, Share)), Fraction(0))
    rest = total - fixed
    if not weights:
        return Division(tuple(item for item in items if isinstance(item, Fraction)), rest)
    if rest <= 0:
        sizes = tuple(item if isinstance(item, Fraction) else Fraction(0) for item in items)
        return Division(sizes, rest)
    alone = sum(isinstance(item, Share) for item in items) == 1
    sizes = tuple(
        item if isinstance(item, Fraction) else rest if alone else rest * item.weight / weights
        for item in items
    )
    return Division(sizes, Fraction(0))


@rule("common practice, no source")
def round_shares(
    sizes: Sequence[Fraction], items: Sequence[Fraction | Share], step: Fraction, remainder: int
) -> tuple[Fraction, ...]:
    """Every share is rounded down to a step that a tape can set; one bay takes the rest.

    `step` in mm; the item at index `remainder` takes the rest.

    The sum stays what it was. Raises ValueError when `remainder` is not the index of a share.
    """
    if not isinstance(items[remainder], Share):
        raise ValueError("the remainder must fall in a share")
    rounded = [
        rounded_down(size, step) if isinstance(item, Share) else size
        for size, item in zip(sizes, items, strict=True)
    ]
    rounded[remainder] += sum(sizes) - sum(rounded)
    return tuple(rounded)


def starts(sizes: Sequence[Fraction], first: Fraction, between: Fraction) -> tuple[Fraction, ...]:
    """Where each item begins (mm, absolute), the first at `first`, with `between` after each one."""
    found = [first]
    for size in sizes[:-1]:
        found.append(found[-1] + size + between)
    return tuple(found)
