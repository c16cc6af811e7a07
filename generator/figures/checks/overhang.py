"""Checks of a top that reaches beyond its frame: how far its edge sags."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.law import Law
from generator.bench.model import Bench
from generator.bench.place import SIDE_WORDS
from generator.bench.remedies import thicker
from generator.calculators.beams import board_second_moment, sag_cantilever, strip_at_edge
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.provenance import inexact

SAG_OVERHANG = Law(
    Code.SAG_OVERHANG, "warning", "The top is stiff enough beyond the frame",
    "The top's edge sags too far beyond the frame",
    "Take a thicker board, or let it reach less far beyond the frame.",
    "Work clamped to an edge that gives is glued up crooked, and the board bends for good.",
    thicker(lambda spec: spec.top.material),
    quantity="sag of the edge under the load in the middle of the top",
)  # fmt: skip


def overhang_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each side that reaches beyond the frame, under the load of the top."""
    force, limit = inexact(bench.spec.limits.top_force), inexact(bench.spec.limits.top_sag)
    card, over = bench.goods.top, bench.spec.top.overhang
    for side in type(over).model_fields:
        reach: Fraction = getattr(over, side)
        if reach <= 0:
            continue
        strip = board_second_moment(
            width=strip_at_edge(overhang=inexact(reach)), thickness=inexact(card.thickness)
        )
        sag = sag_cantilever(
            force=force, reach=inexact(reach), modulus=inexact(card.modulus), second_moment=strip
        )
        where = f"top, {SIDE_WORDS.get(side, side)}"
        yield check_result(SAG_OVERHANG, sag <= limit, where, ("top", "material"),
                           value=sag, limit=limit, unit="mm")  # fmt: skip
