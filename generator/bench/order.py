"""The order in which a practitioner puts the bench together, as motions of solid bodies; not yet proved.

End frames flat, base on blocks, posts on rails before their ends close, panels before the ring closes, clips of a ring
after its panels and before its posts, tray before the second end frame, top grid as a lid. Equal parts come together,
the farthest of a slot first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.bench.fasteners import fastener_name, nut_face, nut_name
from generator.bench.fillings import FILLINGS
from generator.bench.late_fasteners import (
    CarriedMember,
    LateFastener,
    with_carried_members,
    with_late_fasteners,
)
from generator.bench.model import Bench, Part
from generator.bench.place import ENDS, End, Level
from generator.bench.role import STRIPS, Role
from generator.calculators.assembly import BENCH, Motion
from generator.calculators.bodies import Body
from generator.calculators.collisions import Direction
from generator.geometry import AXES

TOP_GRID = "top grid"

#: A screw or clip leaves its member on the side of the bar that it crosses.
_OUT: dict[str, Direction] = {
    "left": "-x", "right": "+x", "front": "-y", "rear": "+y", "bottom": "-z", "top": "+z",
}  # fmt: skip


def frame_name(end: str) -> str:
    """What an end frame is called as one thing."""
    return f"{end} end frame"


def natural_order(bench: Bench, bodies: Sequence[Body]) -> tuple[Motion, ...]:
    """Every body of the bench in one motion of the work, in the natural order."""
    order = _Order(bench, bodies)
    steady, late, carried = list(order.all()), list(order.late_fasteners()), list(order.extra_members())
    placed = {body.name for motion in steady for body in motion.bodies} | {each.body.name for each in late}
    placed |= {body.name for each in carried for body in each.motion.bodies}
    # a post whose cross-member is not there stands nowhere; it is placed all the same, so that it is reported
    steady += [Motion(body.name, "extra", (body,)) for body in bodies if body.name not in placed]
    return with_late_fasteners(with_carried_members(steady, carried, usual="posts"), late)


class _Order:
    """Writes the motions of one bench; each method one stage of the work."""

    def __init__(self, bench: Bench, bodies: Sequence[Body]) -> None:
        spec = bench.spec
        self.spec, self.bench = spec, bench
        self.bodies = {body.name: body for body in bodies}
        self.rails_run_through = spec.frame.through == "rails"
        self.opens = {bay.name: zone.opens for zone in bench.layout.zones for bay in zone.bays}
        self.strips = self._strips_by_wall()

    def all(self) -> Iterator[Motion]:
        yield from self._strips()
        for end in ENDS:
            yield from self._end_frame(end)
        yield from self._cross_members()
        yield from self._base()
        yield from self._walls()
        yield from self._tray()
        if self._lid_comes_first():
            yield from self._top_grid()
            yield from self._close()
        else:
            yield from self._close()
            yield from self._top_grid()
        yield from self._plates()
        yield from self._fill()

    def _lid_comes_first(self) -> bool:
        """With rails running through, the end frames' upper clips go into the lid's slots from the ends."""
        return self.rails_run_through and bool(self._pick(Role.INNER_POST))

    def _pick(self, *roles: Role, end: End | None = None, level: Level | None = None) -> tuple[Part, ...]:
        return self.bench.of(*roles, end=end, level=level)

    # ---- fasteners

    def late_fasteners(self) -> Iterator[LateFastener]:
        for joint in self.bench.joints:
            fixing = self.bench.joinings[joint.fastener]
            if fixing.cross is not None:
                way = nut_face(next(part for part in self.bench.parts if part.mark == joint.member))
                yield LateFastener(self.bodies[nut_name(joint)], (joint.member,) * 2, _OUT[way], "")
            if fixing.solids and not fixing.fitted:
                body = self.bodies[fastener_name(joint, fixing)]
                yield LateFastener(body, (joint.member, joint.crossing), _OUT[joint.end], fixing.unproved)

    def _clips(self, *members: Part) -> tuple[tuple[Body, Direction], ...]:
        """The clips that are fitted to the members before they are joined."""
        marks = {member.mark for member in members}
        return tuple(
            (self.bodies[fastener_name(joint, fixing)], _OUT[joint.end])
            for joint in self.bench.joints
            if joint.member in marks and (fixing := self.bench.joinings[joint.fastener]).fitted
        )

    def _with_clips(self, member: Part) -> tuple[Body, ...]:
        return (self.bodies[member.mark], *(body for body, _ in self._clips(member)))

    def _clips_alone(self, step: str, into: str, *members: Part) -> Iterator[Motion]:
        for member in members:
            for body, out in self._clips(member):
                yield Motion(body.name, step, (body,), into=into, out=(out,), after=(member.mark,))

    # ---- walls with what is fixed to them on the flat

    def _strips_by_wall(self) -> dict[str, list[Part]]:
        found: dict[str, list[Part]] = {}
        walls = self._pick(Role.DIVIDER, Role.END_PANEL)
        for strip in self._pick(*STRIPS):
            wall = next((wall for wall in walls if _lies_on(strip, wall)), None)
            found.setdefault(wall.mark if wall else "", []).append(strip)
        return found

    def _strips(self) -> Iterator[Motion]:
        """Strips, runners and cleats on their walls while these lie flat."""
        for wall in self._pick(Role.DIVIDER, Role.END_PANEL):
            strips, name = self.strips.get(wall.mark, []), self._wall_name(wall)
            if strips:
                yield Motion(wall.mark, "strips", (self.bodies[wall.mark],), into=name)
            for strip in strips:
                out: Direction = "-x" if strip.box.x.high == wall.box.x.low else "+x"
                body = self.bodies[strip.mark]
                yield Motion(strip.mark, "strips", (body,), into=name, out=(out,), after=(wall.mark,))

    def _wall_name(self, wall: Part) -> str:
        return f"{wall.mark} with its strips" if self.strips.get(wall.mark) else wall.mark

    def _wall(self, part: Part, step: str, into: str = BENCH, *out: Direction) -> Motion:
        name = self._wall_name(part)
        if name == part.mark:
            return Motion(name, step, (self.bodies[name],), into=into, out=out)
        return Motion(name, step, brings=name, into=into, out=out, called=part.mark)

    # ---- end frames

    def _end_frame(self, end: End) -> Iterator[Motion]:
        name = frame_name(end)
        base, rail = self._pick(Role.BASE_END_MEMBER, end=end), self._pick(Role.TRAY_END_RAIL, end=end)
        panels, posts = self._pick(Role.END_PANEL, end=end), self._pick(Role.CORNER_POST, end=end)
        spines = self._pick(Role.END_SPINE_POST, end=end)
        for part in base:
            yield Motion(part.mark, f"{end}-ring", (self.bodies[part.mark],), into=name)
        for index, post in enumerate(spines):
            if index:
                # a panel between two spine posts goes on before the second of them
                yield from self._panels_between(panels, spines[index - 1], post, f"{end}-ring", name)
            yield Motion(post.mark, f"{end}-ring", self._with_clips(post), into=name, out=("-y", "+y"))
        for part in rail:
            yield Motion(part.mark, f"{end}-ring", (self.bodies[part.mark],), into=name, out=("+y", "-y"))
        for panel in panels:
            if not spines or panel.box.y.low < spines[0].box.y.low:
                yield self._wall(panel, f"{end}-panels", name, "-y")
            elif panel.box.y.high > spines[-1].box.y.high:
                yield self._wall(panel, f"{end}-panels", name, "+y")
        yield from self._clips_alone(f"{end}-clips", name, *base, *rail)
        tops = () if self.rails_run_through else self._pick(Role.TOP_END_MEMBER, end=end)
        early = self._have_tenons(tops)
        if early:
            yield from self._end_tops(tops, end)
        for post in posts:
            yield Motion(post.mark, f"{end}-posts", self._with_clips(post), into=name, out=("+z", "-z"))
        if not early:
            yield from self._end_tops(tops, end)

    def _end_tops(self, tops: Sequence[Part], end: End) -> Iterator[Motion]:
        for part in tops:
            yield Motion(part.mark, f"{end}-top", self._with_clips(part), into=frame_name(end), out=("+z",))

    @staticmethod
    def _have_tenons(members: Sequence[Part]) -> bool:
        """Whether members go in along themselves: then they are there before both timbers that they are between."""
        return any(part.tenons for part in members)

    def _panels_between(
        self, panels: Sequence[Part], front: Part, rear: Part, step: str, name: str
    ) -> Iterator[Motion]:
        for panel in panels:
            if front.box.y.low < panel.box.y.low and panel.box.y.high < rear.box.y.high:
                yield self._wall(panel, step, name, "+y")

    # ---- base

    def _cross_members(self) -> Iterator[Motion]:
        """Each with the spine posts on it, put together on the bench top."""
        for member in self._pick(Role.BASE_CROSS_MEMBER):
            name = self._with_posts(member)
            if name == member.mark:
                continue  # nothing is put on it before it goes in
            yield Motion(member.mark, "cross", (self.bodies[member.mark],), into=name)
            for post in self._posts_on(member):
                yield Motion(post.mark, "cross", self._with_clips(post), into=name, out=("-y", "+y"))
            yield from self._clips_alone("cross", name, member)

    def _posts_on(self, member: Part) -> tuple[Part, ...]:
        """The spine posts that stand on a base cross-member."""
        return tuple(
            post
            for post in self._pick(Role.INNER_POST)
            if not post.place.side and post.box.x.low == member.box.x.low
        )

    def _with_posts(self, member: Part) -> str:
        if member.tenons and not self._posts_on(member):
            return member.mark
        return f"{member.mark} with its {'posts' if self._posts_on(member) else 'clips'}"

    def _base(self) -> Iterator[Motion]:
        rails = self._pick(Role.LONG_RAIL, level="base")
        members = sorted(self._pick(Role.BASE_CROSS_MEMBER), key=lambda part: -part.box.x.low)
        last = len(rails) - 1 if self._have_tenons(members) else len(rails)
        for rail in rails[:last]:
            yield Motion(rail.mark, "rails", self._with_clips(rail), out=("+z",))
        for member in members:
            name = self._with_posts(member)
            if name == member.mark:
                yield Motion(name, "rails", (self.bodies[name],), out=("+y",))
            else:
                yield Motion(name, "rails", brings=name, out=("-x", "+x"), called=member.mark)
        for rail in rails[last:]:
            yield Motion(rail.mark, "rails", self._with_clips(rail), out=("+y",))
        for post in reversed(self._pick(Role.INNER_POST)):
            if post.place.side:
                yield Motion(post.mark, "posts", self._with_clips(post), out=("-x", "+x"))
        for post in self._pick(Role.KNEE_POST):
            yield Motion(post.mark, "knee-posts", self._with_clips(post), out=("+z",))

    def extra_members(self) -> Iterator[CarriedMember]:
        """Each with the bars that its ends lie on: it comes when they are there."""
        for part in self._pick(Role.EXTRA_MEMBER):
            bars = tuple(dict.fromkeys(j.crossing for j in self.bench.joints if j.member == part.mark))
            yield CarriedMember(Motion(part.mark, "extra", self._with_clips(part)), bars)

    # ---- panels, tray, closing

    def _walls(self) -> Iterator[Motion]:
        under = self._pick(Role.BASE_CROSS_MEMBER)
        for role in (Role.DIVIDER, Role.SPINE_PANEL, Role.BACK_PANEL):
            for part in self._pick(role):
                bars = tuple(self._with_posts(bar) for bar in under if bar.box.x.overlap(part.box.x) >= 0)
                yield replace(self._wall(part, role.value.replace(" ", "-"), BENCH, "+z"), after=bars)

    def _tray(self) -> Iterator[Motion]:
        walls = tuple(self._wall_name(part) for part in self._pick(Role.DIVIDER))
        for part in self._pick(Role.TRAY):
            yield Motion(part.mark, "tray", (self.bodies[part.mark],), out=("+z",), after=walls)
        for part in self._pick(Role.EXTRA_PANEL):
            yield Motion(part.mark, "extra-panels", (self.bodies[part.mark],), out=("+z",))

    def _close(self) -> Iterator[Motion]:
        ways: dict[str, Direction] = {"left": "-x", "right": "+x"}
        for end in ENDS:
            name = frame_name(end)
            yield Motion(name, f"close-{end}", brings=name, out=(ways[end],))
        boards = tuple(part.mark for part in self._pick(Role.TRAY))
        for part in self._pick(Role.TRAY_TRIM):
            out: Direction = "-y" if part.place.side == "front" else "+y"
            yield Motion(part.mark, "tray-fix", (self.bodies[part.mark],), out=(out,), after=boards)

    def _top_grid(self) -> Iterator[Motion]:
        rails = self._pick(Role.LONG_RAIL, level="top")
        last = len(rails) - 1 if self._have_tenons(self._pick(Role.TOP_CROSS_MEMBER)) else len(rails)
        for rail in rails[:last]:
            yield Motion(rail.mark, "grid", self._with_clips(rail), into=TOP_GRID)
        members = list(reversed(self._pick(Role.TOP_CROSS_MEMBER)))
        if self.rails_run_through:
            # the end members sit in the same slots, outermost
            right, left = (
                self._pick(Role.TOP_END_MEMBER, end="right"),
                self._pick(Role.TOP_END_MEMBER, end="left"),
            )
            members = [*right, *members, *left]
        for member in members:
            yield Motion(member.mark, "grid", self._with_clips(member), into=TOP_GRID, out=("-x", "+x"))
        for rail in rails[last:]:
            yield Motion(rail.mark, "grid", self._with_clips(rail), into=TOP_GRID, out=("+y",))
        yield Motion(TOP_GRID, "lid", brings=TOP_GRID, out=("+z", "-x", "+x"))

    def _plates(self) -> Iterator[Motion]:
        stand = self.bench.stand
        for name in (*(part.mark for part in stand.parts), *(body.name for body in stand.bodies)):
            yield Motion(name, stand.step.key, (self.bodies[name],), out=("-z",))

    # ---- what fills the bays

    def _fill(self) -> Iterator[Motion]:
        for strip in self.strips.get("", []):
            yield Motion(strip.mark, "strips", (self.bodies[strip.mark],))
        for kind in sorted(FILLINGS, key=lambda kind: kind.goes_in):
            yield from kind.motions(self.bench, self)
        yield from self._top()

    def _top(self) -> Iterator[Motion]:
        """What is glued comes on as one; boards that stay dry one by one, with the last what is glued to them."""
        boards, edging = self._pick(Role.TOP), self._pick(Role.TOP_EDGING)
        alone = boards[:-1] if self.bench.spec.top.joint == "dry" else ()
        for part in alone:
            yield Motion(part.mark, "top", (self.bodies[part.mark],), out=("+z",), after=(TOP_GRID,))
        glued = [self.bodies[part.mark] for part in (*boards[len(alone) :], *edging)]
        first, last = boards[len(alone)], boards[-1]
        called = "" if first is last else f"{first.mark} to {last.mark}"
        yield Motion(last.mark, "top", tuple(glued), out=("+z",), after=(TOP_GRID,), called=called)

    def out(self, bay: str) -> Direction:
        """Through the face that the bay's zone opens to."""
        return "+y" if self.opens[bay] == "rear" else "-y"

    def walls_of(self, bay: str) -> tuple[str, ...]:
        """The dividers that carry strips of a bay; an end panel may come later, with its frame."""
        return tuple(
            self._wall_name(wall)
            for wall in self._pick(Role.DIVIDER)
            if any(strip.place.bay == bay for strip in self.strips.get(wall.mark, ()))
        )


def _lies_on(strip: Part, wall: Part) -> bool:
    """True when a strip's back lies on a face of a wall."""
    touches = strip.box.x.low == wall.box.x.high or strip.box.x.high == wall.box.x.low
    return touches and all(
        strip.box.span(axis).overlap(wall.box.span(axis)) > 0 for axis in AXES if axis != "x"
    )


__all__ = ["TOP_GRID", "frame_name", "natural_order"]
