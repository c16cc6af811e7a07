"""Below a step picture: what lies which way, a joint in its section, and where all is seen from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from generator.drawings.callouts import BESIDE, BETWEEN
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.extent import Extent, Point
from generator.drawings.eye import Eye
from generator.drawings.inset import WORDS, draw_inset, draw_rim, draw_words, words_height
from generator.drawings.joint_views import RADIUS, CutOpen, JointView
from generator.drawings.letter_sizes import SMALL_TEXT, line_height
from generator.drawings.lettering import PAGE_WIDTH, wrapped
from generator.drawings.orientation import draw_signpost
from generator.drawings.shapes import Text
from generator.drawings.slim import LETTERS, SLIM_WIDTH, WINDOW, window_again
from generator.drawings.stack import draw_stack
from generator.drawings.step_rings import BEHIND, RIM, RING, Ring, draw_leader, draw_letter

#: Windows below a picture.
MOST_WINDOWS = 3
#: Clear paper round a drawing (mm).
MARGIN = 4.0
#: A window into a joint with its words, and the words of one that has another one beside it (mm).
PAIRED = WORDS - 0.5
INSET_WIDTH = 2 * RADIUS + 3.0 + WORDS
#: What lies which way is no higher than this and what is left free (mm).
SIGNS = 10.0
#: A step's name is at least so far off what else is written (mm).
NEAR = 0.3
#: Between two stacks below one window (mm).
GAP = 2.0

Kind = Sequence[tuple[JointView, Ring | None]]
"""Joints that look alike, each with its ring."""


@dataclass(frozen=True)
class Window:
    """The joints that a picture may look into, and where on paper each has a ring."""

    shown: CutOpen
    joints: Sequence[JointView]
    rings: Sequence[Ring | None]
    slim_of: Drawing | None = None
    kept_off: Sequence[Extent] = ()
    """Where no line to a window may pass (mm)."""

    @property
    def behind(self) -> bool:
        """Whether a ring is about what is behind something."""
        return any(ring and ring.style == BEHIND for kind in self.kinds() for _, ring in kind)

    @property
    def beside(self) -> int:
        """Windows in a row: a phone has room for one; what one window has pulled apart is beside it."""
        return 1 if self.slim_of else min(2, max(1, len(list(self.kinds())) + self.aside))

    @property
    def aside(self) -> bool:
        """Whether what is pulled apart is left of the only window."""
        kinds = list(self.kinds())
        return not self.slim_of and len(kinds) == 1 and any(joint.stacks for joint, _ in kinds[0])

    def kinds(self) -> Iterator[Kind]:
        """The joints by how they look."""
        found: dict[str, list[tuple[JointView, Ring | None]]] = {}
        for joint, ring in zip(self.joints, self.rings, strict=True):
            found.setdefault(joint.kind, []).append((joint, ring))
        yield from list(found.values())[:MOST_WINDOWS]

    def apart(self) -> float:
        """How much higher (mm) the only window is than what is pulled apart beside it."""
        (kind,) = self.kinds()
        high = max(_height(joint, PAIRED) for joint, _ in kind)
        return high - max(_stacks_height(joint) for joint, _ in kind)

    def draw(self, canvas: Canvas, right: float, top: float, lowered: float = 0.0) -> float:
        """A joint of each kind in a round window, the first that a line can lead to; their lower edge.

        What is pulled apart beside the only one is `lowered` (mm). Rings bear the letter of their window where there
        are several windows, and where no line leads to the one.
        """
        beside = self.beside
        words, across = WORDS if beside < 2 else PAIRED, INSET_WIDTH
        placed, edges = self._placed(right, top, words)
        edges = [edges[0], *(edge + lowered for edge in edges[1:])]
        rooms = [Extent(x, y, x + across - 1.0, y + 2 * RADIUS) for _, (x, y) in placed]
        if self.aside:
            rooms.append(Extent(right - 2 * across, top, right - across - 1.0, max(edges)))
        chosen = []
        for number, (kind, at) in enumerate(placed):
            beside_it = Extent(at[0] + 2 * RADIUS + 2.0, at[1], at[0] + across, at[1] + 2 * RADIUS)
            others = (*rooms[:number], *rooms[number + 1 :], beside_it, *self.kept_off)
            chosen.append(self._chosen(canvas, kind, at, others))
        letters = self._letters(placed, [led for _, _, led in chosen])
        for (kind, at), (joint, number_of, _), letter in zip(placed, chosen, letters, strict=True):
            for each, ring in kind:
                if ring and (each is joint or not each.marked):
                    ring.draw(canvas, letter)
            first = len(canvas.shapes)
            if self.slim_of:
                window_again(canvas, self.slim_of, number_of, at)
            else:
                room = Extent(at[0], at[1], at[0] + 2 * RADIUS, at[1] + 2 * RADIUS)
                canvas.later(room, partial(draw_inset, at=at, view=joint, shown=self.shown))
                draw_rim(canvas, at)
                canvas.group(f"{WINDOW}{number_of}", first)
            if letter:
                # on the rim where no line comes in from above
                off = RADIUS * (1.0 + 0.5**0.5), RADIUS * (1.0 - 0.5**0.5)
                mark = (at[0] + off[1], at[1] + off[0])
                canvas.circle(mark, RING + RIM, "paper")
                canvas.circle(mark, RING)
                draw_letter(canvas, mark, letter)
            draw_words(canvas, at, joint, words)
            below = (at[0], at[1] + _height(joint, words) + BETWEEN)
            _draw_stacks(canvas, joint, (at[0] - across, at[1] + lowered) if self.aside else below)
        return max(edges) - BETWEEN if placed else top

    def _placed(self, right: float, top: float, words: float) -> tuple[list[tuple[Kind, Point]], list[float]]:
        """Each kind with the upper left corner of its window, and the lower edge of each column."""
        kinds, beside = list(self.kinds()), self.beside
        rows = (kinds[first : first + beside] for first in range(0, len(kinds), beside))
        found: list[tuple[Kind, Point]] = []
        edges = [top] * beside
        for row in rows:
            # the one farthest to the right has its window there, so that lines to them do not cross
            for column, kind in enumerate(sorted(row, key=_across, reverse=True)):
                found.append((kind, (right - (column + 1) * INSET_WIDTH, edges[column])))
                high = max(_height(view, words) for view, _ in kind)
                apart = max(_stacks_height(view) for view, _ in kind)
                if self.aside:
                    edges[1] += apart
                    apart = 0.0
                edges[column] += high + apart + BETWEEN
        return found, edges

    def _letters(self, placed: Sequence[tuple[Kind, Point]], led: Sequence[bool]) -> list[str]:
        """The letter of each window, as they are read; none for one without a ring, or where one line says all."""
        ringed = [any(ring for _, ring in kind) for kind, _ in placed]
        if len(placed) < 2 and all(led):
            return [""] * len(placed)
        in_order = sorted(range(len(placed)), key=lambda n: (round(placed[n][1][1]), placed[n][1][0]))
        letters = dict(zip((n for n in in_order if ringed[n]), LETTERS, strict=False))
        return [letters.get(n, "") for n in range(len(placed))]

    def _chosen(
        self, canvas: Canvas, kind: Kind, at: Point, others: Sequence[Extent]
    ) -> tuple[JointView, int, bool]:
        """The first of like joints to which a line can lead, its number, and whether one does.

        A slim picture shows that of the wide.
        """
        numbers = {id(joint): number for number, joint in enumerate(self.joints)}
        shown = {name for name, _, _ in self.slim_of.groups} if self.slim_of else set()
        kept = [each for each in kind if f"{WINDOW}{numbers[id(each[0])]}" in shown] or kind
        for joint, ring in kept:
            rooms = (*others, *(other.room for other in self.rings if other and other is not ring))
            if ring and draw_leader(canvas, ring, at, rooms):
                return joint, numbers[id(joint)], True
        joint = next((joint for joint, ring in kept if ring), kept[0][0])
        return joint, numbers[id(joint)], False


def _height(joint: JointView, words: float) -> float:
    """How high a window is with what is beside it (mm)."""
    return max(2 * RADIUS, words_height(joint, words))


def _stacks_height(joint: JointView) -> float:
    """How high the pieces are that are pulled apart below a window (mm)."""
    width = _stack_width(joint)
    return max((BETWEEN + stack.height(width) for stack in joint.stacks), default=0.0)


def _stack_width(joint: JointView) -> float:
    """The stacks of a window are side by side."""
    return (INSET_WIDTH - BESIDE) / max(1, len(joint.stacks))


def _draw_stacks(canvas: Canvas, joint: JointView, at: Point) -> None:
    width = _stack_width(joint)
    for number, stack in enumerate(joint.stacks):
        draw_stack(canvas, stack, (at[0] + number * width, at[1]), width - GAP)


def _across(kind: Kind) -> float:
    """How far to the right the first ring of a kind is (mm)."""
    return next((ring.at[0] for _, ring in kind if ring), 0.0)


def draw_foot(canvas: Canvas, view: Eye, name: str, words: str, window: Window, top: float) -> None:
    """Below the picture: what lies which way with the step's name, a joint in its section, where all is seen from."""
    room = canvas.extents()
    if window.beside > 1 or not (window.joints or window.slim_of):
        # where no window is beside it, and where two fill the width, what lies which way is beside the words
        edge = top
        right = max(room.right, room.left + 2 * INSET_WIDTH)
        if window.aside and window.apart() > SIGNS:
            # the signpost has room above what is pulled apart, and the words have the whole width
            signs = _signpost(canvas, (right - 2 * INSET_WIDTH, top), view, name)
            edge = window.draw(canvas, right, top, signs.height + BETWEEN)
            _write(canvas, words, (room.left, max(edge, canvas.extents().bottom) + BETWEEN))
            return
        if window.joints:
            edge = window.draw(canvas, right, top) + BETWEEN
        edge = max(edge, canvas.extents().bottom + BETWEEN)
        signs = _signpost(canvas, (room.left, edge), view, name)
        _write(canvas, words, (signs.right + BESIDE, edge))
        return
    signs = _signpost(canvas, (room.left, top), view, name)
    # what is beside the signpost already leaves no room there
    widest = (SLIM_WIDTH if window.slim_of else PAGE_WIDTH) - 2 * MARGIN
    beside = room.bottom < top and signs.width + BESIDE + INSET_WIDTH <= widest
    right = max(room.right, signs.right + BESIDE + INSET_WIDTH) if beside else room.left + INSET_WIDTH
    below = window.draw(canvas, right, top if beside else canvas.extents().bottom + BETWEEN)
    _write(canvas, words, (room.left, max(signs.bottom, below, canvas.extents().bottom) + BETWEEN))


def _signpost(canvas: Canvas, at: Point, view: Eye, name: str) -> Extent:
    """What lies which way from an upper left corner; the name of the step is in a corner that it leaves free."""
    signs = draw_signpost(canvas, at, view)
    # off the arrows too
    top, low = signs.top + SMALL_TEXT - 1.0, signs.bottom + 1.5
    corners = [
        (x, y, anchor) for y in (top, low) for x, anchor in ((signs.left, "start"), (signs.right, "end"))
    ]
    for x, y, anchor in (*corners, (signs.left, signs.bottom + 2 * SMALL_TEXT, "start")):
        if canvas.text_if_free(Text((x, y), name, SMALL_TEXT, anchor, style="mark"), clear=NEAR):
            break
    return signs


def _write(canvas: Canvas, words: str, at: Point) -> None:
    """Sentences below all that is drawn, from the upper left corner of their first line on."""
    width = canvas.extents().right - at[0]
    lines = (line for part in words.split("\n") for line in wrapped(part, width, SMALL_TEXT))
    for number, line in enumerate(lines, 1):
        canvas.text((at[0], at[1] + number * line_height(SMALL_TEXT) * 1.05), line, SMALL_TEXT)
