"""Boards that one pulls out, as rows."""

from __future__ import annotations

from generator.bench.model import Bench
from generator.figures.rows.pull_outs import PullOut


def pull_outs(bench: Bench) -> tuple[PullOut, ...]:
    """In the order of the bays, from below; heights from the frame's underside (mm)."""
    base = bench.layout.levels.base_top
    axes = [each.slide_axis for each in bench.storage.pull_outs]
    return tuple(
        PullOut(
            p.bay, p.number, p.top, p.width, p.depth, p.thickness, axis,
            {"top": p.top - base, "axis": axis - base},
        )
        for p, axis in zip(bench.storage.pull_outs, axes, strict=True)
    )  # fmt: skip
