"""What glue makes one: the bodies of a bench that never come apart again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.joints.facts import Joining
from generator.bench.piece import Joint, Part
from generator.geometry import AXES


@dataclass(frozen=True)
class GluedBody:
    """Members (marks) that glue makes one, and the size of their outline along X, Y, Z (mm)."""

    marks: tuple[str, ...]
    size: tuple[Fraction, Fraction, Fraction]


def glued_bodies(
    parts: Sequence[Part], joints: Sequence[Joint], joinings: Mapping[str, Joining]
) -> tuple[GluedBody, ...]:
    """The bodies that glued joints make, in the order of the parts; none of a single member."""
    home = {part.mark: part.mark for part in parts}

    def root(mark: str) -> str:
        while home[mark] != mark:
            mark = home[mark]
        return mark

    for joint in joints:
        if joinings[joint.fastener].glue is not None:
            home[root(joint.member)] = root(joint.crossing)
    found: dict[str, list[Part]] = {}
    for part in parts:
        found.setdefault(root(part.mark), []).append(part)
    return tuple(_body(own) for own in found.values() if len(own) > 1)


def _body(own: Sequence[Part]) -> GluedBody:
    x, y, z = (
        max(part.box.span(axis).high for part in own) - min(part.box.span(axis).low for part in own)
        for axis in AXES
    )
    return GluedBody(tuple(part.mark for part in own), (x, y, z))
