"""Checks of the casters and their plates."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from generator.bench.model import Bench
from generator.figures.checks.judged import Judged, at_least, at_most, judged
from generator.figures.rows.masses import Casters
from generator.spec.lookup import caster
from generator.spec.schema import Spec
from generator.working import inexact


def base_checks(spec: Spec, bench: Bench, casters: Casters) -> Iterator[Judged]:
    """Ratings, bolts under bars, wheels inside the footprint, holes clear of the plates' edges."""
    card, path = caster(spec), ("base", "casters")
    rating = inexact(card.rating)
    yield judged("caster-rating", casters.required <= rating, f"{casters.count} casters", path,
                 value=casters.required, limit=rating, unit="kg")  # fmt: skip
    loose = sorted({bolt.plate for bolt in bench.plate_bolts if not bolt.member})
    yield judged("plate-without-bar", not loose, ", ".join(loose), ("base", "count"))
    yield at_most("wheel-sweep", card.trail + card.wheel / 2, bench.casters[0][0], "corner casters", path)
    plates = bench.in_group("caster plate")
    meet = [
        f"{one.mark} and {other.mark}"
        for one, other in combinations(plates, 2)
        if one.box.overlaps(other.box)
    ]
    yield judged("plates-meet", not meet, ", ".join(meet), ("base", "plate", "size"))
    wide, deep = spec.base.plate.size
    for part in plates:
        edge = min(min(op.at[0], op.at[1], wide - op.at[0], deep - op.at[1]) for op in part.operations)
        widest = max(op.size for op in part.operations if isinstance(op.size, Fraction))
        yield at_least("plate-edge", edge, widest * Fraction(3, 2), part.mark, ("base", "plate", "size"))
