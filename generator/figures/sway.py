"""How far the frame sways in each direction, for the softest and the stiffest joints that the cards allow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.frames.facts import LoosePanel, SwayJoint
from generator.bench.frames.slotted import slotted
from generator.bench.model import Bench
from generator.calculators import sway as rules
from generator.calculators.fasteners import THREADS
from generator.calculators.joint_limits import slip_force
from generator.calculators.tightening import clamping_force
from generator.figures.rows.strength import DIRECTIONS, LooseTravel, Sway
from generator.figures.stability import PER_METRE
from generator.figures.tightening import torques
from generator.provenance import constant, inexact, named
from generator.spec.members import Beam
from generator.spec.schema import Spec

SOFTEST, STIFFEST = 0, 1
ENDS = ("least", "greatest")
IN_BASE_UNITS = inexact(
    constant(1_000_000, "newton millimetres in a kilonewton metre", "newton and metre", "N·mm/kN/m")
)
NO_PANEL = "none"
#: Bolts of a metal angle in one bar.
BOLTS_OF_AN_ANGLE = 2


def sway(bench: Bench) -> tuple[Sway, ...]:
    """A row for each direction in which the frame has joints: along the length, then from front to back."""
    rows = tuple(_row(bench, way) for way in DIRECTIONS if _joints(bench, way))
    worst = max((row.high for row in rows), default=0.0)
    return tuple(replace(row, weakest=row.high == worst) for row in rows)


def target(spec: Spec) -> Fraction:
    """How far the top may sway under the push: what the spec says, or the usual limit in proportion (mm)."""
    if spec.limits.sway is not None:
        return spec.limits.sway
    return rules.sway_limit(limit=rules.usual_limit(spec.user.work), push=spec.loads.push)


def _joints(bench: Bench, direction: str) -> tuple[SwayJoint, ...]:
    return tuple(each for each in bench.sway.joints if each.direction == direction)


def _row(bench: Bench, direction: str) -> Sway:
    joints = _joints(bench, direction)
    push, height = inexact(bench.spec.loads.push), inexact(bench.sway.height)
    _, least = _stiffness(bench, direction, SOFTEST)
    parts, most = _stiffness(bench, direction, STIFFEST)
    moments = [rules.joint_moment(part=part, push=push, height=height, stiffness=most) for part in parts]
    opens = [_opens(bench, joint) for joint in joints]
    high = rules.sway(push=push, height=height, stiffness=least)
    worst = max(range(len(joints)), key=lambda n: moments[n] / (opens[n] or 1))
    gap = opens[worst]
    return Sway(
        direction=direction,
        with_=NO_PANEL,
        low=rules.sway(push=push, height=height, stiffness=most),
        high=high,
        push=push,
        target=inexact(target(bench.spec)),
        weakest=False,
        joints=len(joints),
        moment=moments[worst] / PER_METRE,
        opens=None if gap is None else gap / PER_METRE,
        slips=_slips(bench),
        needs=_needs(bench, joints) if high > target(bench.spec) else None,
        free=_free(bench, direction),
    )


def _stiffness(bench: Bench, direction: str, end: int) -> tuple[list[float], float]:
    """What each joint adds, and all of them together, at one end of their cards' ranges."""
    parts = [_part(bench, joint, end) for joint in _joints(bench, direction)]
    name = f"{ENDS[end]} stiffness of all joints that turn {DIRECTIONS[direction]}"
    says = "All of them turn by the angle by which the frame leans."
    return parts, named(sum(parts[1:], parts[0]), name, says, rules.FRAMES)


def _part(bench: Bench, joint: SwayJoint, end: int) -> float:
    """What one joint adds: itself, half a post, and the half bays beside it."""
    first, *rest = (
        inexact(sorted(bench.joinings[name].stiffness)[end]) * IN_BASE_UNITS for name in joint.fasteners
    )
    for other in rest:
        first = rules.joints_in_series(first=first, second=other)
    return rules.joint_with_members(joint=first, upright=_upright(bench), lying=_lying(bench, joint))


def _needs(bench: Bench, joints: Sequence[SwayJoint]) -> float | None:
    """Stiffness that each joint needs, the members beside the softest of them counted for all (kN m/rad)."""
    found = rules.needed_stiffness(
        count=len(joints),
        limit=inexact(target(bench.spec)),
        push=inexact(bench.spec.loads.push),
        height=inexact(bench.sway.height),
        upright=_upright(bench),
        lying=min(_lying(bench, joint) for joint in joints),
    )
    return found / IN_BASE_UNITS if found > 0 else None


def _half(beam: Beam, length: float) -> float:
    return rules.half_member_stiffness(
        modulus=inexact(beam.modulus), second_moment=inexact(beam.second_moment), length=length
    )


def _upright(bench: Bench) -> float:
    """Half a post."""
    return _half(bench.goods.members.upright, inexact(bench.sway.height))


def _lying(bench: Bench, joint: SwayJoint) -> float:
    """The half bays beside a joint."""
    near, *far = (_half(bench.goods.members.lying, inexact(span)) for span in joint.spans)
    return sum(far, near)


def _opens(bench: Bench, joint: SwayJoint) -> float | None:
    """The moment that opens a joint: its screw at the least usual torque presses the bar's end on the other bar.

    None for joints in wood: no torque is usual there.
    """
    screw = bench.joinings[joint.fasteners[0]].screw
    if screw is None or bench.goods.profile is None:
        return None
    thread = THREADS[screw.thread]
    diameter = inexact(thread.diameter)
    least_torque, _ = torques(bench, thread)
    force = clamping_force(torque=least_torque, diameter=diameter)
    return rules.gap_moment(clamping_force=force, section=inexact(slotted(bench.goods).section))


def _slips(bench: Bench) -> float | None:
    """Pull along the bars that a metal angle on two bolts in slots bears (N); None where there are no slots."""
    if bench.goods.profile is None:
        return None
    return slip_force(count=BOLTS_OF_AN_ANGLE, clamping_force=_clamping(bench))


def _clamping(bench: Bench) -> float:
    """Force of a screw in a slot nut at its least torque (N)."""
    thread = THREADS[bench.goods.slot_nut.thread]
    return clamping_force(torque=torques(bench, thread)[0], diameter=inexact(thread.diameter))


def _free(bench: Bench, direction: str) -> tuple[LooseTravel, ...]:
    """How far the top moves before loose panels lock, panels of one size together."""
    sizes: dict[tuple[object, ...], list[LoosePanel]] = {}
    for panel in bench.sway.panels:
        if panel.direction == direction:
            sizes.setdefault((panel.height, panel.width, panel.gap), []).append(panel)
    return tuple(
        LooseTravel(
            tuple(each.mark for each in alike),
            rules.free_travel(
                gap=inexact(alike[0].gap),
                panel_height=inexact(alike[0].height),
                panel_width=inexact(alike[0].width),
                height=inexact(bench.sway.axes),
            ),
        )
        for alike in sizes.values()
    )
