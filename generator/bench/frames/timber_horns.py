"""Horns: wood left on at the ends of posts, so that a mortise near an end splits nothing until its glue has set."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.joints.facts import Joining
from generator.bench.piece import MORTISES, Joint, Part
from generator.geometry import FACES
from generator.provenance import constant

#: A closed mortise that begins nearer to the end than this has a horn beyond it (mm). Common practice, no source.
NEAR_END = constant(60, "a mortise nearer to its timber's end than this has a horn")


def with_horns(
    timbers: Sequence[Part], joints: Sequence[Joint], fixings: Mapping[str, Joining], horn: Fraction
) -> tuple[Part, ...]:
    """The timbers with a horn of this length at each end of a corner post that a glued mortise is near to.

    A post that itself has a tenon there has none, and one with an open mortise or a lap has its own end to saw to.
    """
    into = {joint.crossing for joint in joints if fixings[joint.fastener].glue is not None}
    return tuple(
        replace(part, horns=ends)
        if horn and part.mark in into and part.along == "z" and (ends := _ends(part, horn))
        else part
        for part in timbers
    )


def _ends(part: Part, horn: Fraction) -> dict[str, Fraction]:
    low, high = FACES[part.along]
    found: dict[str, Fraction] = {}
    for act in part.operations:
        if act.op != MORTISES[0] or not isinstance(act.size, tuple):
            continue
        half = act.size[0] / 2
        if act.at[0] - half < NEAR_END and low not in part.tenons:
            found[low] = horn
        if part.length - act.at[0] - half < NEAR_END and high not in part.tenons:
            found[high] = horn
    return {face: found[face] for face in (low, high) if face in found}
