"""What a spec can join two members with; one line a kind in each list."""

from __future__ import annotations

from typing import Annotated, get_args

from pydantic import Tag

from generator.spec.joints import end_clip, through_screw
from generator.spec.joints.barrel_bolt import BarrelBolt
from generator.spec.joints.bridle import Bridle
from generator.spec.joints.end_clip import EndClip
from generator.spec.joints.half_lap import HalfLap
from generator.spec.joints.pocket_screw import PocketScrew
from generator.spec.joints.structural_screw import StructuralScrew
from generator.spec.joints.tenon import Tenon
from generator.spec.joints.through_screw import ThroughScrew

JointCard = EndClip | ThroughScrew | Tenon | HalfLap | BarrelBolt | StructuralScrew | PocketScrew | Bridle
AnyJoint = (
    Annotated[EndClip, Tag("end clip")]
    | Annotated[ThroughScrew, Tag("through screw")]
    | Annotated[Tenon, Tag("mortise and tenon")]
    | Annotated[HalfLap, Tag("half lap")]
    | Annotated[BarrelBolt, Tag("barrel bolt")]
    | Annotated[StructuralScrew, Tag("structural screw")]
    | Annotated[PocketScrew, Tag("pocket screw")]
    | Annotated[Bridle, Tag("bridle")]
)
STANDARD = {**end_clip.STANDARD, **through_screw.STANDARD}
#: The kinds that join two members, as their cards say.
KINDS = tuple(get_args(card.model_fields["kind"].annotation)[0] for card in get_args(JointCard))

__all__ = [
    "KINDS", "STANDARD", "AnyJoint", "BarrelBolt", "Bridle", "EndClip", "HalfLap", "JointCard", "PocketScrew",
    "StructuralScrew", "Tenon", "ThroughScrew",
]  # fmt: skip
