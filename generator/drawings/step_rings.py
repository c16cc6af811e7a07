"""Rings of a step picture: about the joints that its round windows look into, each with the letter of its window."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot

from generator.drawings.callouts import cross
from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point, meets, shifted
from generator.drawings.eye import Eye
from generator.drawings.joint_views import RADIUS, JointView
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.painted import Painted
from generator.drawings.scene import scaled
from generator.drawings.shapes import Line, Polyline, Text
from generator.drawings.step_motions import DrawnMotion

#: A ring in the picture, and the paper about one with a letter (mm).
RING, RIM = 2.2, 0.5
#: Between a ring and an arrow (mm).
CLEAR = 0.05
#: How far along its slot a ring about a tongue is tried (mm of the bench).
BESIDE = (0.0, 90.0, -90.0, 180.0, -180.0)
#: Rings that a picture bears.
MOST_RINGS = 8
#: The styles of a ring about what shows and about what is behind something.
SHOWS, BEHIND = "outline", "hidden"
#: Lines that a leader does not cross: other leaders, and what lies which way.
LINES = ("thin", "outline")
#: A small letter's middle is this far (mm) above the foot of its line.
MIDDLE = 1.05

Paper = Callable[[Sequence[float]], Point]


@dataclass(frozen=True)
class Ring:
    """A ring on paper (mm) and its style."""

    at: Point
    style: str

    @property
    def room(self) -> Extent:
        """What it takes of the paper."""
        return Extent(*self.at, *self.at).grown(RING + CLEAR)

    def draw(self, canvas: Canvas, letter: str) -> None:
        """The ring, with the letter of its window where it needs one."""
        if letter:
            canvas.circle(self.at, RING + RIM, "paper")
        else:
            canvas.circle(self.at, RING, "iso-halo")
        canvas.circle(self.at, RING, self.style)
        if letter:
            draw_letter(canvas, self.at, letter)


def draw_letter(canvas: Canvas, at: Point, letter: str) -> None:
    """A letter about a middle."""
    canvas.text(shifted(at, 0.0, MIDDLE), letter, SMALL_TEXT, "middle", style="mark")


@dataclass(frozen=True)
class Looks:
    """Which joints a picture looks into, and from where they are seen."""

    joints: Sequence[JointView]
    view: Eye
    painted: Painted
    moving: Sequence[DrawnMotion]

    def rings(self, scale: float, arrows: Sequence[Extent]) -> tuple[list[JointView], list[Ring | None]]:
        """The joints and the ring of each where no arrow is: a dashed one where nothing of its kind shows."""
        looks, styles = self._chosen()
        at, styles = self._on_drawn(looks, styles)

        def paper(point: Sequence[float]) -> Point:
            return scaled(self.view.point(point), scale)

        rings = _placed(at, paper, arrows, styles)
        self._on_what_moves(looks, paper, arrows, rings)
        tongues = [ring for joint, ring in zip(looks, rings, strict=True) if not joint.kind]
        if len(tongues) < len(looks) and not any(tongues):
            # of a tongue that shows nowhere a window says nothing beside those of screws
            shown = [number for number, joint in enumerate(looks) if joint.kind]
            looks, rings = [looks[n] for n in shown], [rings[n] for n in shown]
        self._on_what_hides(looks, paper, arrows, rings)
        return looks, rings

    def _on_what_hides(
        self,
        looks: Sequence[JointView],
        paper: Paper,
        arrows: Sequence[Extent],
        rings: list[Ring | None],
    ) -> None:
        """No window is without a ring: it is dashed about what is behind something, where the piece is drawn."""
        offsets, all_there = self._offsets, {face.solid.name for face in self.painted.faces}
        for number, joint in enumerate(looks):
            if any(ring for each, ring in zip(looks, rings, strict=True) if each.kind == joint.kind):
                continue
            off = next((offsets[mark] for mark in joint.on if any(offsets.get(mark, ()))), (0.0, 0.0, 0.0))
            for beside in (0.0,) if joint.kind else BESIDE:
                # a tongue is the same all along its slot
                middle = [a + b for a, b in zip(joint.middle, off, strict=True)]
                middle[joint.axis] += beside
                there = not self.painted.covers([self.view.point(middle)], all_there)[0]
                if there and not rings[number] and not _near(paper(middle), rings):
                    one = replace(joint, middle=tuple(middle))
                    (rings[number],) = _placed([one], paper, arrows, (BEHIND,))

    @property
    def _offsets(self) -> Mapping[str, tuple[float, float, float]]:
        return {shape.mark: move.offset for move in self.moving for shape in move.shapes}

    def _chosen(self) -> tuple[list[JointView], list[str]]:
        away = {mark for mark, offset in self._offsets.items() if any(offset)}
        showing = [joint for joint in self.joints if self._shows(joint, away)]
        kinds = {joint.kind for joint in showing}
        looks = [joint for joint in self.joints if joint.kind not in kinds or joint in showing]
        styles = []
        for joint in looks:
            # what comes onto it is no thing to look through
            covered = not self.painted.covers([self.view.point(joint.middle)], away)[0]
            drawn_off = bool(joint.alone) and joint.on[0] in away
            styles.append("" if covered or drawn_off else SHOWS if joint.kind in kinds else BEHIND)
        return looks, styles

    def _on_drawn(
        self, looks: Sequence[JointView], styles: Sequence[str]
    ) -> tuple[list[JointView], list[str]]:
        """Of what shows nowhere the ring goes with the piece that is drawn off its place, dashed where that hides it.

        At its place nothing is to be seen of it, perhaps nothing at all.
        """
        offsets = self._offsets
        found, how = list(looks), list(styles)
        for number, (joint, style) in enumerate(zip(looks, styles, strict=True)):
            mark = next((mark for mark in joint.on if any(offsets.get(mark, ()))), "")
            if style != BEHIND or not mark:
                continue
            off = tuple(a + b for a, b in zip(joint.middle, offsets[mark], strict=True))
            hidden = self.painted.covers([self.view.point(off)], {mark})[0]
            found[number] = replace(joint, middle=off)
            how[number] = BEHIND if hidden else SHOWS
        return found, how

    def _shows(self, joint: JointView, away: Collection[str]) -> bool:
        """Whether something that the joint is in shows at its place."""
        own = set(joint.on) - set(away)
        shows = bool(own) and not self.painted.covers([self.view.point(joint.middle)], own)[0]
        return shows and self.view.sees(joint.way)

    def _on_what_moves(
        self,
        looks: Sequence[JointView],
        paper: Paper,
        arrows: Sequence[Extent],
        rings: list[Ring | None],
    ) -> None:
        """A kind of joint without a ring has one on the piece that is drawn off its place, where that shows."""
        offsets = self._offsets
        ringed = {joint.kind for joint, ring in zip(looks, rings, strict=True) if ring}
        # windows are below: of the ends of bars a lower one's line has less in its way
        for number, joint in sorted(
            enumerate(looks), key=lambda each: -self.view.point(each[1].middle)[1] if each[1].alone else 0.0
        ):
            mark = next((mark for mark in joint.on if any(offsets.get(mark, ()))), "")
            if not mark or joint.kind in ringed:
                continue
            off = tuple(a + b for a, b in zip(joint.middle, offsets[mark], strict=True))
            if self.painted.covers([self.view.point(off)], {mark})[0] or _near(paper(off), rings):
                continue
            (rings[number],) = _placed([replace(joint, middle=off)], paper, arrows, (SHOWS,))
            ringed |= {joint.kind} if rings[number] else set()


def _placed(
    views: Sequence[JointView], paper: Paper, arrows: Sequence[Extent], styles: Sequence[str]
) -> list[Ring | None]:
    """A ring in its style about each joint where no arrow is and no other ring; None for one without a ring."""
    found: list[Ring | None] = [None] * len(views)
    first = {view.kind: n for n, view in reversed(list(enumerate(views)))}
    # one of each kind comes before a second one
    for n in sorted(range(len(views)), key=lambda n: n not in first.values()):
        ring = Ring(paper(views[n].middle), styles[n])
        full = sum(each is not None for each in found) >= MOST_RINGS
        hidden = not styles[n] or full or _near(ring.at, found)
        found[n] = None if hidden or any(ring.room.overlaps(arrow) for arrow in arrows) else ring
    return found


def _near(point: Point, rings: Iterable[Ring | None]) -> bool:
    """Whether a ring about a point would cover one that is there."""
    return any(ring and hypot(ring.at[0] - point[0], ring.at[1] - point[1]) < 2 * RING for ring in rings)


def draw_leader(canvas: Canvas, ring: Ring, at: Point, rooms: Iterable[Extent] = ()) -> bool:
    """A line from a ring to the window below it with its upper left corner at `at`, if nothing is in its way.

    `rooms` are those of other windows and rings, which may not be drawn yet.
    """
    centre = (at[0] + RADIUS, at[1] + RADIUS)
    far = hypot(centre[0] - ring.at[0], centre[1] - ring.at[1])
    ahead = ((centre[0] - ring.at[0]) / far, (centre[1] - ring.at[1]) / far)
    start, end = (shifted(ring.at, ahead[0] * off, ahead[1] * off) for off in (RING, far - RADIUS))
    if any(meets(start, end, room) for room in rooms):
        return False
    for shape in canvas.shapes:
        if isinstance(shape, Text) and meets(start, end, shape.extent()):
            return False
        if isinstance(shape, Polyline) and shape.style == "arrow" and meets(start, end, shape.extent()):
            return False
        if isinstance(shape, Line) and shape.style in LINES and cross((start, end), (shape.start, shape.end)):
            return False
    canvas.line(start, end, "iso-halo")
    canvas.line(start, end, "thin")
    return True
