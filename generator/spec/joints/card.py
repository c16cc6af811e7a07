"""What the cards of all joints have in common."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any

from pydantic import BeforeValidator, WithJsonSchema

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


#: One joint, about the axis that sways. From memory: no published value was found.
USUAL = (Fraction(1), Fraction(3))


class JointItem(HardwareItem):
    """What all fasteners between two bars have in common."""

    stiffness: Annotated[
        tuple[_Stiffness, _Stiffness],
        BeforeValidator(_one_for_both),
        WithJsonSchema(
            {
                "anyOf": [
                    {"type": "array", "prefixItems": [_PLAIN, _PLAIN], "minItems": 2, "maxItems": 2},
                    _PLAIN,
                ]
            }
        ),
        FromMemory("typical range, from memory: it can be half or twice as much; measure your joint"),
    ] = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""
