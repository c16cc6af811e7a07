"""What all joints have in common that glue alone holds."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.joints.facts import Glue, Joining, TenonSizes
from generator.spec.joints import Bridle, HalfLap, Tenon


def glued(
    name: str, card: Tenon | HalfLap | Bridle, many: str, cut: TenonSizes, words: tuple[str, str, str]
) -> Joining:
    """No screw and no key. `words`: its cut end as a body, what takes that end, and where the glue goes.

    `cut` is what is left of the member's end (mm).
    """
    called, pocket, brush = words
    nothing = Fraction(0)
    return Joining(
        fastener=name,
        kind=card.kind,
        many=many,
        called=called,
        looks="screw",
        screw=None,
        engaged=nothing,
        key=nothing,
        key_from=0.0,
        holes=(),
        solids=(),
        bought=(),
        stiffness=card.stiffness,
        end="" if cut.bridled else called,
        tenon=cut,
        glue=Glue(card.glue, card.open_time, card.clamp_time, brush),
        pocket=pocket,
        tool="glue brush and clamps",
    )
