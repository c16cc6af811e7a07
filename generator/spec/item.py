"""What every mapping of a spec is, and what all bought fittings have in common."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from generator.spec.fields import Date, Mass, Number, PackSize, Words
from generator.spec.key_words import words_below


class Node(BaseModel):
    """A mapping of the spec. Unknown keys are refused; values never change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=True, defer_build=True)

    @classmethod
    def __pydantic_init_subclass__(cls, **_: Any) -> None:
        """The words below a key describe it."""
        for name, words in words_below(cls).items():
            if name in cls.model_fields:
                cls.model_fields[name].description = cls.model_fields[name].description or words


@dataclass(frozen=True)
class FromMemory:
    """Beside a key: why its default is no more than a guess, for the list of assumed values."""

    says: str


#: The key `from` of all that is bought. It is a word of Python, so it cannot be written as a field.
FROM = Annotated[
    Words, Field(default="", description="Who sells it, in your own words. Each supplier gets an order list.")
]


def supplier(card: Any) -> str:
    """Who sells what a card is about; empty where the spec does not say so."""
    return str(getattr(card, "from", ""))


@dataclass(frozen=True)
class Outline:
    """What goods look like from one side, by the sizes of their card (mm): a rectangle, a disc, or an angle.

    `holes` are (from the left, from below, diameter), 0 where no card says how wide. An angle has the `leg` thick.
    A `guessed` width is on no card.
    """

    view: str
    size: tuple[Fraction, Fraction]
    holes: tuple[tuple[Fraction, Fraction, Fraction], ...] = ()
    disc: bool = False
    leg: Fraction | None = None
    guessed: bool = False


@dataclass(frozen=True)
class ScrewOutline:
    """A screw from the side (mm): its shank, its length as it is sold, and its head as width and height.

    Head sorts are those of `calculators.screw_heads`; a `wood` screw has a point. `sold` is its size in words.
    """

    sold: str
    shank: Fraction
    length: Fraction
    pitch: Fraction
    sort: str
    head: tuple[Fraction, Fraction]
    wood: bool = False


Look = Outline | ScrewOutline


class HardwareItem(Node):
    """What all bought fittings have in common."""

    use: Words = ""
    """Name of a typical data card, such as `slide 500`. Its values are marked "measure yours"."""
    measured: Date = ""
    """Date on which you measured the values, such as 2026-10-28."""
    mass: Mass | None = None
    """Mass of one piece (of one pair, for slides), such as 0.02 kg."""
    pack: PackSize | None = None
    """Pieces in a pack. Default: sold singly."""
    price: Number | None = None
    """Price of one pack, or of one piece without `pack`."""
    __annotations__["from"] = FROM

    @property
    def looks(self) -> tuple[Look, ...]:
        """How it is drawn by the sizes of its card; nothing where the card has none that show."""
        return ()
