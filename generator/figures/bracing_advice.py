"""What to add to a frame that sways too far: the least of what the language can say that keeps the limit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings.bolted import window
from generator.bench.fillings.gussets import HAND
from generator.bench.frames.panels import wall_names
from generator.bench.law import said
from generator.bench.model import Bench
from generator.figures.bracing import Bracing, bracing_of
from generator.figures.hardware import bolted_thickness
from generator.figures.rows.strength import Sway
from generator.figures.sway import sway_rows
from generator.findings import Change
from generator.provenance import constant
from generator.spec.bracing import STANDARD, PanelFixing
from generator.units.sizes import INCH

#: Distances of the brackets of a panel that are tried, the widest first (mm; in, for a bench in inches).
SPACINGS: Mapping[str, tuple[Fraction, ...]] = {
    "mm": tuple(constant(size, f"advised distance of brackets, {size} mm") for size in (300, 150)),
    "in": tuple(constant(INCH * size, f"advised distance of brackets, {size} in") for size in (12, 6)),
}
#: Sets of corners with brackets that are tried, the fewest first.
CORNERS = (
    (),
    ("long corners",),
    ("long corners", "inner posts"),
    ("long corners", "inner posts", "end corners"),
)
#: Sets of walls that help: a back alone lets the top turn.
WALLS = ((), ("ends",), ("ends", "back"))


@dataclass(frozen=True)
class Advice:
    """Keys and values to write, and the worst sway of each direction with them (mm), by the direction."""

    changes: tuple[Change, ...]
    rows: tuple[Sway, ...]


def with_advice(bench: Bench, rows: tuple[Sway, ...]) -> tuple[Sway, ...]:
    """The rows with what to add beside each that misses its limit."""
    last = {row.direction: row for row in rows}
    # brackets are bolted to slots
    if bench.goods.profile is None or all(row.worst <= row.target for row in last.values()):
        return rows
    found = advice(bench)
    if found is None:
        return rows
    then = {row.direction: row.worst for row in found.rows}
    add = tuple((change.path, change.value) for change in found.changes)
    return tuple(
        replace(row, add=add, then=then[row.direction])
        if row is last[row.direction] and row.worst > row.target
        else row
        for row in rows
    )


def advice(bench: Bench) -> Advice | None:
    """The first bracing that keeps the limit in both directions with the softest joints; None where none does."""
    now = bracing_of(bench.spec)
    for more in _tried(bench, now):
        rows = sway_rows(bench, more)
        if all(row.worst <= row.target for row in {row.direction: row for row in rows}.values()):
            return Advice(tuple(_changes(bench, now, more)), rows)
    return None


def _tried(bench: Bench, now: Bracing) -> Iterator[Bracing]:
    spec = bench.spec
    has = wall_names(spec)
    for corners in CORNERS if _takes_gussets(bench) else ((),):
        for walls in WALLS:
            new = [wall for wall in walls if wall not in now.fixed]
            if any(wall not in has for wall in walls):
                continue
            for spacing in SPACINGS[spec.units] if new else (Fraction(0),):
                fixed = {**now.fixed, **dict.fromkeys(new, spacing)}
                label = f", with {', '.join((*corners, *walls, said(spec, spacing) if new else 'no panel'))}"
                yield Bracing(now.corners | set(corners), fixed, label)


def _takes_gussets(bench: Bench) -> bool:
    """Whether the spec's bracket fits under the top rails, clear of tray, bars and vises."""
    spec, levels = bench.spec, bench.layout.levels
    card = bench.goods.gussets[spec.frame.gussets.bracket]
    space = levels.frame_height - bench.layout.section - levels.tray_top
    return space >= card.leg + HAND and card.width <= bench.layout.section and not spec.top.vise


def _changes(bench: Bench, now: Bracing, more: Bracing) -> Iterator[Change]:
    spec, goods = bench.spec, bench.goods
    bolted = []
    for wall, spacing in more.fixed.items():
        if wall not in now.fixed:
            yield Change(f"panels.fix.{wall}.spacing", said(spec, spacing))
            name = PanelFixing().bracket
            bolted.append((name, goods.panel_brackets[name].thickness))
    if more.corners != now.corners:
        corners = [corner for corner in CORNERS[-1] if corner in more.corners]
        yield Change("frame.gussets.at", f"[{', '.join(corners)}]")
        name = spec.frame.gussets.bracket
        bolted.append((name, goods.gussets[name].thickness))
    for name, thickness in dict(bolted).items():
        if window(goods, thickness).length is None:
            fits = bolted_thickness(lambda thick: window(goods, thick), thickness)
            if fits is not None:
                if name not in (bench.loaded.document.data.get("hardware") or {}):
                    yield Change(f"hardware.{name}.use", STANDARD[name])
                yield Change(f"hardware.{name}.thickness", said(spec, fits))
