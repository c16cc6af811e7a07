"""A screw in a round window: its head, its shank with the thread, and the tool behind it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import hypot

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point, shifted
from generator.drawings.step_screws import HEAD, PlacedScrew

#: A bolt's head is as high as its shank is thick; a wood screw's so much of it. A tool is this part of the head.
SUNK, TOOL = 0.6, 0.45
#: A turn of the thread as part of the shank, and how far a tool comes out (mm of paper).
PITCH, REACH = 0.5, 60.0


def draw_screw(
    canvas: Canvas,
    screw: PlacedScrew,
    start: Point,
    end: Point,
    scale: float,
    clip: Callable[[Sequence[Point]], list[Point]],
) -> None:
    """The screw seated, its head at `start`, cut to the window by `clip`."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    if length < 1.0:
        return
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    half = screw.shank / scale / 2

    def corner(far: float, out: float) -> Point:
        return shifted(start, along[0] * far - along[1] * out, along[1] * far + along[0] * out)

    def polygon(style: str, *corners: tuple[float, float]) -> None:
        if inside := clip([corner(far, out) for far, out in corners]):
            canvas.polygon(inside, style)

    wide, tip = HEAD / 2 * 2 * half, length - 2 * half
    tool = max(wide * TOOL, 0.5)
    high = 2 * half if screw.bolt else 0.0
    if screw.pocket:
        # in front of its head the wood is away
        bore = screw.pocket / scale / 2
        polygon("paper", (-REACH, -bore), (-REACH, bore), (0, bore), (0, -bore))
        for side in (-bore, bore):
            ends = clip([corner(-REACH, side), corner(0, side), corner(0, side)])
            if len(ends) >= 2:
                canvas.line(ends[0], ends[1], "hidden")
    polygon("hole", (-REACH, -tool), (-REACH, tool), (-high, tool), (-high, -tool))
    if screw.bolt:
        polygon("iso-dark-right-edged", (-high, -wide), (-high, wide), (0, wide), (0, -wide))
        polygon("iso-dark-right-edged", (0, -half), (0, half), (length, half), (length, -half))
    else:
        polygon("iso-dark-right-edged", (0, -wide), (0, wide), (SUNK * wide, half), (SUNK * wide, -half))
        polygon(
            "iso-dark-right-edged",
            (SUNK * wide, -half),
            (SUNK * wide, half),
            (tip, half),
            (length, 0),
            (tip, -half),
        )
    far = length / 3
    while far < tip:
        ends = clip([corner(far, -half), corner(far + half * PITCH, half), corner(far + half * PITCH, half)])
        if len(ends) >= 2:
            canvas.line(ends[0], ends[1], "thin")
        far += max(2 * half * PITCH, 0.5)
