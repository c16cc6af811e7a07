"""Hardware counted from joints, parts and bays; nothing is typed in. Spares are a tenth, at least two."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.driven import Driven
from generator.bench.fillings import FILLINGS, strip_paths
from generator.bench.frames import frame_kind
from generator.bench.frames.slotted import slotted
from generator.bench.law import said
from generator.bench.model import Bench
from generator.bench.stands.facts import StandGoods
from generator.calculators.edge_bands import rolls
from generator.calculators.fasteners import (
    THREADS,
    WASHERS,
    BoltWindow,
    bolt_window,
    spare,
    stock_lengths,
)
from generator.figures.edge_bands import band_lengths
from generator.figures.goods_looks import looks_of
from generator.figures.rows.hardware import HardwareRow, Lot
from generator.figures.screws import bracket_screws, driven, rail_screws
from generator.spec.chosen import ChosenGoods
from generator.spec.goods import AnyHardware
from generator.spec.schema import Spec
from generator.units.format import format_inch, format_mm
from generator.units.sizes import INCH

#: Steps of plates in the search for one that a stock bolt fits (mm).
PLATE_STEP = Fraction(1, 2)


@dataclass(frozen=True)
class Nuts:
    """Slot nuts by use. One spare waits in each segment of a top rail's inner slot, which closes for good."""

    stands: int
    brackets: int
    spare: int
    fillings: Counter[str]

    @property
    def total(self) -> int:
        return self.stands + self.brackets + self.spare + self.fillings.total()


def nuts(bench: Bench) -> Nuts:
    """One nut for each plate bolt, each top bracket and each bolt of a filling, and the spare ones."""
    if not frame_kind(bench.spec).in_nuts:
        return Nuts(0, 0, 0, Counter())
    spares = sum(each.spare for each in bench.brackets)
    held = Counter(bolt.use for kind in FILLINGS for bolt in kind.slot_bolts(bench))
    return Nuts(sum(each.count for each in bench.stand.in_nuts), len(bench.brackets), spares, held)


def nut_window(goods: ChosenGoods, grip: Fraction) -> BoltWindow:
    """Bolt through something so thick into the slot."""
    return _window(goods, grip)


def bracket_window(goods: ChosenGoods, thickness: Fraction | None = None) -> BoltWindow:
    """Bolt through a top bracket and its washer into the slot; the bench's bracket, or one of this thickness (mm)."""
    leg = goods.bracket_thickness if thickness is None else thickness
    return _window(goods, leg + WASHERS[goods.slot_nut.thread].thickness)


def bolted_thickness(window: Callable[[Fraction], BoltWindow], thickness: Fraction) -> Fraction | None:
    """The thickness (mm) nearest to this one that a stock bolt fits, by half millimetres; None far from it."""
    tried = (thickness + sign * steps * PLATE_STEP for steps in range(21) for sign in (-1, 1))
    return next((value for value in tried if value > 0 and window(value).length is not None), None)


def _window(goods: ChosenGoods, grip: Fraction) -> BoltWindow:
    bar, nut = slotted(goods), goods.slot_nut
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


def tapped_screw(goods: ChosenGoods, plate: Fraction) -> str:
    """Machine screw into a tapped plate: about its thickness plus one third."""
    thread = goods.slot_nut.thread
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


def hardware(bench: Bench) -> tuple[HardwareRow, ...]:
    """Rows of all hardware that occurs. Slides, brackets and what stands by itself have no spares."""
    without = _NO_SPARE | {each.kind or each.item for each in bench.stand.fixings if not each.spares}
    rows = (_row(need, spares=need.kind not in without) for need in _needs(bench) if need.count)
    return tuple(_with_looks(bench.spec, row) for row in rows)


def _with_looks(spec: Spec, row: HardwareRow) -> HardwareRow:
    card = card_of(spec, row)
    return replace(
        row, has_card=card is not None, looks=looks_of(row, card.looks if card else (), spec.units)
    )


def _row(need: _Need, *, spares: bool) -> HardwareRow:
    """What is bought as goods of its own has its own spares."""
    lots = tuple(replace(lot, spare=spare(lot.count)) for lot in need.lots) if spares else need.lots
    spared = sum(lot.spare for lot in lots) or spare(need.count)
    return HardwareRow(
        item=need.name or need.kind,
        count=need.count,
        spare=spared if spares else 0,
        for_=need.for_,
        size=need.size,
        kind=need.kind,
        lots=lots,
    )


def card_of(spec: Spec, row: HardwareRow) -> AnyHardware | None:
    """The card of what a row names, None for goods without a card, whatever the spec calls its own."""
    card = spec.hardware.get(row.item)
    return card if card is not None and card.kind == row.kind else None


_BOUGHT = tuple(each for kind in FILLINGS for each in kind.bought)
_NO_SPARE = {
    "top bracket",
    "bracket",
    "vise",
    "edge banding",
    *(each.kind for each in _BOUGHT if not each.screw),
}
_LISTS_USES = {each.kind for each in _BOUGHT if each.lists_uses}


def _needs(bench: Bench) -> Iterator[_Need]:
    yield from _joint_items(bench)
    yield from _stand_items(bench)
    yield from _top_items(bench)
    yield from _filling_items(bench)
    yield from _edge_items(bench)
    yield from _screw_items(bench)


def _joint_items(bench: Bench) -> Iterator[_Need]:
    spec = bench.spec
    for name, count in Counter(joint.fastener for joint in bench.joints).items():
        for each in bench.joinings[name].bought:
            sizes = " x ".join(_size(spec, size) for size in each.sizes)
            size = f"{each.size} {sizes} {spec.units}".lstrip() if sizes else each.size
            yield _Need(each.kind, count * each.count, each.use, size, each.item)


def _size(spec: Spec, length: Fraction) -> str:
    if spec.units == "mm":
        return format_mm(length)
    inches = length / INCH
    return format_inch(length, 64) if (inches * 64).denominator == 1 else format_mm(inches, 3)


def _stand_items(bench: Bench) -> Iterator[_Need]:
    spec, card = bench.spec, bench.goods.slot_nut
    nut = nuts(bench)
    uses = (
        f"{nut.stands} for {bench.stand.words.plates}, {nut.brackets} for top brackets, "
        f"{nut.spare} spare ones for the brackets"
        + "".join(f", {count} for {use}" for use, count in nut.fillings.items())
    )
    nut_size = f"{card.thread}, {card.entry}"
    yield _Need("slot nut", nut.total, uses, nut_size, spec.frame.slot_nut)
    for each in bench.stand.fixings:
        lots = tuple(Lot(*lot) for lot in each.lots)
        yield _Need(each.kind or each.item, each.count, each.use, _length(bench, each), each.item, lots)


def _length(bench: Bench, fixing: StandGoods) -> str:
    """The stock screw for what it clamps and what holds it, or the sizes of what is no screw."""
    spec, goods = bench.spec, bench.goods
    if fixing.into == "slot nut":
        return screw_name(goods.slot_nut.thread, nut_window(goods, fixing.grip).length)
    if fixing.into == "thread":
        return tapped_screw(goods, fixing.grip)
    sizes = " x ".join(_size(spec, size) for size in fixing.sizes)
    return f"{sizes} {spec.units}" if sizes else fixing.size


def _top_items(bench: Bench) -> Iterator[_Need]:
    spec, goods = bench.spec, bench.goods
    brackets, thread = len(bench.brackets), goods.slot_nut.thread
    if spec.top.bracket is None:
        says = "hold the top, in oversize holes; one in each space between the bars, on both rails"
        yield _Need("top bracket", brackets, says)
    else:
        says = "hold the top, in oversize holes; one near each corner, the rest at even distances"
        yield _Need("bracket", brackets, says, _card_size(bench), spec.top.bracket)
    if frame_kind(spec).in_nuts:
        bolt = screw_name(thread, bracket_window(goods).length)
        yield _Need("top bracket bolt", brackets, "brackets into slot nuts, with washer; cap screws", bolt)
        yield _Need("washer", brackets, "under the bracket bolts", WASHERS[thread].name)
    for each in rail_screws(bench):
        yield _Need(each.kind, each.count, "brackets to the upper timbers", each.name)
    yield from _vise_items(spec)
    for each in bracket_screws(bench):
        yield _Need(each.kind, each.count, "brackets to the top", each.name)


def _vise_items(spec: Spec) -> Iterator[_Need]:
    """Vises and what bolts them to their blocks."""
    vises = spec.top.vise
    jaws = dict.fromkeys(" x ".join(_size(spec, side) for side in each.jaw) for each in vises)
    yield _Need(
        "vise", len(vises), "at the edge of the top, each on a block", f"jaw {', '.join(jaws)} {spec.units}"
    )
    bolts = sum(each.bolts for each in vises)
    thread = "3/8-16" if spec.units == "in" else "M10"
    yield _Need(
        "vise bolt", bolts, "vises to their blocks, with washers", f"{thread}, through block and vise"
    )


def _card_size(bench: Bench) -> str:
    spec, card = bench.spec, bench.goods.bracket
    sizes = " x ".join(_size(spec, size) for size in card.size) if card else ""
    return f"{sizes} {spec.units}"


def _filling_items(bench: Bench) -> Iterator[_Need]:
    spec = bench.spec
    for kind in FILLINGS:
        for each in kind.needs(bench):
            sizes = " x ".join(_size(spec, size) for size in each.sizes)
            size = each.size.format(f"{sizes} {spec.units}" if sizes else "")
            yield _Need(each.kind, each.count, each.use, size, each.item)


def _run(spec: Spec, length: Fraction) -> str:
    """A length of goods by the metre or the foot."""
    return f"{float(length / INCH / 12):.4g} ft" if spec.units == "in" else f"{float(length / 1000):.4g} m"


def _edge_items(bench: Bench) -> Iterator[_Need]:
    """Rolls of edge banding."""
    spec, card = bench.spec, bench.goods.banding
    boards = [part for part in bench.parts if part.bands]
    if card is None or not boards:
        return
    bands = band_lengths(bench)
    size = " x ".join(_size(spec, each) for each in (card.thickness, card.width))
    use = f"{len(bands)} edges of {len(boards)} boards, each {said(spec, spec.edges.extra)} longer"
    roll = f"rolls of {_run(spec, card.roll)}, {_run(spec, sum(bands, Fraction(0)))} in all"
    name, size = spec.edges.banding or "", f"{size} {spec.units}, {roll}"
    yield _Need("edge banding", rolls(bands, card.roll), use, size, name)


#: What each wood screw is for, in the order of the list.
_WOOD_SCREWS = {
    **{each.kind: each.use for each in _BOUGHT if each.screw},
    "strip screw": "",
    "trim screw": "edge trim to the tray",
    "pocket screw": "dividers to the tray, through their free face",
    "tray screw": "tray to dividers, from above where both faces carry runners",
}


def _screw_items(bench: Bench) -> Iterator[_Need]:
    screws = driven(bench)
    strips = Counter(part.group for part in bench.of(*strip_paths()))
    walls = ", ".join(f"{count} {group}s" for group, count in strips.items())
    for kind, use in _WOOD_SCREWS.items():
        own = [each for each in screws if each.kind == kind]
        counts: Counter[str] = Counter()
        for each in own:
            counts[each.name] += each.count
        lots = tuple(Lot(count, name) for name, count in counts.items()) if len(counts) > 1 else ()
        yield _Need(kind, sum(counts.values()), use or walls, _sizes(kind, own, counts), lots=lots)


def _sizes(kind: str, screws: Sequence[Driven], counts: Counter[str]) -> str:
    """`4x40`, or how many of each size."""
    if kind in _LISTS_USES:
        return ", ".join(f"{each.count} {each.name} {each.told}" for each in screws)
    if kind == "strip screw":
        return ", ".join(f"{count} {name}" for name, count in counts.items())
    heads = sorted({each.head for each in screws if each.head})
    return " ".join([", ".join(counts), *heads])


__all__ = ["bracket_window", "card_of", "hardware", "nut_window", "nuts"]
