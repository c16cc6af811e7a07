"""A step of the assembly in isometric: what is there already in neutral tints, what is added in its own, with arrows.

New pieces have bolder outlines for grey print. Small things in slots are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, partial

from generator.drawings.callouts import BESIDE, BETWEEN, draw_callouts
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent, union
from generator.drawings.eye import BELOW, CORNERS, Eye, lying
from generator.drawings.iso_dimensions import Fact, Measurement
from generator.drawings.isometric import DrawnBlock, VisibleFace, faces_of
from generator.drawings.joint_views import CutOpen, JointView, joint_views, opened_by
from generator.drawings.lettering import MARGIN, PAGE_WIDTH, fitting
from generator.drawings.orientation import draw_place
from generator.drawings.painted import Painted
from generator.drawings.scene import paint, painted_room, piece_solid, seen
from generator.drawings.slim import SLIM, SLIM_LEAST, SLIM_WIDTH, again, draw_list, in_a_list, place_again
from generator.drawings.stands import with_stands
from generator.drawings.step_arrows import bounds
from generator.drawings.step_foot import MOST_WINDOWS, Window, draw_foot
from generator.drawings.step_groups import stacks_of
from generator.drawings.step_labels import Told, draw_arrows, labels, told
from generator.drawings.step_lines import Lines, draw_footprint, with_lines
from generator.drawings.step_measures import footprints, measures
from generator.drawings.step_motions import DrawnMotion, apart, brackets_of, moved, shown_motions
from generator.drawings.step_nuts import NutPlace, draw_nuts, nut_places, nut_views, nut_words
from generator.drawings.step_places import common_setback
from generator.drawings.step_rings import Looks
from generator.drawings.step_sizes import OtherSize, draw_sizes, other_sizes
from generator.drawings.step_stack import with_stacks
from generator.drawings.step_still import Still, draw_lines, draw_pushes, squared_with, still
from generator.drawings.step_words import description, with_note, words_below
from generator.drawings.step_work import draw_work
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step

NO_LINKS: Mapping[str, str] = {}

#: The picture between its columns of labels (mm of paper).
WIDTH, HEIGHT = 96.0, 84.0
#: The smallest one, where dimensions are beside it too.
LEAST = 52.0
#: Its height above two rows of windows.
LOWER = 58.0
#: The same above one row, where so few pieces come that their labels leave it the width.
HIGHER, FEW = 70.0, 2
#: A block that an end frame lies on, and how far from the ends of a member one lies, as part of its length (mm).
BLOCK, NEAR_END = 60.0, 0.2
#: What is this many times as long as thick lies on blocks.
SLENDER = 4.0
#: Corners that a step may be seen from, the usual one first.
VIEWS_TRIED = ("front right", "rear left", "front left", "rear right")
#: Of a piece this part of what it would show alone is enough; another corner must show this much of a piece more.
ENOUGH, BETTER = 0.4, 0.25
#: A picture that shows this part of all pieces needs no other to say where in the bench it is.
OF_THE_BENCH = 0.3


def draw_step(
    figures: Figures,
    step: Step,
    ruler: Ruler,
    links: Mapping[str, str] = NO_LINKS,
    slim_of: Drawing | None = None,
    also: str = "",
    resized: Sequence[str] = (),
) -> Drawing | None:
    """The picture of a step; None for one that adds nothing to be seen. `links` lead from a mark to its sheet.

    `also` is what it says below of sub-assemblies that it stands for; those that are `resized` have a table of sizes.
    The slim one of a picture is for a phone: its labels are marks, and what is beside the other one is below it.
    """
    scene = _scene(figures, step, ruler, links, also, other_sizes(figures, step, resized, ruler))
    return scene.drawing(slim_of) if scene else None


def draw_step_twice(
    figures: Figures,
    step: Step,
    ruler: Ruler,
    links: Mapping[str, str] = NO_LINKS,
    also: str = "",
    resized: Sequence[str] = (),
) -> tuple[Drawing, Drawing] | None:
    """The picture of a step and the slim one of it."""
    scene = _scene(figures, step, ruler, links, also, other_sizes(figures, step, resized, ruler))
    if scene is None:
        return None
    wide = scene.drawing(None)
    return wide, scene.drawing(wide)


@dataclass(frozen=True)
class _Sketch:
    """A picture whose faces and windows are not painted yet: its size is known without them."""

    canvas: Canvas
    name: str
    title: str
    words: str

    @property
    def width(self) -> float:
        """Of the finished sheet (mm)."""
        return self.canvas.size(MARGIN)[0]

    @property
    def height(self) -> float:
        """Of the finished sheet (mm)."""
        return self.canvas.size(MARGIN)[1]

    def finished(self) -> Drawing:
        """The picture with all that is painted."""
        return self.canvas.finish(self.name, self.title, self.words, MARGIN)


@dataclass(frozen=True)
class _Scene:
    """What a picture of a step shows and from where, before it has a size on paper."""

    figures: Figures
    step: Step
    ruler: Ruler
    links: Mapping[str, str]
    shapes: Mapping[str, Shape]
    standing: Sequence[Shape]
    moving: Sequence[DrawnMotion]
    quiet: Still | None
    view: Eye
    faces: Sequence[VisibleFace]
    opened: CutOpen
    joints: Sequence[JointView]
    nuts: Sequence[NutPlace]
    from_where: str
    measures: Sequence[Measurement]
    footprints: Sequence[tuple[str, Sequence[Sequence[float]]]]
    others: Sequence[OtherSize]
    _told_before: dict[frozenset[Fact], list[Told]] = field(default_factory=dict)

    def drawing(self, slim_of: Drawing | None) -> Drawing:
        """The picture, as large as a page has room for it, or the slim one of it."""
        largest, room, least = (SLIM, SLIM_WIDTH, SLIM_LEAST) if slim_of else (WIDTH, PAGE_WIDTH, LEAST)

        def draw(lines: Lines) -> _Sketch:
            return fitting(lambda width: self._drawn(width, slim_of, lines), largest, room, least=least)

        return with_lines(draw, self.measures, room).finished()

    def _drawn(self, width: float, slim_of: Drawing | None, lines: Lines) -> _Sketch:
        canvas, arrows, view = Canvas(), Canvas(), self.view
        kinds = {joint.kind for joint in self.joints}
        # what is told of nuts, and what is pulled apart below two windows, need as much room as one more
        below = bool(kinds) and (bool(self.nuts) or any(each.stacks for each in self.joints))
        apart = any(each.stacks for each in self.joints) and bool(self.step.shown)
        many = len(kinds) + below >= MOST_WINDOWS or self._is_made or self.others or apart
        lower = LOWER if len(self.moving) > FEW or len(kinds) >= MOST_WINDOWS else HIGHER
        height = lower if many and not slim_of else HEIGHT
        scale, room = painted_room(self.faces, width, height)
        if slim_of:
            canvas.add(again(slim_of, room, self.faces[0], scale))
        else:
            canvas.later(room, partial(self._paint, width=width, height=height))
            canvas.group("base", 0)
        bodies = len(canvas.shapes)
        rooms = self._acts(canvas, arrows, scale)
        nuts = draw_nuts(canvas, self.nuts, self.moving, view, scale)
        lines.draw(canvas, self._painted, view, scale)
        told_of = self._told(lines.facts)
        picture = union((canvas.extents(), *rooms))
        called = list(labels(told_of, scale, [*rooms, *nuts], self.links, stacks_of(self.moving, view)))
        tops = (picture.top, picture.top)
        unseen = [label for label in called if not label.points]
        called = [label for label in called if label.points]
        listed: list[tuple[str, str]] = []
        if slim_of:
            called, listed = in_a_list(called)
        elif not self._is_made and len(self.standing) < OF_THE_BENCH * len(self.shapes):
            low = self._place(canvas, picture, left=lines.place_left)
            tops = (low, picture.top) if lines.place_left else (picture.top, low)
        draw_callouts(canvas, called, picture, tops, [*rooms, *nuts, *lines.rooms])
        canvas.place(arrows, 0.0, 0.0)
        foot = canvas.extents().bottom + BETWEEN
        if slim_of:
            foot = draw_list(canvas, listed, (canvas.extents().left, foot))
            place_again(canvas, slim_of, (max(picture.right, picture.left + SLIM_WIDTH / 2), foot))
        foot = self._work(canvas, foot, slim_of)
        sized = self.joints or lines.facts or any(label.has_size for label in told_of)
        note = self.ruler.note if sized else ""
        window = replace(self._window(canvas, scale, rooms, slim_of), kept_off=lines.rooms)
        behind = "Dashed rings are behind what shows." if window.behind else ""
        said = [
            self.quiet.names if self.quiet else "",
            *(f"Not seen here: {label.title}, {', '.join(label.lines)}." for label in unseen),
            behind,
            nut_words(self.step, self.nuts, view),
            note,
        ]
        words = with_note(self.from_where, " ".join(filter(None, said)))
        draw_foot(canvas, view, f"Step {self.step.n}", words, window, foot)
        room = canvas.extents()
        draw_sizes(canvas, self.others, (room.left, room.bottom + BETWEEN), slim=bool(slim_of))
        lines.look(canvas.shapes, bodies)
        title = f"Step {self.step.n}: {self.step.title}"
        words = " ".join((description(self.step, self.moving), *self.from_where.split("\n"))).rstrip()
        name = f"{slim_of.id}-slim" if slim_of else f"picture-{self.step.key}"
        return _Sketch(canvas, name, title, words)

    def _paint(self, canvas: Canvas, width: float, height: float) -> None:
        """All faces that show, and the places of what comes onto them."""
        scale = paint(canvas, self.faces, self.view, width, height)
        for mark, corners in self.footprints:
            draw_footprint(canvas, mark, corners, self._painted, self.view, scale)

    def _work(self, canvas: Canvas, foot: float, slim_of: Drawing | None) -> float:
        """What is done to one of the parts that are cut; where what is below may begin."""
        if not self._is_made:
            return foot
        assert self.quiet and self.quiet.work
        width, left = (SLIM_WIDTH if slim_of else PAGE_WIDTH) - 2 * MARGIN, canvas.extents().left
        top = max(foot, canvas.extents().bottom + BETWEEN)
        return draw_work(canvas, self.quiet.work, self.step.tools, self.ruler, (left, top), width)

    @property
    def _is_made(self) -> bool:
        """Whether it shows parts that are cut, in their places: then all of it says where they are."""
        return self.quiet is not None and self.quiet.work is not None

    @cached_property
    def _painted(self) -> Painted:
        return Painted(self.faces)

    def _told(self, drawn: frozenset[Fact]) -> list[Told]:
        """The labels, without what dimensions say already."""
        if drawn not in self._told_before:
            _, common = common_setback(self.figures, self.moving) or (0.0, frozenset[Fact]())
            self._told_before[drawn] = list(
                told(self.figures, self.step, self.moving, self._painted, self.ruler, drawn | common)
            )
        return self._told_before[drawn]

    def _acts(self, canvas: Canvas, arrows: Canvas, scale: float) -> list[Extent]:
        """Arrows of what moves, or lines and arrows of a step without motions; the rooms of the arrows."""
        if self.quiet is None:
            there = [*self.standing, *(shape for move in self.moving for shape in move.shapes)]
            draw_lines(canvas, squared_with(self.figures, self.step, there, self.view), self.view, scale)
            return draw_arrows(arrows, self.moving, self._painted, self.view, scale)
        draw_lines(canvas, self.quiet.lines, self.view, scale)
        return draw_pushes(arrows, self.quiet.pushes, self._painted, self.view, scale)

    def _window(
        self, canvas: Canvas, scale: float, rooms: Sequence[Extent], slim_of: Drawing | None
    ) -> Window:
        """The joints to look into, each with its ring."""
        looks = Looks(self.joints, self.view, self._painted, self.moving)
        return Window(self.opened, *looks.rings(scale, rooms), slim_of)

    def _place(self, canvas: Canvas, picture: Extent, *, left: bool) -> float:
        """Where in the bench the work is, beside the picture; where what is below it begins."""
        first, shapes = len(canvas.shapes), self.shapes
        moved = {mark for move in self.moving for mark in move.motion.marks}
        own = {mark for mark in moved if mark in shapes and not shapes[mark].is_small}
        corner = self.view.name if self.view.name in CORNERS else VIEWS_TRIED[0]
        small = Canvas()
        place = draw_place(small, (0.0, 0.0), shapes.values(), own or set(self.step.standing), corner)
        canvas.place(
            small, picture.left - BESIDE - place.right if left else picture.right + BESIDE, picture.top
        )
        canvas.group("place", first)
        return picture.top + place.bottom + BETWEEN


def _scene(
    figures: Figures,
    step: Step,
    ruler: Ruler,
    links: Mapping[str, str],
    also: str,
    others: Sequence[OtherSize],
) -> _Scene | None:
    shapes = with_stands(figures)
    moves = shown_motions(step, shapes)
    quiet = still(figures, step, shapes, ruler) if not moves else None
    if quiet is not None:
        standing, moving = list(quiet.standing), list(quiet.moves)
        views = tuple(_views(step, (), standing, below=quiet.below))
    elif moves:
        home = moves[0].motion.into in ("bench", step.assembly)
        standing = [shapes[mark] for mark in step.standing if mark in shapes and home]
        views = tuple(_views(step, moves, standing, below=False))
        moving = [*apart(moves, standing, views[0].up), *brackets_of(figures, step, ruler)]
    else:
        return None
    on_blocks = list(_blocks(step, standing, moving))
    view, faces = _best_view([*standing, *on_blocks], moving, views)
    new = [shape.mark for move in moving for shape in move.shapes]
    opened = opened_by(figures, step, [shape.mark for shape in standing], new)
    joints = with_stacks(figures, step, joint_views(figures, step, opened, ruler), ruler)
    nuts = list(nut_places(figures, step, moving))
    joints += nut_views(step, opened, nuts, joints)
    scene = (figures, step, view, standing, moving, joints, ruler)
    below = words_below(*scene, on_blocks=bool(on_blocks), of_several=bool(also or others))
    words = f"{also}\n{below}".strip()
    measured = tuple(measures(figures, moving, standing, view, ruler))
    edges = tuple(footprints(moving, standing))
    shown = (shapes, standing, moving, quiet, view, faces, opened)
    found = (joints, nuts, words, measured, edges, others)
    return _Scene(figures, step, ruler, links, *shown, *found)


def _views(
    step: Step, moves: Sequence[DrawnMotion], standing: Sequence[Shape], *, below: bool
) -> Iterator[Eye]:
    """Where the step may be seen from, the usual place first: as the work lies or stands."""
    if step.lies:
        yield from lying(step.lies)
        return
    from_below = below or (bool(standing and moves) and all(move.motion.way == "+z" for move in moves))
    corners = BELOW if from_below else CORNERS
    yield from (corners[name] for name in VIEWS_TRIED)


def _blocks(step: Step, standing: Sequence[Shape], moving: Sequence[DrawnMotion]) -> Iterator[Shape]:
    """What an end frame lies on: two blocks under each of its members that are in their place, near their ends."""
    if not step.lies:
        return
    placed = [*standing, *(each for move in moving if not any(move.offset) for each in move.shapes)]
    for shape in placed:
        x0, y0, z0, x1, y1, z1 = bounds(shape.whole)
        if shape.is_frame and y1 - y0 > SLENDER * max(x1 - x0, z1 - z0):
            x0, x1 = (x0 - BLOCK, x0) if step.lies == "+x" else (x1, x1 + BLOCK)
            for y in (y0 + NEAR_END * (y1 - y0), y1 - NEAR_END * (y1 - y0)):
                block = (x0, y - BLOCK / 2, z0, x1, y + BLOCK / 2, z1)
                yield Shape("block", "strip", (block,), (block,))


def _best_view(
    standing: Sequence[Shape], moving: Sequence[DrawnMotion], views: Sequence[Eye]
) -> tuple[Eye, list[VisibleFace]]:
    """The first of the views, unless what is added shows better from another one."""
    best: tuple[float, Eye, list[VisibleFace]] | None = None
    for view in views:
        faces = seen(list(_solids(standing, moving, view)), view)
        shown = _shown(moving, view, faces)
        if best is None or shown > best[0] + BETTER:
            best = shown, view, faces
        if shown > len(moving) - BETTER:
            break
    assert best is not None
    return best[1], best[2]


def _shown(moving: Sequence[DrawnMotion], view: Eye, faces: Sequence[VisibleFace]) -> float:
    """How many of the pieces show enough; one of which less shows counts for a part."""
    seen: dict[str, float] = {}
    for face in faces:
        if face.solid.new:
            seen[face.solid.name] = seen.get(face.solid.name, 0.0) + face.share * face.area
    found = 0.0
    for move in moving:
        alone = sum(face.area for solid in _solids((), [move], view) for face in faces_of(solid))
        shows = sum(seen.get(mark, 0.0) for mark in move.motion.marks)
        found += min(1.0, float(shows / alone) / ENOUGH)
    return found


def _solids(standing: Sequence[Shape], moving: Sequence[DrawnMotion], view: Eye) -> Iterator[DrawnBlock]:
    # where no bar holds a board, the tongues that bars hide are seen
    bars = any(s.is_frame for s in (*standing, *(s for move in moving for s in move.shapes)))
    for shape in standing:
        for block in shape.seated if bars else shape.whole:
            yield piece_solid(shape, block, view, new=False)
    for move in moving:
        for shape in move.shapes:
            # nothing is round the ends of a member that is only laid down
            alone = any(move.offset) or shape.is_small or shape.is_frame or not bars
            blocks = shape.whole if alone else shape.seated
            for block in blocks:
                yield piece_solid(shape, moved(block, move.offset), view, new=True, offset=move.offset)
