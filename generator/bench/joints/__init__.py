"""What can join two bars. Each kind is a module of its own; this tuple is the only list of them."""

from __future__ import annotations

from generator.bench.joints.end_clip import EndClips
from generator.bench.joints.facts import Joining, JointKind
from generator.bench.joints.through_screw import ThroughScrews
from generator.spec.lookup import profile
from generator.spec.schema import Spec

JOINTS: tuple[JointKind, ...] = (EndClips(), ThroughScrews())


def joining(spec: Spec, name: str) -> Joining:
    """What an entry of the spec's hardware does at a joint. Raises TypeError for hardware that joins no bars."""
    card = spec.hardware[name]
    for kind in JOINTS:
        if kind.takes(card):
            return kind.joining(name, card, profile(spec))
    raise TypeError(f"{name} joins no bars")


def joiners(spec: Spec) -> tuple[Joining, ...]:
    """All entries of the spec's hardware that can join two bars."""
    found = ((name, card) for name, card in spec.hardware.items())
    return tuple(joining(spec, name) for name, card in found if any(kind.takes(card) for kind in JOINTS))
