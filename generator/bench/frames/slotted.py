"""The slotted bar of a frame, for what knows slots."""

from __future__ import annotations

from generator.spec.chosen import ChosenGoods
from generator.spec.goods import Profile


def slotted(goods: ChosenGoods) -> Profile:
    """The frame's slotted bar. Raises TypeError for a frame whose members have no slots."""
    if goods.profile is None:
        raise TypeError("the members of this frame have no slots")
    return goods.profile
