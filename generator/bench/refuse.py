"""Benches that cannot be: what the language can say but no one can build. Each is refused with its reason."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from generator.bench.joints import joiners, joining
from generator.bench.layout import bay_names
from generator.bench.model import Part
from generator.bench.panels import tongue_of, wall_names
from generator.bench.stands import stand_kind
from generator.calculators.spacing import Share
from generator.codes import Code
from generator.findings import Finding, Severity
from generator.spec.load import LoadedSpec
from generator.spec.lookup import profile, sheet

#: Holes in one top.
MOST_HOLES = 5000


def refusals(loaded: LoadedSpec) -> Iterator[Finding]:
    """Faults that can be told from the spec alone."""
    yield from _walls(loaded)
    yield from _closing_joints(loaded)
    yield from stand_kind(loaded.spec).refusals(loaded)
    yield from _bay_names(loaded)
    yield from _remainder(loaded)
    yield from _hole_count(loaded)
    yield from _sizes(loaded)
    yield from _wide_holes(loaded)
    yield from _thick_panels(loaded)
    yield from _stock_widths(loaded)


def _refuse(loaded: LoadedSpec, code: Code, message: str, *path: str | int, **more: Any) -> Finding:
    return Finding(code, Severity.ERROR, message, loaded.where(*path), **more)


def _walls(loaded: LoadedSpec) -> Iterator[Finding]:
    walls, zones = wall_names(loaded.spec), len(loaded.spec.zones)
    if "spine" in walls and zones == 1:
        yield _refuse(
            loaded,
            Code.WALL_WITHOUT_PLACE,
            "a spine stands between two zones, and this bench has one",
            "panels",
            "walls",
            found="spine",
            allowed="dividers, ends, back",
        )
    if "back" in walls and zones > 1:
        yield _refuse(
            loaded,
            Code.WALL_WITHOUT_PLACE,
            "a back closes a bench of one zone; with several the rear zone opens to the rear",
            "panels",
            "walls",
            found="back",
            allowed="dividers, ends, spine",
        )


def _closing_joints(loaded: LoadedSpec) -> Iterator[Finding]:
    spec = loaded.spec
    name = spec.frame.joints.long_rails_to_corner_posts
    if spec.frame.through == "rails" and not joining(spec, name).slides_along:
        clips = [each.fastener for each in joiners(spec) if each.slides_along]
        yield _refuse(
            loaded,
            Code.CLOSING_JOINTS,
            "with rails running through, the tray's tongues must go into both end frames along the rails, but these "
            "joints pull upright and would not close that way",
            "frame",
            "joints",
            "long_rails_to_corner_posts",
            found=name,
            allowed=f"joints that slide along the rail: {', '.join(clips)}; or `through: posts`",
        )


def _bay_names(loaded: LoadedSpec) -> Iterator[Finding]:
    """Names that were left out must not meet names that were given."""
    seen: set[str] = set()
    for zone, names in enumerate(bay_names(loaded.spec)):
        for bay, name in enumerate(names):
            if name in seen:
                yield _refuse(
                    loaded,
                    Code.NAME_TWICE,
                    "two bays have one name",
                    "zones",
                    zone,
                    "bays",
                    bay,
                    found=name,
                    allowed="a name of its own",
                )
            seen.add(name)


def _remainder(loaded: LoadedSpec) -> Iterator[Finding]:
    """The remainder of rounded shares falls in a bay that is a share."""
    rule = loaded.spec.bench.round_shares
    if rule is None:
        return
    named = bay_names(loaded.spec)
    shares = [
        named[zone][bay]
        for zone, each in enumerate(loaded.spec.zones)
        for bay, one in enumerate(each.bays)
        if isinstance(one.width, Share)
    ]
    if rule.remainder not in shares:
        yield _refuse(
            loaded,
            Code.NO_REMAINDER_BAY,
            "the bay that takes the remainder must be one whose width is a share",
            "bench",
            "round_shares",
            "remainder",
            found=rule.remainder,
            allowed=", ".join(shares) or "a bay whose width is a share",
        )


def _hole_count(loaded: LoadedSpec) -> Iterator[Finding]:
    """A grid that nobody would drill is a slip of the pen, and would fill the manual."""
    holes, bench = loaded.spec.top.holes, loaded.spec.bench
    if holes is None:
        return
    beyond = 2 * loaded.spec.top.overhang
    count = int((bench.length + beyond) / holes.pitch) * int((bench.depth + beyond) / holes.pitch)
    if count > MOST_HOLES:
        yield _refuse(
            loaded,
            Code.TOO_MANY_HOLES,
            f"this pitch asks for some {count} holes in the top",
            "top",
            "holes",
            "pitch",
            found=loaded.say(holes.pitch),
            allowed=f"a pitch that gives at most {MOST_HOLES} holes",
        )


def _sizes(loaded: LoadedSpec) -> Iterator[Finding]:
    spec = loaded.spec
    bar = profile(spec)
    tongue = tongue_of(spec)
    if tongue >= bar.slot.depth or tongue <= 0:
        yield _refuse(
            loaded,
            Code.TONGUE_TOO_LONG,
            f"a tongue of {loaded.say(tongue)} does not go into a slot {loaded.say(bar.slot.depth)} deep",
            "panels",
            "tongue",
            found=loaded.say(tongue),
            allowed=f"less than {loaded.say(bar.slot.depth)}; 2 mm less leaves room under it",
        )
    if spec.panels.groove_clearance >= bar.slot.opening:
        yield _refuse(
            loaded,
            Code.CLEARANCE_TOO_WIDE,
            "the clearance leaves no tongue",
            "panels",
            "groove_clearance",
            found=loaded.say(spec.panels.groove_clearance),
            allowed=f"less than the slot's {loaded.say(bar.slot.opening)}",
        )
    if bar.slot.opening >= bar.section or bar.slot.depth * 2 >= bar.section:
        yield _refuse(
            loaded,
            Code.SLOT_TOO_LARGE,
            "two slots of this size do not fit the bar's section",
            "materials",
            spec.frame.material,
            "slot",
            found=f"opening {loaded.say(bar.slot.opening)}, depth {loaded.say(bar.slot.depth)}",
            allowed=f"a depth under half the section of {loaded.say(bar.section)}",
        )


def _wide_holes(loaded: LoadedSpec) -> Iterator[Finding]:
    """A joint's hole goes through a bar, so the bar must be wider. One finding a fastener, for its widest hole."""
    spec, section = loaded.spec, profile(loaded.spec).section
    joints = spec.frame.joints
    for name in dict.fromkeys((joints.default, joints.long_rails_to_corner_posts, joints.inner_post_tops)):
        hole = max(joining(spec, name).holes, key=lambda each: each.size, default=None)
        if hole and hole.size >= section:
            yield _refuse(
                loaded,
                Code.NO_SIZE,
                f"the {hole.op} is as wide as the bar or wider, and would cut it in two",
                "hardware",
                name,
                found=loaded.say(hole.size),
                allowed=f"less than {loaded.say(section)}, the bar's section; an M8 screw takes 9 mm, its key 8 mm",
            )


def _thick_panels(loaded: LoadedSpec) -> Iterator[Finding]:
    """A panel stands behind the bars' faces: what carries a drawer is brought out from it."""
    spec, section = loaded.spec, profile(loaded.spec).section
    for name in dict.fromkeys((spec.panels.material, spec.tray.material)):
        thickness = sheet(spec, name).thickness
        if thickness >= section:
            yield _refuse(
                loaded,
                Code.PANEL_TOO_THICK,
                f"a panel of {loaded.say(thickness)} is no thinner than the bar of {loaded.say(section)} that holds it",
                "materials",
                name,
                "thickness",
                found=loaded.say(thickness),
                allowed=f"less than {loaded.say(section)}; 12 mm or 1/2 in is usual",
            )


def _stock_widths(loaded: LoadedSpec) -> Iterator[Finding]:
    for name, material in loaded.spec.materials.items():
        for index, stock in enumerate(material.stock):
            if material.kind == "sheet" and stock.width is None:
                yield _refuse(
                    loaded,
                    Code.MISSING_KEY,
                    "a sheet to buy needs its width",
                    "materials",
                    name,
                    "stock",
                    index,
                    allowed="length and width",
                )


def unjoined(loaded: LoadedSpec, loose: Sequence[tuple[Part, str]]) -> Iterator[Finding]:
    """Ends of extra members that meet nothing; those of the frame itself always do."""
    for part, end in loose:
        yield Finding(
            Code.END_IN_THE_AIR,
            Severity.WARNING,
            f"the {end} end of {part.mark} ({part.name}) meets no bar",
            loaded.where("extra", "members", int(part.mark[1:]) - 1),
            advice="Move it, or add the bar that it should end on.",
        )
