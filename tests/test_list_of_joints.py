"""The list of joints on the page of hardware, against what the part sheets cut."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.resources import bundled
from generator.spec.load import read_spec


@pytest.mark.parametrize("name", ["joiner", "lumber"])
def test_the_list_of_joints_names_the_face_that_is_cut(name: str) -> None:
    """Whoever marks a mortise out by it marks the face that the part sheet machines, at the same place.

    A part sheet names faces for its first piece; screws and bolts are on both sides of the middle of their joint.
    """
    text = (bundled("specs") / "samples" / f"{name}.yml").read_text(encoding="utf-8")
    figures = compute(solve(read_spec(text, "bench.yml")))[0]
    cuts: dict[tuple[str, str], list[tuple[Fraction, Fraction]]] = defaultdict(list)
    for row in figures.parts:
        for op in row.operations:
            half = (op.size[0] if isinstance(op.size, tuple) else op.size) / 2
            cuts[row.mark, op.face].append((op.at[0] - half, op.at[0] + half))
    glued = [
        row
        for row in figures.joint_rows
        if row.kind in ("mortise and tenon", "half lap", "bridle") and row.crossing in {m for m, _ in cuts}
    ]
    assert len(glued) > 10
    assert [
        (row.crossing, row.hole_face, row.member, row.end)
        for row in glued
        if not any(low <= row.hole_at <= high for low, high in cuts[row.crossing, row.hole_face])
    ] == []
