"""Bolts and screws that would meet in one timber are set aside, with wood between their holes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

from generator.bench.joints.facts import Joining
from generator.bench.piece import Joint, Part
from generator.calculators.wood_joints import bolts_apart
from generator.provenance import least


def set_aside(
    members: Sequence[Part], joints: Sequence[Joint], fixings: Mapping[str, Joining], groove: Fraction
) -> tuple[Joint, ...]:
    """The joints with their bolts set aside along the timber that they cross, where two of them would meet.

    Each moves half of what is lacking, but no nut into a groove of panels; what one cannot move, the other does.
    """
    by_mark, crossed = {part.mark: part for part in members}, dict[str, list[Joint]]()
    for joint in joints:
        if _hole(fixings[joint.fastener]) is not None:
            crossed.setdefault(joint.crossing, []).append(joint)
    aside: dict[tuple[str, str], Fraction] = {}
    for mark, bolts in crossed.items():
        for pair in combinations(bolts, 2):
            crossing, moved = by_mark[mark], [_Bolt(each, by_mark, fixings, groove) for each in pair]
            for bolt, way in _apart(crossing, sorted(moved, key=lambda each: each.member.along)):
                key = (bolt.joint.member, bolt.joint.end)
                aside[key] = max(aside.get(key, Fraction(0)), way, key=abs)
    return tuple(replace(each, aside=aside.get((each.member, each.end), Fraction(0))) for each in joints)


def _hole(fixing: Joining) -> Fraction | None:
    """The hole of a joint's screws in the other timber; None where it has none."""
    through = fixing.cross or fixing.driven or fixing.sloped
    return through.hole if through else None


class _Bolt:
    """A bolt in its member, and how far it can move."""

    def __init__(
        self, joint: Joint, by_mark: Mapping[str, Part], fixings: Mapping[str, Joining], groove: Fraction
    ) -> None:
        self.joint, self.member = joint, by_mark[joint.member]
        fixing = fixings[joint.fastener]
        hole, nut = _hole(fixing), fixing.cross.length / 2 if fixing.cross else Fraction(0)
        assert hole is not None
        self.hole, self.places = hole, fixing.places
        self.to_groove = self.member.width / 2 - groove - nut
        """How far its nut can move toward the side of the panels (mm)."""

    def furthest(self, axis: str, way: int) -> Fraction:
        """How far it can move along an axis of the bench (mm): within the width of its member, not in its thickness."""
        if self.member.across != axis:
            return Fraction(0)
        inward = 1 if self.member.place.level == "base" else -1
        if axis == "z" and way == inward:
            return max(self.to_groove, Fraction(0))
        return self.member.width / 2


def _apart(crossing: Part, pair: Sequence[_Bolt]) -> Iterator[tuple[_Bolt, Fraction]]:
    """How far each of two bolts at right angles moves: what lies along the bench upward, the other downward."""
    one, other = pair
    if one.member.along == other.member.along:
        return
    middles = [bolt.member.box.span(crossing.along).middle for bolt in pair]
    up = 1 if middles[0] >= middles[1] else -1
    gaps = [(middles[0] + here - middles[1] - there) * up for here in one.places for there in other.places]
    lacking = _lacking(gaps, bolts_apart(one.hole, other.hole))
    if lacking == 0:
        return
    room = (one.furthest(crossing.along, up), other.furthest(crossing.along, -up))
    first = least(room[0], max(lacking / 2, lacking - room[1]))
    yield one, up * first
    yield other, -up * least(room[1], lacking - first)


def _lacking(gaps: Sequence[Fraction], apart: Fraction) -> Fraction:
    """The least move upward after which no gap between two axes is less than `apart`, either way."""
    moves = sorted(move for move in (Fraction(0), *(apart - gap for gap in gaps)) if move >= 0)
    return next(move for move in moves if all(abs(gap + move) >= apart for gap in gaps))
