"""What a spec can join two bars with; one line a kind in each list."""

from __future__ import annotations

from typing import Annotated

from pydantic import Tag

from generator.spec.joints import end_clip, through_screw
from generator.spec.joints.end_clip import EndClip
from generator.spec.joints.through_screw import ThroughScrew

JointCard = EndClip | ThroughScrew
AnyJoint = Annotated[EndClip, Tag("end clip")] | Annotated[ThroughScrew, Tag("through screw")]
STANDARD = {**end_clip.STANDARD, **through_screw.STANDARD}
#: The kinds that join two bars.
KINDS = ("end clip", "through screw")

__all__ = ["KINDS", "STANDARD", "AnyJoint", "EndClip", "JointCard", "ThroughScrew"]
