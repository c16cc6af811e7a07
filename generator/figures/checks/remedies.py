"""What cures a failed check: for each code the keys of the spec to change, with values that work.

The text of an advice is made from these changes, and a test makes them and sees the finding go. Codes that no key
cures stand in `no_key.py` with the reason. A check of a new code must be in one of the two.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from generator.bench.fillings.totes import default_runner_gap
from generator.bench.model import Bench
from generator.bench.panels import panel_rules, wall_names
from generator.calculators.spacing import Share
from generator.figures.checks.judged import LEAST_PROUD, Judged, said
from generator.figures.hardware import bracket_window, nut_window
from generator.findings import Change, Steps, dotted
from generator.spec.goods import EndClip, Profile, Sheet, ThroughScrew
from generator.spec.lookup import fastener
from generator.spec.schema import Spec
from generator.spec.stands.casters import Caster
from generator.units import INCH

#: What planing takes off a strip (mm), and by how much a computed thickness or stiffness is on the safe side.
PLANING, SAFE = Fraction(2), Fraction(51, 50)
#: Steps of screws, and of plates in the search for one that a stock bolt fits (mm).
SCREW_STEP, PLATE_STEP, SLIDE_STEP = Fraction(5), Fraction(1, 2), Fraction(50)
#: Width to depth from which a drawer racks, as its check has it.
RACKS = Fraction(3, 2)


@dataclass(frozen=True)
class Case:
    """A failed check of a bench, with what its remedy is worked out from."""

    bench: Bench
    judged: Judged

    @property
    def spec(self) -> Spec:
        """What the spec wishes."""
        return self.bench.spec

    @property
    def value(self) -> Fraction:
        """The value that fails."""
        return Fraction(self.judged.check.value or 0)

    @property
    def limit(self) -> Fraction:
        """What it is held against."""
        return Fraction(self.judged.check.limit or 0)

    @property
    def off(self) -> Fraction:
        """By how much it fails."""
        return abs(self.limit - self.value)

    @property
    def path(self) -> Steps:
        """The key path that the check is about."""
        return self.judged.path

    def length(self, path: Steps, value: Fraction, *, down: bool = False) -> tuple[Change, ...]:
        """One length to write, no less or no more (`down`) than this; nothing for a length that cannot be."""
        return (Change(dotted(path), said(self.spec, value, down=down)),) if value > 0 else ()


Remedy = Callable[[Case], tuple[Change, ...]]


def remedy(bench: Bench, judged: Judged) -> tuple[Change, ...]:
    """The changes that cure a failed check; none where no key does."""
    if judged.remedy:
        return judged.remedy
    found = REMEDIES.get(judged.check.code)
    return found(Case(bench, judged)) if found else ()


def _to_limit(case: Case) -> tuple[Change, ...]:
    """The key that the check is about, at the limit that it missed."""
    return case.length(case.path, case.limit, down=case.judged.check.sense == "at most")


# ---- the layout


def _bay_width(case: Case, more: Fraction) -> tuple[Change, ...]:
    """The bay so much wider; none where its lines are another zone's too, for then more than one bay must change."""
    zone = case.bench.layout.zones[int(case.path[1])]
    bay = zone.bays[int(case.path[3])]
    others = {line for other in case.bench.layout.zones if other is not zone for line in other.lines}
    if others & set(zone.lines):
        return ()
    return case.length((*case.path[:4], "width"), bay.clear + more, down=more < 0)


def _zone_depth(case: Case) -> tuple[Change, ...]:
    zone = case.bench.layout.zones[int(case.path[1])]
    return case.length(("zones", zone.index, "depth"), zone.y.size + case.off)


def _whole_shares(case: Case) -> tuple[Change, ...]:
    zone = case.bench.layout.zones[int(case.path[1])]
    last = [bay.name for bay in zone.bays if isinstance(bay.spec.width, Share)][-1]
    step = "1/16" if case.spec.units == "in" else "1"
    return (Change("bench.round_shares", f"{{step: {step}, remainder: {last}}}"),)


def _one_line(case: Case) -> tuple[Change, ...]:
    """The later of two lines moves onto the earlier one: the bay before it gets so much narrower."""
    plan = case.bench.layout
    for left, right in zip(plan.lines, plan.lines[1:], strict=False):
        if right - left - plan.section == case.value:
            for zone in plan.zones:
                for bay in zone.bays:
                    if bay.right_line == right:
                        path = ("zones", zone.index, "bays", bay.index, "width")
                        return case.length(path, bay.width - (right - left), down=True)
    return ()


def _walls(case: Case) -> tuple[Change, ...]:
    has = wall_names(case.spec)
    wanted = [*has, *(name for name in ("dividers", "ends") if name not in has)]
    return (Change("panels.walls", f"[{', '.join(wanted)}]"),) if len(wanted) > len(has) else ()


# ---- bars and joints


def _longer_screw(case: Case) -> tuple[Change, ...]:
    item = case.spec.hardware[str(case.path[1])]
    assert isinstance(item, EndClip | ThroughScrew)
    screw = item.screw
    length = ceil((screw.length + case.off) / SCREW_STEP) * SCREW_STEP
    if not screw.thread.startswith("M"):
        eighths = ceil((screw.length + case.off) / INCH * 8)
        return (Change(dotted(case.path), f"{screw.thread} x {eighths}/8"),)
    return (Change(dotted(case.path), f"{screw.thread}x{length}"),)


def _lower_head(case: Case) -> tuple[Change, ...]:
    item = case.spec.hardware[str(case.path[1])]
    assert isinstance(item, EndClip)
    head = item.head_height
    return case.length((*case.path, "head_height"), head - case.off, down=True)


def _clips_alone(case: Case) -> tuple[Change, ...]:
    name = case.spec.frame.joints.default
    if not isinstance(fastener(case.spec, name), EndClip):
        return ()
    keys = ("long_rails_to_corner_posts", "inner_post_tops")
    return tuple(Change(f"frame.joints.{key}", name) for key in keys)


def _bolted(case: Case) -> tuple[Change, ...]:
    """The nearest thickness that a stock bolt fits."""
    spec, thick = case.spec, case.spec.base.plate.thickness
    top = case.path[0] == "top"
    if top:
        thick = spec.top.bracket_thickness
    for steps in range(1, 21):
        for value in (thick - steps * PLATE_STEP, thick + steps * PLATE_STEP):
            if value > 0 and _bolt_fits(spec, value, top):
                return case.length(case.path, value)
    return ()


def _bolt_fits(spec: Spec, thickness: Fraction, top: bool) -> bool:
    if top:
        tried = spec.model_copy(update={"top": spec.top.model_copy(update={"bracket_thickness": thickness})})
        return bracket_window(tried).length is not None
    return nut_window(spec, thickness).length is not None


def _stiffer(case: Case) -> tuple[Change, ...]:
    name = case.spec.frame.material
    bar = case.spec.materials[name]
    assert isinstance(bar, Profile)
    needed = Fraction(bar.second_moment) * case.value / case.limit * SAFE / 10_000
    return (Change(f"materials.{name}.second_moment", f"{ceil(needed * 10) / 10:g} cm^4"),)


# ---- boards


def _thicker(material: Callable[[Spec], str]) -> Remedy:
    """A board sags by the cube of its thickness; its own weight grows with it, which is on the safe side by SAFE."""

    def cure(case: Case) -> tuple[Change, ...]:
        name = material(case.spec)
        board = case.spec.materials[name]
        assert isinstance(board, Sheet)
        needed = float(board.thickness) * float(case.value / case.limit) ** (1 / 3) * float(SAFE)
        return case.length(("materials", name, "thickness"), Fraction(ceil(needed * 2), 2))

    return cure


def _clearance(case: Case) -> tuple[Change, ...]:
    return case.length(
        ("panels", "groove_clearance"), case.spec.panels.groove_clearance - case.off, down=True
    )


def _measured(case: Case) -> tuple[Change, ...]:
    day = case.spec.revision.date
    return (Change(f"{dotted(case.path)}.measured", str(day) if day else "2026-01-31"),)


def _larger_stock(case: Case) -> tuple[Change, ...]:
    """The first stock as large as the part with what is trimmed off it."""
    name = str(case.path[1])
    mark = case.judged.check.where.split(",")[0]
    part = next(part for part in case.bench.parts if part.mark == mark)
    entry = case.spec.materials[name]
    if not isinstance(entry, Sheet):
        return case.length((*case.path, 0, "length"), part.length + 2 * case.spec.saws.bar.end_trim)
    along, across = (part.width, part.length) if part.grain == "width" else (part.length, part.width)
    trims, stock = 2 * case.spec.saws.sheet.edge_trim, entry.stock[0]
    return (
        *case.length((*case.path, 0, "length"), max(stock.length, along + trims)),
        *case.length((*case.path, 0, "width"), max(stock.width or Fraction(0), across + trims)),
    )


# ---- what fills the bays


def _box_higher(case: Case) -> tuple[Change, ...]:
    return case.length(("drawers", "above"), case.spec.drawers.above - case.off, down=True)


def _longer_slide(case: Case) -> tuple[Change, ...]:
    """Drawers so deep that the box no longer racks, by whole steps of slides."""
    bay = case.bench.layout.zones[int(case.path[1])].bays[int(case.path[3])]
    wide = max(each.sizes.box_width for each in case.bench.storage.drawers if each.bay == bay.name)
    length = ceil(wide / RACKS / SLIDE_STEP) * SLIDE_STEP
    return case.length(("hardware", case.spec.drawers.slide, "length"), Fraction(length))


def _strip(key: str) -> Remedy:
    def cure(case: Case) -> tuple[Change, ...]:
        more = PLANING if case.judged.check.code == "packing-thin" else Fraction(0)
        needed = case.value if case.judged.check.code == "packing-planed" else case.limit
        return case.length(("materials", case.spec.drawers.packing, key), needed + more)

    return cure


def _runner_gap(case: Case) -> tuple[Change, ...]:
    card = case.spec.totes[str(case.path[1])]
    return case.length(case.path, default_runner_gap(card.rim_width, card.body_width), down=True)


def _shelf_moved(case: Case) -> tuple[Change, ...]:
    """The shelf so much higher or lower, or onto what it meets."""
    bay = case.bench.layout.zones[int(case.path[1])].bays[int(case.path[3])]
    own = next(
        each
        for each in case.bench.storage.shelves
        if each.bay == bay.name and case.judged.check.where.startswith(f"bay {each.bay}, shelf {each.number}")
    )
    number = own.number
    shelves = [index for index, item in enumerate(bay.spec.stack) if getattr(item, "shelf", None) is not None]
    height = own.top - case.bench.layout.levels.base_top
    if case.judged.check.code == "shelf-height":
        height -= case.off
    elif case.judged.check.code == "shelf-low":
        height += case.off
    else:
        below = [s for s in case.bench.storage.shelves if s.bay == bay.name and s.number < number]
        if not below:
            return ()
        height = max(s.top for s in below) - case.bench.layout.levels.base_top + own.top - own.cleat_top
    down = case.judged.check.code == "shelf-height"
    return case.length((*case.path, shelves[number - 1], "shelf"), height, down=down)


# ---- stands


def _rating(case: Case) -> tuple[Change, ...]:
    return (Change(f"hardware.{case.spec.base.casters}.rating", f"{ceil(case.value)} kg"),)


def _trail(case: Case) -> tuple[Change, ...]:
    card = case.spec.hardware[case.spec.base.casters]
    assert isinstance(card, Caster)
    trail = card.trail - case.off
    return case.length(("hardware", case.spec.base.casters, "trail"), trail, down=True)


def _larger_plate(case: Case) -> tuple[Change, ...]:
    wide, deep = (said(case.spec, side + case.off) for side in case.spec.base.plate.size)
    return (Change("base.plate.size", f"[{wide}, {deep}]"),)


def _smaller_plate(case: Case) -> tuple[Change, ...]:
    """As wide as there is room between corner and middle: two halves of one and a half of the other."""
    plan = case.bench.layout
    rooms = [plan.length / 2]
    if case.spec.base.count > 4:
        middle = case.bench.stand.points[1][0]
        rooms = [min(middle, plan.length - middle) * 2 / 3]
    wide, deep = case.spec.base.plate.size
    sizes = (min(wide, *rooms), min(deep, plan.depth / 2))
    return (Change("base.plate.size", f"[{', '.join(said(case.spec, size, down=True) for size in sizes)}]"),)


def _base_sag(case: Case) -> tuple[Change, ...]:
    return (Change("base.count", "6"),) if case.spec.base.count == 4 else _stiffer(case)


#: Checks of one key against a limit.
TO_LIMIT = (
    "access-key", "counterbore-through", "cutter-opening", "groove-depth", "head-counterbore",
    "head-proud", "hole-edge", "holes-meet", "screw-hole", "screw-hole-wide", "slide-axis", "slide-space",
)  # fmt: skip

REMEDIES: Mapping[str, Remedy] = {
    "bay-width": lambda case: _bay_width(case, case.off),
    "uneven-share": _whole_shares,
    "clamp-gap": lambda case: case.length(("bench", "height"), case.spec.bench.height + case.off),
    "narrow-gap": _one_line,
    "clip-stack": _lower_head,
    "clip-thread": _longer_screw,
    "through-thread": _longer_screw,
    "counterbore": lambda case: case.length((*case.path, "depth"), case.limit),
    "key-crosses-screw": _clips_alone,
    "tongue-bottoms": lambda case: case.length(
        case.path, panel_rules(case.spec).tongue - case.off, down=True
    ),
    "tongue-short": lambda case: case.length(case.path, case.limit),
    "loose-sheet": _clearance,
    "not-measured": _measured,
    "tight-sheet": lambda case: (Change("panels.groove_clearance", said(case.spec, Fraction(1, 5))),),
    "tray-span": _walls,
    "slide-without-wall": _walls,
    "wide-drawer": _longer_slide,
    "box-height": _box_higher,
    "box-width": lambda case: _bay_width(case, case.off),
    "slide-depth": _zone_depth,
    "closed-zone": lambda case: (Change(dotted(case.path), "[]"),),
    "packing-thin": _strip("thickness"),
    "packing-planed": _strip("thickness"),
    "packing-narrow": _strip("width"),
    "strip-narrow": lambda case: case.length(case.path, case.limit),
    "tote-bearing": _runner_gap,
    "tote-gap-low": _runner_gap,
    "tote-gap-high": _runner_gap,
    "tote-rim": lambda case: _bay_width(case, case.off),
    "tote-depth": _zone_depth,
    "shelf-height": _shelf_moved,
    "shelf-meets": _shelf_moved,
    "shelf-low": _shelf_moved,
    "relief-clear": lambda case: case.length(case.path, case.spec.frame.clamp_access.from_end + case.off),
    "bolt-window": _bolted,
    "longer-than-stock": _larger_stock,
    "sag-top-bar": _stiffer,
    "sag-top-board": _thicker(lambda spec: spec.top.material),
    "sag-base": _base_sag,
    "sag-shelf": _thicker(lambda spec: spec.shelves.material),
    "sag-drawer-bottom": _thicker(lambda spec: spec.drawers.bottom),
    "work-height": lambda case: case.length(case.path, case.limit, down=case.limit < case.value),
    "slide-plane": lambda case: case.length(("drawers", "proud"), LEAST_PROUD),
    "caster-rating": _rating,
    "caster-in-the-air": _rating,
    "wheel-sweep": _trail,
    "plate-edge": _larger_plate,
    "plates-meet": _smaller_plate,
    **dict.fromkeys(TO_LIMIT, _to_limit),
}

#: Checks that work their changes out themselves, where they know what they need.
BY_THE_CHECK = frozenset(
    {
        "packing-edge",
        "top-brackets",
        "bracket-gap",
        "screw-length",
        "screw-thread",
        "screw-splits",
        "too-little-stock",
    }
)
