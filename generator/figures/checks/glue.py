"""Checks of what is glued: nothing comes between the joints of a glue-up, and what is one for good leaves the room.

The first guards the order, which wishes of the spec can change; the second the choice of joints.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from generator.bench.frames import frame_kind
from generator.bench.frames.butt_joints import find_joints
from generator.bench.frames.facts import GlueUp
from generator.bench.glued import glued_bodies
from generator.bench.law import WORK, Law, by_the_check
from generator.bench.model import Bench
from generator.bench.steps import step_name
from generator.calculators.assembly import BENCH, Motion
from generator.codes import Code
from generator.figures.access_report import AccessReport
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.checks.laps import LAP_MOMENT, lap_checks
from generator.figures.glued import all_pass, glued_rows
from generator.findings import Change

GLUE_SPLIT = Law(
    Code.GLUE_SPLIT, "warning", "Nothing comes between the joints of a glue-up",
    "Something else comes between the joints of a glue-up",
    "Change the wishes of `assembly`: it goes in before the glue-up, or after it.",
    "The glue of the first joints sets while you work on something else, and the last ones do not close.", WORK,
)  # fmt: skip
GLUED_DOOR = Law(
    Code.GLUED_DOOR, "warning", "What is glued together goes through the door",
    "What is glued together does not go through the door",
    "Use joints that open again in more places. Or glue it where it will stand.",
    "Glue does not come apart: it cannot leave the room that it was built in.", by_the_check,
)  # fmt: skip


def glue_checks(bench: Bench, whole: AccessReport) -> Iterator[CheckResult]:
    """Nothing for a bench without glue."""
    yield from lap_checks(bench)
    ups = frame_kind(bench.spec).glue_ups(bench)
    if ups:
        yield from _in_one_go(ups, whole)
        yield from _through_the_door(bench, whole)


def _in_one_go(ups: Sequence[GlueUp], whole: AccessReport) -> Iterator[CheckResult]:
    """Where each joint closes in the proved order: in the step of its glue-up, without another step between."""
    order, joints = whole.done.proof.order, {(j.member, j.end): j for j, _ in whole.keys.values()}
    meets = _Meeting(order)
    faults = 0
    for up in ups:
        closed = [
            meets.of(member, joints[member, end].crossing)
            for member, end in up.joints
            if (member, end) in joints
        ]
        between = _between(order, up.step, closed)
        if between:
            faults += 1
            where = f"{', '.join(between)} in step “{step_name(up.step)}”"
            yield check_result(GLUE_SPLIT, False, where, ("assembly",))
    if not faults:
        yield check_result(GLUE_SPLIT, True, f"{len(ups)} glue-ups", ("assembly",))


def _between(order: Sequence[Motion], step: str, closed: Sequence[int]) -> tuple[str, ...]:
    """What other steps place in the same assembly from the first to the last joint of a glue-up."""
    if not closed:
        return ()
    home = order[closed[0]].into
    run = order[min(closed) : max(closed) + 1]
    return tuple(motion.name for motion in run if motion.step != step and motion.into == home)


class _Meeting:
    """When two pieces come into one assembly."""

    def __init__(self, order: Sequence[Motion]) -> None:
        self.index: Mapping[str, int] = {
            body.name: number for number, motion in enumerate(order) for body in motion.bodies
        }
        self.bringer = {motion.brings: number for number, motion in enumerate(order) if motion.brings}
        self.order = order

    def of(self, one: str, other: str) -> int:
        """The index of the motion that brings them together."""
        ways = [self._ways(name) for name in (one, other)]
        home = next(each for each in ways[0] if each in ways[1])
        return max(way[home] for way in ways)

    def _ways(self, name: str) -> dict[str, int]:
        """Assembly -> the motion that brings the piece into it, the innermost first."""
        number, found = self.index[name], dict[str, int]()
        while True:
            into = self.order[number].into
            found[into] = number
            if into == BENCH or into not in self.bringer:
                return found
            number = self.bringer[into]


def _through_the_door(bench: Bench, whole: AccessReport) -> Iterator[CheckResult]:
    for row in glued_rows(bench, whole.done.bodies):
        where = (
            f"{row.marks[0]} to {row.marks[-1]}, {' by '.join(bench.loaded.say(size) for size in row.sizes)}"
        )
        remedy = () if row.passes else _opened(bench)
        yield check_result(GLUED_DOOR, row.passes, where, ("limits", "door"), remedy=remedy)


def _opened(bench: Bench) -> tuple[Change, ...]:
    """The fewest joints without glue with which all that is left passes, as keys of the spec; none where none do."""
    joints = bench.spec.frame.joints
    opens = joints.long_rails_to_corner_posts
    if bench.joinings[opens].glue is not None:
        return ()
    members = [part for part in bench.parts if part.is_bar]
    for keys in (("inner_post_tops",), ("inner_post_tops", "default")):
        other = joints.model_copy(update=dict.fromkeys(keys, opens))
        spec = bench.spec.model_copy(update={"frame": bench.spec.frame.model_copy(update={"joints": other})})
        found, _ = find_joints(spec, members, bench.joinings)
        if all_pass(bench, glued_bodies(members, found, bench.joinings)):
            return tuple(Change(f"frame.joints.{key}", opens) for key in keys)
    return ()


__all__ = ["LAP_MOMENT", "glue_checks"]
