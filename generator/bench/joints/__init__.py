"""What can join two members. Each kind is a module of its own; this tuple is the only list of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from generator.bench.joints.barrel_bolt import BarrelBolts
from generator.bench.joints.bridle import Bridles
from generator.bench.joints.end_clip import EndClips
from generator.bench.joints.facts import Joining, JointKind
from generator.bench.joints.half_lap import HalfLaps
from generator.bench.joints.pocket_screw import PocketScrews
from generator.bench.joints.structural_screw import StructuralScrews
from generator.bench.joints.tenon import Tenons
from generator.bench.joints.through_screw import ThroughScrews
from generator.bench.law import Verdict
from generator.spec.chosen import ChosenGoods

JOINTS: tuple[JointKind[Any, Any], ...] = (
    EndClips(),
    ThroughScrews(),
    Tenons(),
    HalfLaps(),
    BarrelBolts(),
    StructuralScrews(),
    PocketScrews(),
    Bridles(),
)
#: Holes without a depth that go to the joint's slot only, no further.
TO_SLOT = frozenset(card.op for kind in JOINTS for card in kind.drill_cards if card.to_slot)
_KINDS = {kind.kind: kind for kind in JOINTS}


def joining(goods: ChosenGoods, name: str) -> Joining:
    """What a card does at a joint, by its name in the spec. Raises KeyError for hardware that joins no members."""
    card = goods.joints[name]
    return _KINDS[card.kind].joining(name, card, _told(goods))


def joinings(goods: ChosenGoods) -> Mapping[str, Joining]:
    """All that can join two members of this frame, by their names in the spec."""
    return {name: joining(goods, name) for name in goods.joints if joins(goods, name)}


def joins(goods: ChosenGoods, name: str) -> bool:
    """Whether a card of the spec joins members of this frame."""
    return _KINDS[goods.joints[name].kind].joins == goods.members.kind


def holds(goods: ChosenGoods, name: str) -> Iterator[Verdict]:
    """Whether a joint's card holds in the frame's members."""
    return _KINDS[goods.joints[name].kind].holds(name, goods.joints[name], _told(goods))


def suits(goods: ChosenGoods, name: str) -> Iterator[Verdict]:
    """Whether the pieces of a joint's card go into the frame's members and suit each other."""
    return _KINDS[goods.joints[name].kind].suits(name, goods.joints[name], _told(goods))


def _told(goods: ChosenGoods) -> object:
    """What a kind is told of the frame's members."""
    return goods.profile or goods.members
