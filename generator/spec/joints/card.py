"""What the cards of all joints have in common."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import number_field
from generator.spec.item import FromMemory, HardwareItem

_FIELD = number_field(0.01, 10_000, "a stiffness in kN m/rad", "kN·m/rad")
_Stiffness = Annotated[Fraction, *_FIELD]
_PLAIN = {"type": ["number", "string"], "minimum": 0.01, "maximum": 10_000}


def _one_for_both(value: Any) -> Any:
    """A single value is used for both ends of the range. It is read once, so that a fault is reported once."""
    if not isinstance(value, str):
        return value
    one = _FIELD[0].func(value)
    return (one, one)


def _least_first(value: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction]:
    """A range is written from its lower end."""
    if value[0] > value[1]:
        raise PydanticCustomError(
            Code.OUT_OF_RANGE,
            "{message}",
            {
                "message": "the first value of a range is the lower one",
                "found": f"[{float(value[0]):g}, {float(value[1]):g}]",
                "allowed": f"[{float(value[1]):g}, {float(value[0]):g}]",
            },
        )
    return value


#: One joint, about the axis that sways. From memory: no published value was found.
USUAL = (Fraction(1), Fraction(3))


Stiffness = Annotated[
    tuple[_Stiffness, _Stiffness],
    BeforeValidator(_one_for_both),
    AfterValidator(_least_first),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "array", "prefixItems": [_PLAIN, _PLAIN], "minItems": 2, "maxItems": 2},
                _PLAIN,
            ]
        }
    ),
    FromMemory("typical range, from memory: it can be half or twice as much; measure your joint"),
]
"""A range of a joint's stiffness, by default one from memory."""


class JointItem(HardwareItem):
    """What all fasteners between two bars have in common."""

    stiffness: Stiffness = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""
