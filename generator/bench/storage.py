"""What fills the bays: drawers on slides and packing, totes on runners, shelves on cleats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.model import (
    OpenSpace,
    PlacedDrawer,
    PlacedShelf,
    PlacedTote,
    Storage,
)
from generator.bench.no_size import drawers_without_size
from generator.bench.panels import panel_rules
from generator.calculators import drawers as drawer_rules
from generator.calculators import totes as tote_rules
from generator.calculators.spacing import Share, divide
from generator.findings import Finding, Severity
from generator.spec.load import LoadedSpec
from generator.spec.lookup import sheet, slide
from generator.spec.schema import Spec, StackItem
from generator.working import constant

#: Play between a strip and a post, at each end of a runner, a shelf's end, a shelf's edge (mm).
PLAY = constant(1, "play at each end of a shelf, runner or strip")
#: What measured goods may take from the uppermost gap of a stack, or add to it (mm). Common practice, no source.
TAKEN_BY_GAP = Fraction(1, 2)


@dataclass(frozen=True)
class _Slot:
    """One item of a stack at its height; totes are one slot for the whole set."""

    item: StackItem
    bottom: Fraction
    height: Fraction


def default_runner_gap(rim_width: Fraction, body_width: Fraction) -> Fraction:
    """The gap (mm) that a tote card leaves out: the middle of the range that carries it."""
    return sum(tote_rules.runner_gap_range(rim_width, body_width), Fraction(0)) / 2


def fill_bays(loaded: LoadedSpec, layout: Layout) -> tuple[Storage, tuple[Finding, ...]]:
    """Place every item of every stack. Findings: stacks that do not fill their opening, by how much."""
    drawers: list[PlacedDrawer] = []
    totes: list[PlacedTote] = []
    shelves: list[PlacedShelf] = []
    spaces: list[OpenSpace] = []
    faults: list[Finding] = []
    for zone in layout.zones:
        for bay in zone.bays:
            known = len(faults)
            slots = _slots(loaded, layout, bay, faults)
            own = tuple(_place_drawers(loaded.spec, layout, bay, slots))
            drawers += own
            if len(faults) == known:
                faults += _impossible_drawers(loaded, bay, slots, own)
            totes += _place_totes(loaded.spec, bay, slots)
            shelves += _place_shelves(loaded.spec, layout, zone, bay)
            opens = [slot for slot in slots if slot.item.open is not None]
            spaces += [OpenSpace(bay.name, n, s.bottom, s.height) for n, s in enumerate(opens, 1)]
    return Storage(tuple(drawers), tuple(totes), tuple(shelves), tuple(spaces)), tuple(faults)


def _slots(loaded: LoadedSpec, layout: Layout, bay: BayPlace, faults: list[Finding]) -> list[_Slot]:
    """Heights of all items but shelves: fronts and gaps fill the opening, totes alone float in it."""
    items = [item for item in bay.spec.stack if item.shelf is None]
    if not items:
        return []
    spec, bottom, opening = loaded.spec, layout.levels.base_top, layout.levels.opening
    if all(item.totes for item in items):
        return _tote_slots(loaded, layout, bay, items, faults)
    gap = spec.drawers.gap
    division = divide(opening - (len(items) + 1) * gap, [_wanted(spec, item) for item in items])
    if not division.ok and not _measured_away(loaded, division.residual):
        amount = loaded.say(abs(division.residual))
        by = f"{amount} too high" if division.residual < 0 else f"{amount} missing"
        if division.residual == 0:
            by = "nothing is left for the shares"
        faults.append(
            _stack_fault(
                loaded,
                bay,
                f"the {len(items)} items of bay {bay.name} and {len(items) + 1} gaps of {loaded.say(gap)} "
                f"do not fill the opening of {loaded.say(opening)}: {by}",
                "heights that fill the opening exactly, or one of them as `share`",
            )
        )
    slots, at = [], bottom + gap
    for item, height in zip(items, division.sizes, strict=True):
        slots.append(_Slot(item, at, height))
        at += height + gap
    return slots


def _measured_away(loaded: LoadedSpec, residual: Fraction) -> bool:
    """A bar or a trim that measures a little off its plan: the gap under the tray takes what the stack does not."""
    return bool(loaded.measured) and 0 < abs(residual) <= TAKEN_BY_GAP


def _stack_fault(loaded: LoadedSpec, bay: BayPlace, message: str, allowed: str) -> Finding:
    where = loaded.where("zones", bay.zone, "bays", bay.index, "stack")
    return Finding("stack-sum", Severity.ERROR, message, where, allowed=allowed)


def _wanted(spec: Spec, item: StackItem) -> Fraction | Share:
    if item.totes is not None:
        card = spec.totes[item.totes]
        # in a mixed stack each tote needs its lift, the uppermost too
        return item.count * (card.height + card.lift)
    wanted = item.drawer if item.drawer is not None else item.open
    assert wanted is not None
    return wanted


def _tote_slots(
    loaded: LoadedSpec, layout: Layout, bay: BayPlace, items: Sequence[StackItem], faults: list[Finding]
) -> list[_Slot]:
    spec, bottom, opening = loaded.spec, layout.levels.base_top, layout.levels.opening
    cards = [spec.totes[item.totes] for item in items for _ in range(item.count) if item.totes]
    needed = sum((card.height for card in cards), Fraction(0))
    needed += sum((card.lift for card in cards[:-1]), Fraction(0))
    if needed > opening:
        faults.append(
            _stack_fault(
                loaded,
                bay,
                f"the {len(cards)} totes of bay {bay.name} need {loaded.say(needed)}, {loaded.say(needed - opening)} "
                f"more than the opening of {loaded.say(opening)}",
                "fewer or lower totes",
            )
        )
    slots, at = [], bottom + (opening - needed) / 2
    for item in items:
        if item.totes is None:
            continue
        card = spec.totes[item.totes]
        height = tote_rules.stack_height(card.height, card.lift, item.count)
        slots.append(_Slot(item, at, height))
        at += height + card.lift
    return slots


def drawer_constants(spec: Spec) -> drawer_rules.DrawerRules:
    """The rules of the spec's drawers as the calculator takes them."""
    rules, runner = spec.drawers, slide(spec)
    return drawer_rules.DrawerRules(
        proud=rules.proud,
        side_space=runner.side_space,
        gap=rules.gap,
        below=rules.below,
        above=rules.above,
        slide_axis=rules.slide_axis,
        slide_length=runner.length,
        slide_height=runner.height,
        box_thickness=sheet(spec, rules.box).thickness,
        groove=rules.groove,
    )


def _place_drawers(
    spec: Spec, layout: Layout, bay: BayPlace, slots: Sequence[_Slot]
) -> Iterator[PlacedDrawer]:
    slots = [slot for slot in slots if slot.item.drawer is not None]
    if not slots:
        return
    rules = drawer_constants(spec)
    sizes = [drawer_rules.drawer_sizes(rules, bay.clear, slot.height, slot.bottom) for slot in slots]
    blocks = drawer_rules.spacers(
        [size.slide_lower_edge for size in sizes], rules.slide_height, layout.levels.base_top
    )
    front = sheet(spec, spec.drawers.front).thickness + spec.drawers.slide_setback
    stations = tuple(front + hole for hole in slide(spec).holes)
    for number, (size, block) in enumerate(zip(sizes, blocks, strict=True), 1):
        yield PlacedDrawer(bay.name, number, size, front, stations, block)


def _impossible_drawers(
    loaded: LoadedSpec, bay: BayPlace, slots: Sequence[_Slot], placed: Sequence[PlacedDrawer]
) -> Iterator[Finding]:
    indices = [
        next(i for i, each in enumerate(bay.spec.stack) if each is s.item) for s in slots if s.item.drawer
    ]
    return drawers_without_size(
        loaded, bay, [(index, drawer.sizes) for index, drawer in zip(indices, placed, strict=True)]
    )


def _place_totes(spec: Spec, bay: BayPlace, slots: Sequence[_Slot]) -> Iterator[PlacedTote]:
    offset = panel_rules(spec).fit.offset
    number = 0
    for slot in slots:
        if slot.item.totes is None:
            continue
        card = spec.totes[slot.item.totes]
        gap = card.runner_gap or default_runner_gap(card.rim_width, card.body_width)
        for i in range(slot.item.count):
            number += 1
            bottom = slot.bottom + i * (card.height + card.lift)
            yield PlacedTote(
                bay.name,
                number,
                slot.item.totes,
                bottom,
                bottom + card.height,
                bottom + card.height - card.rim_height,
                tote_rules.runner_width(bay.clear, offset, gap),
            )


def _place_shelves(spec: Spec, layout: Layout, zone: ZonePlace, bay: BayPlace) -> Iterator[PlacedShelf]:
    offset = panel_rules(spec).fit.offset
    thickness = sheet(spec, spec.shelves.material).thickness
    heights = sorted(item.shelf for item in bay.spec.stack if item.shelf is not None)
    for number, height in enumerate(heights, 1):
        top = layout.levels.base_top + height
        yield PlacedShelf(
            bay.name,
            number,
            top,
            bay.clear + 2 * offset - 2 * PLAY,
            zone.y.size - 2 * PLAY,
            top - thickness,
        )
