"""Random benches that are known before they are solved: sizes are drawn, and the text follows from them.

All posts' lines come from one row of cells; a zone joins neighbouring cells to bays. Shares get the weights that
lead back to the drawn sizes, so every bay, zone and front has a size to be compared with.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from hypothesis import strategies as st

#: Sizes are multiples of 1/16 in, which is a whole number of 0.0025 mm: both texts are exact.
STEP = Fraction(127, 80)
CASTER_AND_PLATE, TOP, TRAY, TRIM, GAP = Fraction(137), Fraction(18), Fraction(12), Fraction(2), Fraction(3)
TOTE, LIFT = Fraction(145), Fraction(12)
#: The narrowest bay that passes the rim of the tote.
TOTE_BAY = Fraction(392)
SECTIONS = {
    "profile 30": Fraction(30),
    "profile 40": Fraction(40),
    "profile 45": Fraction(45),
    "profile 1 1/2 in": Fraction(381, 10),
}


@dataclass(frozen=True)
class Item:
    """`size` is a front's or a space's height, a shelf's top, or nothing for totes."""

    kind: str
    size: Fraction = Fraction(0)
    share: bool = False
    count: int = 1


@dataclass(frozen=True)
class BayPlan:
    width: Fraction
    share: bool
    stack: tuple[Item, ...]


@dataclass(frozen=True)
class ZonePlan:
    depth: Fraction
    share: bool
    bays: tuple[BayPlan, ...]


@dataclass(frozen=True)
class Plan:
    bar: str
    zones: tuple[ZonePlan, ...]
    height: Fraction
    end_rail: Fraction
    rails_through: bool
    casters: int
    trim: bool
    holes: bool
    walls: tuple[str, ...] | None

    @property
    def section(self) -> Fraction:
        return SECTIONS[self.bar]

    @property
    def length(self) -> Fraction:
        bays = self.zones[0].bays
        return sum((bay.width for bay in bays), Fraction(0)) + (len(bays) + 1) * self.section

    @property
    def depth(self) -> Fraction:
        return sum((zone.depth for zone in self.zones), Fraction(0)) + (len(self.zones) + 1) * self.section


def opening_of(end_rail: Fraction, section: Fraction, trim: bool) -> Fraction:
    """Clear height of a bay below the tray, which lies in the middle of its end rail."""
    return end_rail + section / 2 - TRAY / 2 - (TRIM if trim else 0) - section


# --- text


def millimetres(length: Fraction) -> str:
    """An exact decimal; raises ValueError when there is none."""
    for digits in range(10):
        if (length * 10**digits).denominator == 1:
            whole = str(abs(length * 10**digits)).rjust(digits + 1, "0")
            point = len(whole) - digits
            sign = "-" if length < 0 else ""
            return f"{sign}{whole[:point]}.{whole[point:]}" if digits else f"{sign}{whole}"
    raise ValueError(f"{length} is no decimal")


def inches(length: Fraction) -> str:
    """An exact mixed fraction of an inch, such as `23 5/8`."""
    whole, part = divmod(length / Fraction(127, 5), 1)
    words = [str(whole)] if whole else []
    return " ".join([*words, str(part)] if part else words) or "0"


def spec_text(plan: Plan, units: str = "mm", length: Fraction | None = None) -> str:
    """The spec of a plan with bare lengths in `units`; `length` alone may differ from the plan's."""
    write = millimetres if units == "mm" else inches
    size = {"length": plan.length if length is None else length, "depth": plan.depth, "height": plan.height}
    lines = [
        "spec: 1",
        "title: Drawn at random",
        f"units: {units}",
        "bench: {" + ", ".join(f"{key}: {write(value)}" for key, value in size.items()) + "}",
        f"materials: {{bar: {{use: {plan.bar}}}}}",
        "totes: {bin: {use: tote 145}}",
        f"frame: {{through: {'rails' if plan.rails_through else 'posts'}, "
        f"joints: {{long_rails_to_corner_posts: {'end-clip' if plan.rails_through else 'through-screw'}}}}}",
        f"tray: {{end_rail_bottom: {write(plan.end_rail)}{', trim: angle-15' if plan.trim else ''}}}",
        f"base: {{count: {plan.casters}}}",
    ]
    if plan.walls is not None:
        lines.append(f"panels: {{walls: [{', '.join(plan.walls)}]}}")
    if plan.holes:
        lines.append(f"top: {{holes: {{pitch: {write(96 * STEP)}}}}}")
    lines.append("zones:")
    depths = _sizes([(zone.depth, zone.share) for zone in plan.zones], write)
    for number, (zone, depth) in enumerate(zip(plan.zones, depths, strict=True), 1):
        lines += [f"  - name: Z{number}", f"    depth: {depth}", "    bays:"]
        widths = _sizes([(bay.width, bay.share) for bay in zone.bays], write)
        for bay, width in zip(zone.bays, widths, strict=True):
            lines.append(f"      - {{width: {width}, stack: [{_stack(bay.stack, write)}]}}")
    return "\n".join(lines) + "\n"


def _sizes(items: Sequence[tuple[Fraction, bool]], write: object) -> list[str]:
    """Fixed sizes as lengths; shares with the weights of their sizes, or as a plain `share` when alone."""
    assert callable(write)
    alone = sum(share for _, share in items) == 1
    return [
        write(size) if not share else "share" if alone else f"share {size / STEP / 16}"
        for size, share in items
    ]


def _stack(stack: Sequence[Item], write: object) -> str:
    assert callable(write)
    filling = [item for item in stack if item.kind in ("drawer", "open")]
    sizes = iter(_sizes([(item.size, item.share) for item in filling], write))
    words = []
    for item in stack:
        if item.kind == "totes":
            words.append(f"{{totes: bin, count: {item.count}}}")
        elif item.kind == "shelf":
            words.append(f"{{shelf: {write(item.size)}}}")
        else:
            words.append(f"{{{item.kind}: {next(sizes)}}}")
    return ", ".join(words)


# --- drawing


def steps(low: int, high: int) -> st.SearchStrategy[Fraction]:
    """A multiple of 1/16 in between two whole millimetres."""
    return st.integers(-(-low * 80 // 127), high * 80 // 127).map(lambda n: n * STEP)


@st.composite
def stacks(draw: st.DrawFn, opening: Fraction, width: Fraction) -> tuple[Item, ...]:
    kinds = ["nothing", "fronts", "shelves"]
    if width >= TOTE_BAY:
        kinds += ["totes", "totes and fronts"]
    kind = draw(st.sampled_from(kinds))
    if kind == "fronts":
        return draw(fronts(opening))
    if kind == "totes":
        most = int((opening + LIFT) // (TOTE + LIFT))
        return (Item("totes", count=draw(st.integers(1, most))),)
    if kind == "totes and fronts":
        rest = opening - (TOTE + LIFT) - 3 * GAP
        return (Item("totes"), Item(draw(st.sampled_from(["drawer", "open"])), rest, share=True))
    if kind == "shelves":
        heights = draw(st.lists(st.integers(1, 4), min_size=1, max_size=3, unique=True).map(sorted))
        return tuple(Item("shelf", 64 * n * STEP) for n in heights)
    return ()


@st.composite
def fronts(draw: st.DrawFn, opening: Fraction) -> tuple[Item, ...]:
    """One to four drawers and open spaces, all shares, some shares, or fixed sizes that fill the opening."""
    count = draw(st.integers(1, 4))
    weights = draw(st.lists(st.integers(2, 5), min_size=count, max_size=count))
    # fixed sizes are whole steps, so that both texts are exact; the last one takes what is left
    room = opening - (count + 1) * GAP
    sizes = [room * weight / sum(weights) // STEP * STEP for weight in weights[:-1]]
    sizes.append(room - sum(sizes))
    shares = draw(st.lists(st.booleans(), min_size=count, max_size=count))
    kinds = draw(st.lists(st.sampled_from(["drawer", "drawer", "open"]), min_size=count, max_size=count))
    return tuple(Item(*item) for item in zip(kinds, sizes, shares, strict=True))


@st.composite
def zone_bays(
    draw: st.DrawFn, cells: Sequence[Fraction], section: Fraction, opening: Fraction, alike: bool
) -> tuple[BayPlan, ...]:
    """Cells joined to bays; `alike`: every cell a bay of its own and all of them shares."""
    widths = [cells[0]]
    for cell in cells[1:]:
        if not alike and draw(st.booleans()):
            widths[-1] += section + cell
        else:
            widths.append(cell)
    return tuple(
        BayPlan(width, alike or draw(st.booleans()), draw(stacks(opening, width))) for width in widths
    )


@st.composite
def plans(draw: st.DrawFn, alike: bool = False) -> Plan:
    bar = draw(st.sampled_from(sorted(SECTIONS)))
    section = SECTIONS[bar]
    cells = draw(st.lists(steps(200, 600), min_size=1, max_size=6))
    end_rail, trim = draw(steps(400, 560)), draw(st.booleans())
    opening = opening_of(end_rail, section, trim)
    count = draw(st.integers(1, 3))
    zones = tuple(
        ZonePlan(draw(steps(250, 620)), draw(st.booleans()), draw(zone_bays(cells, section, opening, alike)))
        for _ in range(count)
    )
    any(len(zone.bays) > 1 for zone in zones)
    walls = ["dividers", "ends", "back" if count == 1 else "spine"]
    return Plan(
        bar=bar,
        zones=zones,
        height=draw(steps(900, 1000)),
        end_rail=end_rail,
        rails_through=draw(st.booleans()),
        casters=draw(st.sampled_from([4, 6])),
        trim=trim,
        holes=draw(st.booleans()),
        walls=draw(st.none() | st.lists(st.sampled_from(walls), unique=True).map(tuple)),
    )
