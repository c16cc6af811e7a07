"""How far the frame sways in each direction, for the softest and the stiffest joints that the cards allow."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.frames.facts import Direction, LoosePanel, SwayJoint
from generator.bench.frames.slotted import slotted
from generator.bench.model import Bench
from generator.calculators import sway as rules
from generator.calculators.fasteners import THREADS
from generator.calculators.joint_limits import slip_force
from generator.calculators.tightening import clamping_force
from generator.calculators.working_loads import VISE_PUSH
from generator.figures.bracing import (
    Bracing,
    at_the_edge,
    bracing_of,
    corner_stiffness,
    fixed_panels,
    helping_panels,
    panel_part,
)
from generator.figures.rows.strength import DIRECTIONS, LooseTravel, Sway
from generator.figures.stability import PER_METRE
from generator.figures.tightening import torques
from generator.provenance import constant, greatest, inexact, named
from generator.spec.members import Beam
from generator.spec.schema import Spec

SOFTEST, STIFFEST = 0, 1
ENDS = ("least", "greatest")
IN_BASE_UNITS = inexact(
    constant(1_000_000, "newton millimetres in a kilonewton metre", "newton and metre", "N·mm/kN/m")
)
NO_PANEL, PANELS = "none", "panels"
#: Bolts of a metal angle in one bar.
BOLTS_OF_AN_ANGLE = 2


def sway(bench: Bench) -> tuple[Sway, ...]:
    """A row for each direction in which the frame has joints, without and, where it has some, with fixed panels."""
    rows = sway_rows(bench, bracing_of(bench.spec))
    last = {row.direction: row for row in rows}
    worst = max((row.worst for row in last.values()), default=0.0)
    return tuple(replace(row, weakest=row.worst == worst and row is last[row.direction]) for row in rows)


def sway_rows(bench: Bench, bracing: Bracing) -> tuple[Sway, ...]:
    """The rows of a bracing: along the length, then from front to back; that with panels is the last of a direction."""
    frames = {
        panels: {end: _Frame(bench, bracing, end, panels=panels) for end in (SOFTEST, STIFFEST)}
        for panels in (False, True)
    }
    return tuple(
        _row(bench, way, frames[panels], NO_PANEL if not panels else PANELS)
        for way in DIRECTIONS
        if _joints(bench, way)
        for panels in (False, True)
        if not panels or helping_panels(bench, way, bracing)
    )


def joint_moments(bench: Bench, way: Direction) -> Iterator[tuple[SwayJoint, float]]:
    """What each joint bears of the push (N mm), with all as stiff as they can be and no panel to help."""
    frame = _Frame(bench, bracing_of(bench.spec), STIFFEST, panels=False)
    push, height = inexact(bench.spec.loads.push), inexact(bench.sway.height)
    for joint, part in zip(_joints(bench, way), frame.parts[way], strict=True):
        yield (
            joint,
            rules.joint_moment(part=part, push=push, height=height, stiffness=frame.total[way]),
        )


def target(spec: Spec) -> Fraction:
    """How far the top may sway under the push: what the spec says, or the usual limit in proportion (mm)."""
    if spec.limits.sway is not None:
        return spec.limits.sway
    return rules.sway_limit(limit=rules.usual_limit(spec.user.work), push=spec.loads.push)


def _joints(bench: Bench, direction: Direction) -> tuple[SwayJoint, ...]:
    return tuple(each for each in bench.sway.joints if each.direction == direction)


class _Frame:
    """What all joints, and the panels that are fixed, do against a sway, at one end of their ranges."""

    def __init__(self, bench: Bench, bracing: Bracing, end: int, *, panels: bool) -> None:
        self.bench, self.bracing, self.end, self.panels = bench, bracing, end, panels
        self.parts = {way: self._parts(way) for way in DIRECTIONS}
        self.total = {way: self._total(way) for way in DIRECTIONS if self.parts[way]}

    def _parts(self, way: Direction) -> list[float]:
        """What each joint adds, worked out once for those that are alike."""
        joints = _joints(self.bench, way)
        alike = {(each.fasteners, each.corner, each.spans): each for each in joints}
        parts = {key: self._part(each) for key, each in alike.items()}
        return [parts[each.fasteners, each.corner, each.spans] for each in joints]

    def _part(self, joint: SwayJoint) -> float:
        """What one joint adds: itself or with its bracket, half a post, and the half bays beside it."""
        bench = self.bench
        first, *rest = (
            inexact(sorted(bench.joinings[name].stiffness)[self.end]) * IN_BASE_UNITS
            for name in joint.fasteners
        )
        for other in rest:
            first = rules.joints_in_series(first=first, second=other)
        if joint.corner in self.bracing.corners:
            first = greatest(first, corner_stiffness(bench, self.end) * IN_BASE_UNITS)
        return rules.joint_with_members(joint=first, upright=_upright(bench), lying=_lying(bench, joint))

    def _of_panels(self, way: Direction) -> list[tuple[Fraction, float]]:
        """Where each fixed panel is, and what it adds."""
        if not self.panels:
            return []
        found = fixed_panels(self.bench, way, self.bracing)
        return [(each.across, panel_part(self.bench, each, self.bracing, self.end)) for each in found]

    def _total(self, way: Direction) -> float:
        parts = [*self.parts[way], *(part for _, part in self._of_panels(way))]
        also = " and fixed panels" if len(parts) > len(self.parts[way]) else ""
        name = (
            f"{ENDS[self.end]} stiffness of all joints{also} that turn {DIRECTIONS[way]}{self.bracing.label}"
        )
        says = "All of them turn by the angle by which the frame leans."
        return named(sum(parts[1:], parts[0]), name, says, rules.FRAMES)

    def planes(self, way: Direction) -> dict[Fraction, float]:
        """The same row by row, or end by end."""
        found: dict[Fraction, float] = {}
        joints = zip(_joints(self.bench, way), self.parts[way], strict=True)
        for at, part in (*((joint.across, part) for joint, part in joints), *self._of_panels(way)):
            found[at] = found[at] + part if at in found else part
        return found

    def sway(self, way: Direction) -> float:
        """How far the top moves under a push in its middle (mm)."""
        push, height = inexact(self.bench.spec.loads.push), inexact(self.bench.sway.height)
        return rules.sway(push=push, height=height, stiffness=self.total[way])

    def edge(self, way: Direction) -> float | None:
        """How far the worse long edge moves when it is pushed along the bench (mm)."""
        if way != "long" or "cross" not in self.total:
            return None
        bench, over = self.bench, self.bench.spec.top.overhang
        push, height = inexact(bench.spec.loads.push), inexact(bench.sway.height)
        edges = (-over.front, bench.layout.depth + over.back)
        planes = self.planes("long"), self.planes("cross")
        return max(at_the_edge(push, height, *planes, edge) for edge in edges)


def _row(bench: Bench, direction: Direction, frames: Mapping[int, _Frame], with_: str) -> Sway:
    joints, soft, stiff = _joints(bench, direction), frames[SOFTEST], frames[STIFFEST]
    push, height = inexact(bench.spec.loads.push), inexact(bench.sway.height)
    most = stiff.total[direction]
    moments = [
        rules.joint_moment(part=part, push=push, height=height, stiffness=most)
        for part in stiff.parts[direction]
    ]
    screws = {joint.fasteners[0] for joint in joints}
    opening = {name: _opens(bench, name) for name in screws}
    opens = [opening[joint.fasteners[0]] for joint in joints]
    high, edges = soft.sway(direction), (stiff.edge(direction), soft.edge(direction))
    worst = max(range(len(joints)), key=lambda n: moments[n] / (opens[n] or 1))
    gap = opens[worst]
    loose = with_ == NO_PANEL and not fixed_panels(bench, direction, soft.bracing)
    return Sway(
        direction=direction,
        with_=with_,
        low=stiff.sway(direction),
        high=high,
        push=push,
        target=inexact(target(bench.spec)),
        weakest=False,
        joints=len(joints),
        moment=moments[worst] / PER_METRE,
        opens=None if gap is None else gap / PER_METRE,
        slips=_slips(bench),
        vise=rules.joint_moment(
            part=stiff.parts[direction][worst], push=VISE_PUSH, height=height, stiffness=most
        )
        / PER_METRE,
        needs=_needs(bench, joints) if high > target(bench.spec) else None,
        free=_free(bench, direction) if loose else (),
        edge=None if edges[0] is None or edges[1] is None else (edges[0], edges[1]),
    )


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


def _opens(bench: Bench, fastener: str) -> float | None:
    """The moment that opens a joint: its screw at the least usual torque presses one bar's end on the other bar.

    None for joints in wood: no torque is usual there.
    """
    screw = bench.joinings[fastener].screw
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


def _free(bench: Bench, direction: Direction) -> tuple[LooseTravel, ...]:
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
