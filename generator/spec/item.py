"""What every mapping of a spec is, and what all bought fittings have in common."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict

from generator.spec.fields import Mass, Number, PackSize, Words


class Node(BaseModel):
    """A mapping of the spec. Unknown keys are refused; values never change after reading."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, validate_default=True, use_attribute_docstrings=True
    )


class HardwareItem(Node):
    """What all bought fittings have in common."""

    use: Words = ""
    """Name of a typical data card; its values are marked "measure yours"."""
    measured: Words = ""
    """Date on which the values were measured."""
    mass: Mass | None = None
    """Mass of one piece (of one pair, for slides)."""
    pack: PackSize | None = None
    """Pieces in a pack as it is sold; by default it is sold by the piece."""
    price: Number | None = None
    """Of one pack, or of one piece where no pack is named."""
