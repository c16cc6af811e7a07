"""Joints that are cut in wood, and the glue-ups: what the frame gives, as rows."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.frames import frame_kind
from generator.bench.model import Bench
from generator.bench.piece import TENONS, Joint, Part
from generator.figures.rows.joinery import GlueUpRow, JoineryRow, TenonRow
from generator.provenance import inexact


def joinery(bench: Bench) -> tuple[JoineryRow, ...]:
    """Every joint between members that are cut to fit each other; none for bars that only butt."""
    return tuple(_rows(bench)) if frame_kind(bench.spec).cut_joints else ()


def _rows(bench: Bench) -> Iterator[JoineryRow]:
    by_mark = {part.mark: part for part in bench.parts}
    for joint in bench.joints:
        member = by_mark[joint.member]
        yield JoineryRow(
            member=joint.member,
            end=joint.end,
            into=joint.crossing,
            kind=joint.kind,
            shoulder_to_shoulder=member.shoulders.span(member.along).size,
            tenon=_tenon(joint, member),
            at=joint.at,
        )


def _tenon(joint: Joint, member: Part) -> TenonRow | None:
    for each in member.operations:
        if (
            each.op in TENONS
            and each.face == joint.end
            and isinstance(each.size, tuple)
            and each.depth is not None
        ):
            thin, wide = sorted(each.size)
            return TenonRow(thin, wide, each.depth)
    return None


def glue_ups(bench: Bench) -> tuple[GlueUpRow, ...]:
    """What is glued, in the order of the work."""
    return tuple(
        GlueUpRow(
            step=each.step,
            joints=tuple(f"{member} {end}" for member, end in each.joints),
            minutes=inexact(each.minutes),
            clamps=each.clamps,
            open_minutes=inexact(each.open_time),
            wait_minutes=inexact(each.wait),
        )
        for each in frame_kind(bench.spec).glue_ups(bench)
    )
