"""Hardware counted from joints, parts and bays; nothing is typed in. Spares are a tenth, at least two."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.bench.stands.facts import Fixing
from generator.calculators.fasteners import (
    THREADS,
    WASHERS,
    BoltWindow,
    bolt_window,
    box_corner_screws,
    spare,
    stock_lengths,
    trim_screws,
)
from generator.calculators.shelves import cleat_count
from generator.figures.rows.hardware import HardwareRow, Lot
from generator.figures.tray_screws import tray_screws
from generator.spec.goods import AnyHardware
from generator.spec.lookup import profile, sheet, slide, slot_nut
from generator.spec.schema import Spec
from generator.units import INCH, format_inch, format_mm

#: Screws of one packing strip: two at each end region. Common practice, no source.
PER_DRAWER_FRONT = 4
PER_BRACKET = 2
#: Wood screws of 4 mm on the shelf (mm). Common practice, no source.
WOOD_SCREW_LENGTHS = (10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60)


@dataclass(frozen=True)
class Nuts:
    """Slot nuts by use. One spare waits in each segment of a top rail's inner slot, which closes for good."""

    stands: int
    brackets: int
    spare: int

    @property
    def total(self) -> int:
        return self.stands + self.brackets + self.spare


def bracket_count(bench: Bench) -> int:
    """Top brackets: one in each segment between top cross-members, on both top rails."""
    return 2 * (len(bench.layout.lines) + 1)


def nuts(bench: Bench) -> Nuts:
    """One nut for each plate bolt and each top bracket, and as many spare as there are brackets."""
    brackets = bracket_count(bench)
    return Nuts(sum(each.count for each in bench.stand.in_nuts), brackets, brackets)


def nut_window(spec: Spec, grip: Fraction) -> BoltWindow:
    """Bolt through something so thick into the slot."""
    return _window(spec, grip)


def bracket_window(spec: Spec) -> BoltWindow:
    """Bolt through a top bracket and its washer into the slot."""
    return _window(spec, spec.top.bracket_thickness + WASHERS[slot_nut(spec).thread].thickness)


def _window(spec: Spec, grip: Fraction) -> BoltWindow:
    bar, nut = profile(spec), slot_nut(spec)
    return bolt_window(
        grip=grip,
        lip=bar.slot.lip,
        nut=nut.height,
        slot_depth=bar.slot.depth,
        lengths=stock_lengths(nut.thread),
    )


def screw_name(thread: str, length: Fraction | None) -> str:
    """`M8x20`, `5/16-18 x 1 1/4`; without a length that fits, the thread alone."""
    if length is None:
        return f"{thread}, no stock length fits"
    if thread.startswith("M"):
        return f"{thread}x{format_mm(length)}"
    return f"{thread} x {format_inch(length)}"


def tapped_screw(spec: Spec, plate: Fraction) -> str:
    """Machine screw into a tapped plate: about its thickness plus one third."""
    thread = slot_nut(spec).thread
    least = plate + THREADS[thread].diameter / 2
    fitting = [length for length in stock_lengths(thread) if least <= length]
    return screw_name(thread, fitting[0] if fitting else None)


@dataclass(frozen=True)
class _Need:
    """What the bench needs of one kind of goods; `name` is the spec's own, where it has one."""

    kind: str
    count: int
    for_: str
    size: str = ""
    name: str = ""
    lots: tuple[Lot, ...] = ()


def hardware(spec: Spec, bench: Bench) -> tuple[HardwareRow, ...]:
    """Rows of all hardware that occurs. Slides, brackets and what stands by itself have no spares."""
    without = _NO_SPARE | {each.kind or each.item for each in bench.stand.fixings if not each.spares}
    return tuple(
        HardwareRow(
            item=need.name or need.kind,
            count=need.count,
            spare=0 if need.kind in without else spare(need.count),
            for_=need.for_,
            size=need.size,
            kind=need.kind,
            lots=need.lots,
        )
        for need in _needs(spec, bench)
        if need.count
    )


def card_of(spec: Spec, row: HardwareRow) -> AnyHardware | None:
    """The card of what a row names, None for goods without a card, whatever the spec calls its own."""
    card = spec.hardware.get(row.item)
    return card if card is not None and card.kind == row.kind else None


_NO_SPARE = {"slide", "top bracket"}


def _needs(spec: Spec, bench: Bench) -> Iterator[_Need]:
    yield from _joint_items(spec, bench)
    yield from _stand_items(spec, bench)
    yield from _top_items(spec, bench)
    yield from _drawer_items(spec, bench)
    yield from _strip_items(spec, bench)
    yield from _tray_items(spec, bench)


def _joint_items(spec: Spec, bench: Bench) -> Iterator[_Need]:
    for name, count in Counter(joint.fastener for joint in bench.joints).items():
        for each in bench.joinings[name].bought:
            sizes = " x ".join(_size(spec, size) for size in each.sizes)
            size = f"{each.size} {sizes} {spec.units}" if sizes else each.size
            yield _Need(each.kind, count, each.use, size, each.item)


def _size(spec: Spec, length: Fraction) -> str:
    return format_mm(length / INCH, 3) if spec.units == "in" else format_mm(length)


def _stand_items(spec: Spec, bench: Bench) -> Iterator[_Need]:
    nut, thread = nuts(bench), slot_nut(spec).thread
    uses = (
        f"{nut.stands} {bench.stand.words.plates}, {nut.brackets} top brackets, "
        f"{nut.spare} spare beside those of the brackets"
    )
    nut_size = f"{thread}, {slot_nut(spec).entry}"
    yield _Need("slot nut", nut.total, uses, nut_size, spec.frame.slot_nut)
    for each in bench.stand.fixings:
        lots = tuple(Lot(*lot) for lot in each.lots)
        yield _Need(each.kind or each.item, each.count, each.use, _length(spec, each), each.item, lots)


def _length(spec: Spec, fixing: Fixing) -> str:
    """The stock screw for what it clamps and what holds it, or the sizes of what is no screw."""
    if fixing.into == "slot nut":
        return screw_name(slot_nut(spec).thread, nut_window(spec, fixing.grip).length)
    if fixing.into == "thread":
        return tapped_screw(spec, fixing.grip)
    sizes = " x ".join(_size(spec, size) for size in fixing.sizes)
    return f"{sizes} {spec.units}" if sizes else fixing.size


def _top_items(spec: Spec, bench: Bench) -> Iterator[_Need]:
    brackets = bracket_count(bench)
    says = "the top, in oversize holes; one between cross-members on both rails"
    yield _Need("top bracket", brackets, says)
    bolt = screw_name(slot_nut(spec).thread, bracket_window(spec).length)
    yield _Need("top bracket bolt", brackets, "brackets into slot nuts, with washer; cap screws", bolt)
    yield _Need("washer", brackets, "under the bracket bolts", WASHERS[slot_nut(spec).thread].name)
    yield _Need("top bracket wood screw", brackets * PER_BRACKET, "brackets to the top", "5x16")


def _drawer_items(spec: Spec, bench: Bench) -> Iterator[_Need]:
    drawers = bench.storage.drawers
    if not drawers:
        return
    # each of the two slides of a pair has one screw a hole in its cabinet and in its drawer member
    screws = len(drawers) * len(slide(spec).holes) * 4
    length = f"pairs, {_size(spec, slide(spec).length)} {spec.units} long"
    yield _Need("slide", len(drawers), "one pair a drawer", length, spec.drawers.slide)
    half = screws // 2
    box = sheet(spec, spec.drawers.box).thickness
    into_box = max(length for length in WOOD_SCREW_LENGTHS if length <= 10 or length <= box - 2)
    size = f"{half} 4x16 into the packing, {half} 4x{min(16, into_box)} into the boxes"
    yield _Need("slide screw", screws, "slides to packing and boxes", size)
    corners = sum(4 * box_corner_screws(drawer.sizes.box_height) for drawer in drawers)
    yield _Need("drawer box screw", corners, "box corners", "4x40")
    faces = len(drawers) * PER_DRAWER_FRONT
    yield _Need("drawer front screw", faces, "faces to boxes, from inside", "4x25")


def strip_screw(spec: Spec, strip: Part) -> str:
    """The longest stock screw through a strip into its wall that stays 2 mm short of the wall's far face."""
    room = strip.box.x.size + sheet(spec, spec.panels.material).thickness - 2
    fitting = [length for length in WOOD_SCREW_LENGTHS if length <= room]
    return f"4x{fitting[-1] if fitting else WOOD_SCREW_LENGTHS[0]}"


def _strip_items(spec: Spec, bench: Bench) -> Iterator[_Need]:
    strips = bench.in_group("packing strip", "shelf cleat", "tote runner")
    groups = Counter(part.group for part in strips)
    sizes: Counter[str] = Counter()
    for part in strips:
        sizes[strip_screw(spec, part)] += cleat_count(part.length)
    size = ", ".join(f"{count} {name}" for name, count in sizes.items())
    walls = ", ".join(f"{n} {group}s" for group, n in groups.items())
    yield _Need("strip screw", sum(sizes.values()), walls, size)


def _tray_items(spec: Spec, bench: Bench) -> Iterator[_Need]:
    count = sum(trim_screws(part.length) for part in bench.in_group("tray trim"))
    yield _Need("trim screw", count, "edge trim to the tray", "3x12")
    pockets, above = (sum(len(row.at) for row in rows) for rows in tray_screws(spec, bench))
    faces = "dividers to the tray, from the face that has room for them"
    yield _Need("pocket screw", pockets, faces, "4x25 pan head")
    runners = "tray to dividers, from above where both faces carry runners"
    yield _Need("tray screw", above, runners, "4x40")


__all__ = ["bracket_window", "card_of", "hardware", "nut_window", "nuts"]
