"""The stacks of all bays: heights of what stacks, every item placed by its kind, boards and strips in rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.facts import Filled, Placed, StackSlot
from generator.bench.fillings.on_slides import with_blocks
from generator.bench.fillings.storage import Storage
from generator.bench.layout import BayPlace, Layout
from generator.bench.piece import Part
from generator.calculators.spacing import divide
from generator.codes import Code
from generator.findings import Finding, Severity
from generator.spec.load import LoadedSpec

#: What measured goods may take from the uppermost gap of a stack, or add to it (mm). Common practice, no source.
TAKEN_BY_GAP = Fraction(1, 2)


def fill_bays(loaded: LoadedSpec, layout: Layout) -> tuple[Storage, tuple[Finding, ...]]:
    """Place every item of every stack. Findings: stacks that do not fill their opening, by how much."""
    found: list[Placed] = []
    faults: list[Finding] = []
    for zone in layout.zones:
        for bay in zone.bays:
            known = len(faults)
            slots = _slots(loaded, layout, bay, faults)
            fills = len(faults) == known
            here: list[Placed] = []
            for kind in FILLINGS:
                own = [slot for slot in slots if kind.takes(slot.item)]
                placed = tuple(kind.place(loaded, layout, zone, bay, own))
                here += placed
                if fills:
                    faults += kind.refusals(loaded, bay, own, placed)
            found += with_blocks(loaded, layout, here)
    by_kind = (item for kind in FILLINGS for item in found if isinstance(item, kind.placed))
    return Storage(tuple(by_kind)), tuple(faults)


def _slots(loaded: LoadedSpec, layout: Layout, bay: BayPlace, faults: list[Finding]) -> list[StackSlot]:
    """Heights of all items that stack: they and the gaps fill the opening, but for a kind that floats when alone."""
    stacking = [kind for kind in FILLINGS if kind.stacks]
    pairs = [(item, kind) for item in bay.spec.stack for kind in stacking if kind.takes(item)]
    items = [item for item, _ in pairs]
    if not items:
        return []
    kinds = {kind.kind: kind for _, kind in pairs}
    if len(kinds) == 1:
        alone = pairs[0][1].alone(loaded, layout, bay, items, faults)
        if alone is not None:
            return alone
    spec, bottom, opening = loaded.spec, layout.levels.base_top, layout.levels.opening
    gap = spec.drawers.gap
    division = divide(opening - (len(items) + 1) * gap, [kind.wanted(spec, item) for item, kind in pairs])
    if not division.ok and not _measured_away(loaded, division.residual):
        amount = loaded.say(abs(division.residual))
        by = f"{amount} too high" if division.residual < 0 else f"{amount} missing"
        if division.residual == 0:
            by = "nothing is left for the shares"
        faults.append(
            _stack_fault(
                loaded,
                bay,
                f"{len(items)} {'item' if len(items) == 1 else 'items'} and {len(items) + 1} gaps of {loaded.say(gap)} "
                f"do not fill the opening of bay {bay.name}, {loaded.say(opening)}: {by}",
                "heights that fill the opening exactly, or one of them `share`",
            )
        )
    slots, at = [], bottom + gap
    for item, height in zip(items, division.sizes, strict=True):
        slots.append(StackSlot(item, at, height))
        at += height + gap
    return slots


def _measured_away(loaded: LoadedSpec, residual: Fraction) -> bool:
    """A bar or a trim that measures a little off its plan: the gap under the tray takes what the stack does not."""
    return bool(loaded.measured) and 0 < abs(residual) <= TAKEN_BY_GAP


def _stack_fault(loaded: LoadedSpec, bay: BayPlace, message: str, allowed: str) -> Finding:
    where = loaded.where("zones", bay.zone, "bays", bay.index, "stack")
    return Finding(Code.STACK_SUM, Severity.ERROR, message, where, allowed=allowed)


def storage_parts(loaded: LoadedSpec, layout: Layout, storage: Filled) -> tuple[Part, ...]:
    """Boards and strips of everything that fills the bays, marked in rows by their group."""
    parts: list[Part] = []
    for zone in layout.zones:
        for bay in zone.bays:
            all_ = [item for item in storage.items if item.bay == bay.name]
            for kind in reversed(FILLINGS):
                own = [item for item in all_ if isinstance(item, kind.placed)]
                parts += kind.parts(loaded, layout, zone, bay, own, all_)
    return _numbered(parts)


def _numbered(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Marks follow the groups, so that like parts are together on the cut list."""
    count: dict[str, int] = {}
    numbered = []
    for part in parts:
        count[part.mark] = count.get(part.mark, 0) + 1
        numbered.append(replace(part, mark=f"{part.mark}{count[part.mark]}"))
    return tuple(numbered)
