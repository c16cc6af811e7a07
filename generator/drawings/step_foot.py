"""Below a step picture: what lies which way, a joint in its section, and where all is seen from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.drawings.callouts import BESIDE, BETWEEN
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.extent import Extent, Point
from generator.drawings.eye import Eye
from generator.drawings.inset import WORDS, draw_inset, draw_leader, draw_words
from generator.drawings.joint_views import RADIUS, CutOpen, JointView
from generator.drawings.letter_sizes import SMALL_TEXT, line_height
from generator.drawings.lettering import PAGE_WIDTH, wrapped
from generator.drawings.orientation import draw_signpost
from generator.drawings.slim import SLIM_WIDTH, WINDOW, window_again

#: Windows below a picture.
MOST_WINDOWS = 3
#: Clear paper round a drawing (mm).
MARGIN = 4.0
#: Words beside a window of two in a row (mm).
NARROW = 30.0
NARROW_WIDTH = 2 * RADIUS + 3.0 + NARROW
#: A window into a joint with its words (mm).
INSET_WIDTH = 2 * RADIUS + 3.0 + WORDS


@dataclass(frozen=True)
class Window:
    """The joints that a picture may look into, and where on paper each has a ring."""

    shown: CutOpen
    joints: Sequence[JointView]
    rings: Sequence[Point | None]
    slim_of: Drawing | None = None

    @property
    def beside(self) -> int:
        """Windows in a row: a phone has room for one."""
        return 1 if self.slim_of else min(2, max(1, len(list(self.kinds()))))

    def kinds(self) -> Iterator[list[tuple[JointView, Point | None]]]:
        """The joints by how they look."""
        found: dict[str, list[tuple[JointView, Point | None]]] = {}
        for joint, ring in zip(self.joints, self.rings, strict=True):
            found.setdefault(joint.kind, []).append((joint, ring))
        yield from list(found.values())[:MOST_WINDOWS]

    def draw(self, canvas: Canvas, right: float, top: float) -> float:
        """A joint of each kind in a round window, the first that a line can lead to; their lower edge."""
        kinds, beside = list(self.kinds()), self.beside
        words = WORDS if beside < 2 else NARROW
        across, edge = 2 * RADIUS + 3.0 + words, top
        rows = (kinds[first : first + beside] for first in range(0, len(kinds), beside))
        # the one farthest to the right has its window there, so that lines to them do not cross
        placed = (each for row in rows for each in sorted(row, key=_across, reverse=True))
        corners = [
            (right - (number % beside + 1) * across, top + number // beside * (2 * RADIUS + BETWEEN))
            for number in range(len(kinds))
        ]
        rooms = [Extent(x, y, x + across - 1.0, y + 2 * RADIUS) for x, y in corners]
        for number, (kind, at) in enumerate(zip(placed, corners, strict=True)):
            others = (*rooms[:number], *rooms[number + 1 :])
            joint, number_of = self._chosen(canvas, kind, at, others)
            edge = max(edge, at[1] + 2 * RADIUS)
            if self.slim_of:
                window_again(canvas, self.slim_of, number_of, at)
                draw_words(canvas, at, joint, words)
            else:
                first = len(canvas.shapes)
                draw_inset(canvas, at, joint, self.shown)
                canvas.group(f"{WINDOW}{number_of}", first)
                draw_words(canvas, at, joint, words)
        return edge

    def _chosen(
        self,
        canvas: Canvas,
        kind: Sequence[tuple[JointView, Point | None]],
        at: Point,
        others: Sequence[Extent],
    ) -> tuple[JointView, int]:
        """The first of like joints to which a line can lead, with its number; a slim picture shows that of the wide."""
        numbers = {id(joint): number for number, joint in enumerate(self.joints)}
        shown = {name for name, _, _ in self.slim_of.groups} if self.slim_of else set()
        kept = [each for each in kind if f"{WINDOW}{numbers[id(each[0])]}" in shown] or kind
        led = (joint for joint, ring in kept if ring and draw_leader(canvas, ring, at, others))
        joint = next(led, kept[0][0])
        return joint, numbers[id(joint)]


def _across(kind: Sequence[tuple[JointView, Point | None]]) -> float:
    """How far to the right the first ring of a kind is (mm)."""
    return next((ring[0] for _, ring in kind if ring), 0.0)


def draw_foot(canvas: Canvas, view: Eye, words: str, window: Window, top: float) -> None:
    """Below the picture: what lies which way, a joint in its section, and where all is seen from."""
    room = canvas.extents()
    signs = draw_signpost(canvas, (room.left, top), view)
    # what is beside the signpost already leaves no room there
    needed = INSET_WIDTH if window.beside < 2 else 2 * NARROW_WIDTH
    widest = (SLIM_WIDTH if window.slim_of else PAGE_WIDTH) - 2 * MARGIN
    beside = room.bottom < top and signs.width + BESIDE + needed <= widest
    right = max(room.right, signs.right + BESIDE + needed) if beside else room.left + needed
    below = window.draw(canvas, right, top if beside else canvas.extents().bottom + BETWEEN)
    edge = max(signs.bottom, below, canvas.extents().bottom) + BETWEEN
    lines = (line for part in words.split("\n") for line in wrapped(part, room.width, SMALL_TEXT))
    for number, line in enumerate(lines, 1):
        canvas.text((room.left, edge + number * line_height(SMALL_TEXT) * 1.05), line, SMALL_TEXT)
