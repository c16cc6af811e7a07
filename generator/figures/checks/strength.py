"""Checks of sag, tipping and handling. The worst that can happen decides how much a check weighs."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.model import Bench
from generator.figures.checks.judged import Judged, Path, judged
from generator.figures.rows.masses import Stands
from generator.figures.rows.strength import Sag, Stability, Strength
from generator.spec.schema import Spec
from generator.working import inexact

#: Rule and key path by the kind of part that sags.
_SAGS: dict[str, tuple[str, Path]] = {
    "top board": ("sag-top-board", ("top", "material")),
    "base rail": ("sag-base", ("base", "count")),
    "shelf": ("sag-shelf", ("shelves", "material")),
    "drawer bottom": ("sag-drawer-bottom", ("drawers", "bottom")),
}
#: Two persons together, in what one lifts.
TWO = 2


def strength_checks(bench: Bench, stands: Stands, strength: Strength) -> Iterator[Judged]:
    """Tipping face by face, one in the air, then every sag."""
    spec = bench.spec
    for row in strength.stability:
        yield from _tipping(row)
    rating = stands.rating or 0.0
    most = stands.one_in_the_air
    stand = bench.stand
    yield judged(stand.laws.in_the_air, most <= rating, f"{stands.count} {stand.words.many}", stand.path,
                 value=most, limit=rating, unit="kg")  # fmt: skip
    yield from (_sag(spec, each) for each in strength.sags)


def _tipping(row: Stability) -> Iterator[Judged]:
    where = f"{row.face} face"
    yield judged("tips-by-pull", row.margins_alone[0] > row.push, where, ("base",),
                 value=row.margins_alone[0], limit=row.push, unit="kg m", sense="at least")  # fmt: skip
    if not row.drawers:
        return
    yield judged("drawer-tips", row.margins_alone[1] > 0, where, ("base",),
                 value=row.margins_alone[1], limit=0.0, unit="kg m", sense="at least")  # fmt: skip
    yield judged("drawers-open", row.safe_open_alone >= row.drawers, where, ("loads", "push"),
                 value=float(max(row.safe_open_alone, 0)), limit=float(row.drawers), sense="at least")  # fmt: skip


def _sag(spec: Spec, row: Sag) -> Judged:
    code, path = _SAGS.get(row.kind, ("sag-top-bar", ("materials", spec.frame.material)))
    load = "load spread" if row.spread else "load in the middle"
    where = ", ".join(word for word in (row.kind, row.where, load if row.kind == "base rail" else "") if word)
    return judged(code, row.sag <= row.limit, where, path, value=row.sag, limit=row.limit, unit="mm")


def handling_checks(spec: Spec, strength: Strength) -> Iterator[Judged]:
    """Weights against what two persons lift, sizes against door and van, the height against its user."""
    most = inexact(spec.limits.lift_one) * TWO
    for row in strength.handling:
        if row.whole:
            yield judged("door-bench", row.door and row.van, row.name, ("limits", "door"))
            continue
        yield judged("lift-weight", row.mass <= most, row.name, ("limits", "lift_one"),
                     value=row.mass, limit=most, unit="kg")  # fmt: skip
        yield judged("door-parts", row.door and row.van, row.name, ("limits", "door"))
    height = strength.work_height
    if height.low is not None and height.high is not None:
        nearest = height.low if height.height < height.low else height.high
        yield judged("work-height", height.suits, height.work, ("bench", "height"),
                     value=height.height, limit=nearest, unit="mm",
                     sense="at least" if height.height < height.low else "at most")  # fmt: skip
