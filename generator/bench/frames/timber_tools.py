"""What a timber frame is built with: what cuts its joints, and clamps for its glue-ups."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.frames.facts import Framed, GlueUp
from generator.bench.frames.timber_glue import glue_ups
from generator.bench.law import said


def tools(bench: Framed) -> tuple[str, ...]:
    """Clamps for the largest glue-up, and what cuts mortises, tenons and grooves."""
    ups = glue_ups(bench)
    used = [bench.joinings[joint.fastener] for joint in bench.joints]
    cutter = "A router with fence and stops, or a saw with a depth stop"
    if any(each.tenon and not each.tenon.lapped for each in used):
        cutter = "A mortiser, or a router with fence and stops"
    lines = [f"{cutter}; sharp chisels; a marking gauge and a knife."]
    if ups:
        lines += [
            *_clamps_to_have(bench, ups),
            "Pads for the clamps; glue brushes; water and rags for what comes out.",
        ]
    if any(each.cross for each in used):
        lines.append("Long drill bits for the bolts, flat-bottomed bits for recesses and barrel nuts.")
    if any(each.sloped for each in used):
        lines.append("A pocket jig with its stepped drill and stop collar, face clamps, a long square bit.")
    if any(each.driven for each in used):
        lines.append("Long drill bits for the screws, flat-bottomed bits for their recesses.")
    return tuple(lines)


def _clamps_to_have(bench: Framed, ups: tuple[GlueUp, ...]) -> Iterator[str]:
    """How many clamps the glue-ups need, the longest first; a long one does for a short one."""
    have, steps = 0, dict[str, tuple[Fraction, int]]()
    for each in ups:
        reach, many = steps.get(each.step, (each.reach, 0))
        steps[each.step] = (max(reach, each.reach), many + each.clamps - each.across)
    for reach in sorted({reach for reach, _ in steps.values()}, reverse=True):
        count = max(many for other, many in steps.values() if other == reach)
        if count > have:
            more = count if have == 0 else count - have
            yield (
                f"{more}{' more' if have else ''} clamp{'' if more == 1 else 's'} that open{'s' if more == 1 else ''} "
                f"to {said(bench.loaded.spec, reach)} or more."
            )
            have = count
    if short := max(each.across for each in ups):
        wide = said(bench.loaded.spec, 2 * bench.layout.section)
        yield f"{short} short clamps for the laps, that open to {wide} or more."
