"""Below a step picture: what lies which way, a joint in its section, and where all is seen from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.drawings.callouts import BESIDE, BETWEEN
from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.eye import Eye
from generator.drawings.inset import RADIUS, WORDS, JointView, draw_inset, draw_leader
from generator.drawings.letter_sizes import SMALL_TEXT, line_height
from generator.drawings.lettering import wrapped
from generator.drawings.orientation import draw_signpost
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step

#: A window into a joint with its words (mm).
INSET_WIDTH = 2 * RADIUS + 3.0 + WORDS


@dataclass(frozen=True)
class Window:
    """The joints that a picture may look into, and where on paper each has a ring."""

    figures: Figures
    step: Step
    joints: Sequence[JointView]
    rings: Sequence[Point | None]

    def draw(self, canvas: Canvas, right: float, top: float) -> float:
        """One joint in a round window below the picture, the first that a line can lead to; its lower edge."""
        if not self.joints:
            return top
        at = (right - INSET_WIDTH, top)
        led = (
            joint
            for joint, ring in zip(self.joints, self.rings, strict=True)
            if ring and draw_leader(canvas, ring, at)
        )
        return draw_inset(canvas, at, next(led, self.joints[0]), self.figures, self.step).bottom


def draw_foot(canvas: Canvas, view: Eye, words: str, window: Window, top: float) -> None:
    """Below the picture: what lies which way, a joint in its section, and where all is seen from."""
    room = canvas.extents()
    signs = draw_signpost(canvas, (room.left, top), view)
    # what is beside the signpost already leaves no room there
    beside = room.bottom < top
    right = max(room.right, signs.right + BESIDE + INSET_WIDTH) if beside else room.left + INSET_WIDTH
    below = window.draw(canvas, right, top if beside else canvas.extents().bottom + BETWEEN)
    edge = max(signs.bottom, below) + BETWEEN
    for number, line in enumerate(wrapped(words, room.width, SMALL_TEXT), 1):
        canvas.text((room.left, edge + number * line_height(SMALL_TEXT) * 1.05), line, SMALL_TEXT)
