"""What is known to fit and what is not: each check with its value, its limit and what to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from generator.bench.layout import BayPlace, ZonePlace
from generator.bench.model import Bench, Part
from generator.bench.panels import panel_rules, wall_names
from generator.bench.storage import default_runner_gap
from generator.calculators.drawers import OVER_SLIDE
from generator.calculators.fasteners import (
    ENGAGEMENT,
    THREADS,
    BoltWindow,
    end_clip_fit,
    through_screw_thread,
)
from generator.calculators.fits import BOTTOM_CLEARANCE, SHORTEST_TONGUE
from generator.calculators.reliefs import clear_of_holes
from generator.calculators.shelves import tilt_in
from generator.calculators.totes import RIM_PLAY, runner_fit
from generator.figures.hardware import bracket_window, plate_window
from generator.figures.model import Casters, Check
from generator.figures.storage import packing_of
from generator.findings import Finding, Severity
from generator.spec.load import LoadedSpec
from generator.spec.lookup import caster, profile, sheet, slide, strip
from generator.spec.schema import EndClip, Spec, ThroughScrew

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class Judged:
    """A check and the key path that it is about."""

    check: Check
    path: Path


def judge(loaded: LoadedSpec, bench: Bench, casters: Casters) -> tuple[Judged, ...]:
    """All checks, those that fail worst first, then in the order of the building."""
    found = [
        *_layout(loaded.spec, bench),
        *_joints(loaded.spec, bench),
        *_panels(loaded.spec, bench),
        *_drawers(loaded.spec, bench),
        *_totes(loaded.spec, bench),
        *_shelves(loaded.spec, bench),
        *_reliefs(loaded.spec, bench),
        *_bolts(loaded.spec),
        *_base(loaded.spec, bench, casters),
        *_stock(loaded.spec, bench),
    ]
    rank = {"error": 0, "warning": 1, "note": 2}
    return tuple(sorted(found, key=lambda each: (each.check.ok, rank[each.check.severity])))


def findings(loaded: LoadedSpec, judged: tuple[Judged, ...]) -> tuple[Finding, ...]:
    """The failed checks as findings with their place in the spec."""
    severity = {"error": Severity.ERROR, "warning": Severity.WARNING, "note": Severity.NOTE}
    return tuple(
        Finding(
            each.check.code,
            severity[each.check.severity],
            f"{each.check.title} ({each.check.where})" if each.check.where else each.check.title,
            loaded.where(*each.path),
            found=_amount(loaded, each.check, each.check.value),
            allowed=_amount(loaded, each.check, each.check.limit),
            advice=each.check.advice,
        )
        for each in judged
        if not each.check.ok
    )


def _amount(loaded: LoadedSpec, check: Check, value: float | Fraction | None) -> str:
    if value is None:
        return ""
    if check.unit == "mm" and isinstance(value, Fraction):
        return loaded.say(value)
    return f"{float(value):.4g} {check.unit}".strip()


def _at_least(
    code: str,
    severity: str,
    title: str,
    value: Fraction,
    limit: Fraction,
    where: str,
    advice: str,
    *path: str | int,
) -> Judged:
    return Judged(Check(code, severity, title, value, limit, "mm", value >= limit, where, advice), path)


def _at_most(
    code: str,
    severity: str,
    title: str,
    value: Fraction,
    limit: Fraction,
    where: str,
    advice: str,
    *path: str | int,
) -> Judged:
    return Judged(Check(code, severity, title, value, limit, "mm", value <= limit, where, advice), path)


def _bay_path(bay: BayPlace) -> Path:
    return ("zones", bay.zone, "bays", bay.index)


def _layout(spec: Spec, bench: Bench) -> Iterator[Judged]:
    plan = bench.layout
    for bay in plan.bays:
        yield _at_least(
            "bay-width",
            "error",
            "A bay is wide enough to reach into",
            bay.width,
            Fraction(150),
            f"bay {bay.name}",
            "Take a bay out, or give it a larger share.",
            *_bay_path(bay),
            "width",
        )
        if bay.width * 10 % 1 and bay.width * 64 * 5 % 127:
            check = Check(
                "uneven-share",
                "note",
                "The share is no whole tenth of a millimetre",
                bay.width,
                None,
                "mm",
                False,
                f"bay {bay.name}",
                "Set out from the absolute marks, or use bench.round_shares.",
            )
            yield Judged(check, (*_bay_path(bay), "width"))
    yield _at_least(
        "clamp-gap",
        "warning",
        "A clamp and a hand pass between tray and top rail",
        plan.levels.clamp_gap,
        Fraction(110),
        "between tray and top rail",
        "Lower the tray's end rail.",
        "tray",
        "end_rail_bottom",
    )
    edges = (Fraction(0), *plan.lines, plan.length - plan.section)
    for left, right in pairwise(edges):
        gap = right - left - plan.section
        yield _at_least(
            "narrow-gap",
            "warning",
            "Two posts' lines leave room for a panel and a hand",
            gap,
            Fraction(20),
            f"{plan.line_name(left)} to {plan.line_name(right)}",
            "Let the two lines coincide.",
            "zones",
        )


def _joints(spec: Spec, bench: Bench) -> Iterator[Judged]:
    bar = profile(spec)
    for name in dict.fromkeys(joint.fastener for joint in bench.joints):
        item = spec.hardware[name]
        path = ("hardware", name)
        if isinstance(item, EndClip):
            diameter = THREADS[item.screw.thread].diameter
            fit = end_clip_fit(
                lip=bar.slot.lip,
                clip=item.clip[2],
                head=item.head_height,
                slot_depth=bar.slot.depth,
                screw=item.screw.length,
                diameter=diameter,
            )
            yield _at_most(
                "clip-stack",
                "error",
                "Lip, clip and screw head fit the slot's depth",
                fit.stack,
                fit.slot_depth,
                name,
                "Take a lower head or a thinner clip.",
                *path,
            )
            yield _at_least(
                "clip-thread",
                "error",
                "The clip's screw has thread enough in the bore",
                fit.thread,
                fit.thread_needed,
                name,
                "Take a longer screw.",
                *path,
                "screw",
            )
        elif isinstance(item, ThroughScrew):
            diameter = THREADS[item.screw.thread].diameter
            thread = through_screw_thread(bar.section, item.counterbore.depth, item.screw.length)
            yield _at_least(
                "through-thread",
                "error",
                "The through-screw has thread enough in the bore",
                thread,
                ENGAGEMENT * diameter,
                name,
                "Take a longer screw.",
                *path,
                "screw",
            )
            yield _at_least(
                "counterbore",
                "error",
                "The counterbore reaches the slot's floor",
                item.counterbore.depth,
                bar.slot.depth,
                name,
                "Bore deeper than the slot.",
                *path,
                "counterbore",
            )
    crossed = _crossing_keys(bench)
    if crossed:
        check = Check(
            "key-crosses-screw",
            "note",
            "A screw crosses these keys' way: tighten the end clips first",
            None,
            None,
            "",
            False,
            ", ".join(crossed),
            "They cannot be tightened again once the screw is in.",
        )
        yield Judged(check, ("frame", "joints"))


def _crossing_keys(bench: Bench) -> list[str]:
    """Bars on which a through-screw crosses the key line of an end clip."""
    screws = {(joint.crossing, joint.at) for joint in bench.joints if joint.kind == "through screw"}
    keys = {(joint.crossing, joint.at) for joint in bench.joints if joint.kind == "end clip"}
    return [part.mark for part in bench.parts if any(mark == part.mark for mark, _ in screws & keys)]


def _panels(spec: Spec, bench: Bench) -> Iterator[Judged]:
    rules, bar = panel_rules(spec), profile(spec)
    clearance = bar.slot.depth - rules.tongue
    yield _at_least(
        "tongue-bottoms",
        "error",
        "The tongue does not bottom in its slot",
        clearance,
        BOTTOM_CLEARANCE,
        "all captured panels",
        "Shorten the tongue.",
        "panels",
        "tongue",
    )
    yield _at_least(
        "tongue-short",
        "warning",
        "The tongue is long enough to hold",
        rules.tongue,
        SHORTEST_TONGUE,
        "all captured panels",
        "Take a deeper slot or a longer tongue.",
        "panels",
        "tongue",
    )
    for name, fit in (("panels", rules.fit), ("tray", rules.tray_fit)):
        yield _at_most(
            "loose-sheet",
            "warning",
            "The sheet fills its groove",
            fit.clearance_max,
            Fraction(1, 2),
            name,
            "This sheet is thinner than the groove: take a thicker one.",
            name,
            "material",
        )
    for material in dict.fromkeys(part.material for part in bench.parts if part.fit is not None):
        if not spec.materials[material].measured:
            check = Check(
                "not-measured",
                "note",
                "This sheet's thickness is not measured",
                None,
                None,
                "",
                False,
                material,
                "Measure it before you cut a rabbet.",
            )
            yield Judged(check, ("materials", material))
    if not bar.measured:
        check = Check(
            "not-measured",
            "note",
            "This bar's slot and bore are not measured",
            None,
            None,
            "",
            False,
            spec.frame.material,
            "Measure slot, lip and bore before you cut a tongue.",
        )
        yield Judged(check, ("materials", spec.frame.material))
    yield _tray_span(spec, bench)


def _tray_span(spec: Spec, bench: Bench) -> Judged:
    """Widest space that the tray bridges between its ends and the walls under it."""
    plan = bench.layout
    supports = [Fraction(0), plan.length - plan.section]
    if "dividers" in wall_names(spec):
        supports += list(plan.lines)
    ordered = sorted(supports)
    span = max(b - a - plan.section for a, b in pairwise(ordered))
    return _at_most(
        "tray-span",
        "warning",
        "The tray is supported often enough",
        span,
        Fraction(600),
        "tray",
        "Add a divider, or take a thicker sheet: 600 mm is the usual limit for 12 mm sheet.",
        "tray",
    )


def _zone_of(bench: Bench, bay_name: str) -> tuple[ZonePlace, BayPlace]:
    return next((zone, bay) for zone in bench.layout.zones for bay in zone.bays if bay.name == bay_name)


def _drawers(spec: Spec, bench: Bench) -> Iterator[Judged]:
    if not bench.storage.drawers:
        return
    runner = slide(spec)
    for drawer in bench.storage.drawers:
        _, bay = _zone_of(bench, drawer.bay)
        where, path = f"bay {drawer.bay}, drawer {drawer.number}", (*_bay_path(bay), "stack")
        ratio = drawer.sizes.width_to_depth
        limit = Fraction(2) if ratio > 2 else Fraction(3, 2)
        severity = "error" if ratio > 2 else "warning"
        yield Judged(
            Check(
                "wide-drawer",
                severity,
                "The drawer is not so wide that it racks",
                float(ratio),
                float(limit),
                "",
                ratio <= Fraction(3, 2),
                where,
                "Make it narrower or deeper, or take slides that are synchronised.",
            ),
            path,
        )
        yield _at_least(
            "box-height",
            "error",
            "The drawer's box is higher than its slide",
            drawer.sizes.box_height,
            runner.height + OVER_SLIDE,
            where,
            "Give it a higher front.",
            *path,
        )
        bottom = sheet(spec, spec.drawers.bottom).thickness
        yield _at_least(
            "box-width",
            "error",
            "The box leaves room for its bottom",
            drawer.sizes.ends_length,
            bottom * 4,
            where,
            "Widen the bay.",
            *path,
        )
    yield from _slide_room(spec, bench)
    yield from _packing(spec, bench)


def _slide_room(spec: Spec, bench: Bench) -> Iterator[Judged]:
    plan, rules = bench.layout, spec.drawers
    behind = sheet(spec, rules.front).thickness + rules.slide_setback + slide(spec).length
    for bay_name in dict.fromkeys(drawer.bay for drawer in bench.storage.drawers):
        zone, bay = _zone_of(bench, bay_name)
        room = plan.section + zone.y.size - behind
        yield _at_least(
            "slide-depth",
            "error" if room < 0 else "warning",
            "The slide ends before the zone does",
            room,
            Fraction(10),
            f"bay {bay_name}",
            "Deepen the zone or take a shorter slide.",
            "zones",
            zone.index,
            "depth",
        )
        if not zone.opens:
            check = Check(
                "closed-zone",
                "error",
                "The drawer can be opened",
                None,
                None,
                "",
                False,
                f"bay {bay_name}",
                "A zone between two others opens to no face: put drawers in the first or last zone.",
            )
            yield Judged(check, (*_bay_path(bay), "stack"))
        walls = wall_names(spec)
        missing = [
            wall
            for wall, needed in (
                ("ends", bay.index in (0, len(zone.bays) - 1)),
                ("dividers", len(zone.bays) > 1),
            )
            if needed and wall not in walls
        ]
        if missing:
            check = Check(
                "slide-without-wall",
                "error",
                "The slides have walls to stand on",
                None,
                None,
                "",
                False,
                f"bay {bay_name}",
                f"Add {' and '.join(missing)} to panels.walls.",
            )
            yield Judged(check, ("panels", "walls"))


def _packing(spec: Spec, bench: Bench) -> Iterator[Judged]:
    card, needed = strip(spec, spec.drawers.packing), packing_of(spec)
    yield _at_least(
        "packing-thin",
        "error",
        "The packing strip is as thick as the slide needs",
        card.thickness,
        needed,
        spec.drawers.packing,
        "Take a thicker strip.",
        "drawers",
        "packing",
    )
    if card.thickness > needed:
        check = Check(
            "packing-planed",
            "note",
            "The packing strips are planed to this thickness",
            needed,
            card.thickness,
            "mm",
            False,
            spec.drawers.packing,
            "Plane all of them in one go.",
        )
        yield Judged(check, ("drawers", "packing"))
    yield _at_least(
        "packing-narrow",
        "warning",
        "The packing strip is wide enough for its screws",
        card.width,
        Fraction(40),
        spec.drawers.packing,
        "Take a wider strip.",
        "drawers",
        "packing",
    )


def _totes(spec: Spec, bench: Bench) -> Iterator[Judged]:
    for bay_name, kind in dict.fromkeys((tote.bay, tote.kind) for tote in bench.storage.totes):
        zone, bay = _zone_of(bench, bay_name)
        card = spec.totes[kind]
        gap = card.runner_gap or default_runner_gap(card.rim_width, card.body_width)
        fit = runner_fit(card.rim_width, card.body_width, gap, bay.width)
        where, path = f"bay {bay_name}, {kind}", (*_bay_path(bay), "stack")
        yield _at_least(
            "tote-bearing",
            "error",
            "The rim bears on a runner even when pushed aside",
            fit.worst,
            Fraction(6),
            where,
            "Choose a smaller runner gap.",
            "totes",
            kind,
            "runner_gap",
        )
        yield _at_least(
            "tote-rim",
            "error",
            "The rim passes between the posts",
            fit.rim_play,
            RIM_PLAY,
            where,
            "Widen the bay.",
            *path,
        )
        yield _at_least(
            "tote-gap-low",
            "error",
            "The body passes between the runners",
            fit.gap,
            fit.gap_min,
            where,
            "Choose a larger runner gap.",
            "totes",
            kind,
            "runner_gap",
        )
        yield _at_most(
            "tote-gap-high",
            "error",
            "The runners carry the rim",
            fit.gap,
            fit.gap_max,
            where,
            "Choose a smaller runner gap.",
            "totes",
            kind,
            "runner_gap",
        )
        room = bench.layout.section + zone.y.size - card.length
        yield _at_least(
            "tote-depth",
            "error",
            "The tote fits the zone's depth",
            room,
            Fraction(0),
            where,
            "Deepen the zone.",
            "zones",
            zone.index,
            "depth",
        )


def _shelves(spec: Spec, bench: Bench) -> Iterator[Judged]:
    levels = bench.layout.levels
    offset = panel_rules(spec).fit.offset
    thickness = sheet(spec, spec.shelves.material).thickness
    for shelf in bench.storage.shelves:
        _, bay = _zone_of(bench, shelf.bay)
        where, path = f"bay {shelf.bay}, shelf {shelf.number}", (*_bay_path(bay), "stack")
        opening_top = levels.base_top + levels.opening
        yield _at_most(
            "shelf-height",
            "error",
            "The shelf lies below the tray",
            shelf.top,
            opening_top,
            where,
            "Lower the shelf.",
            *path,
        )
        yield _at_least(
            "shelf-low",
            "error",
            "The shelf's cleats stand above the base rail",
            shelf.cleat_top - Fraction(40),
            levels.base_top,
            where,
            "Raise the shelf.",
            *path,
        )
        tilt = tilt_in(shelf.length, thickness, bay.width, bay.width + 2 * offset, levels.opening)
        yield Judged(
            Check(
                "shelf-tilt",
                "warning",
                "The shelf can be tilted in through its opening",
                tilt.needed_height,
                float(levels.opening),
                "mm",
                tilt.possible,
                where,
                "Put the shelf in before the frame closes.",
            ),
            path,
        )


def _reliefs(spec: Spec, bench: Bench) -> Iterator[Judged]:
    """The clamp reliefs keep clear of every hole on their face."""
    along = spec.frame.clamp_access.opening[1]
    for part in bench.parts:
        reliefs = [op for op in part.operations if op.op == "relief"]
        if not reliefs:
            continue
        spaces = [
            clear_of_holes(relief.at[0], along, _holes_on(part, relief.face), Fraction(0))
            for relief in reliefs
        ]
        inside = min(min(op.at[0], part.length - op.at[0]) for op in reliefs) - along / 2
        value = min(*spaces, inside) if len(spaces) > 1 else min(spaces[0], inside)
        yield _at_least(
            "relief-clear",
            "error",
            "The clamp relief is clear of all holes and ends",
            value,
            Fraction(6),
            f"{part.mark}, {part.group}",
            "Move it by frame.clamp_access.from_end.",
            "frame",
            "clamp_access",
            "from_end",
        )


def _holes_on(part: Part, face: str) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple(
        (op.at[0], op.size)
        for op in part.operations
        if op.face == face and op.op != "relief" and isinstance(op.size, Fraction)
    )


def _bolts(spec: Spec) -> Iterator[Judged]:
    windows: tuple[tuple[str, BoltWindow, Path], ...] = (
        ("caster plate bolt", plate_window(spec), ("base", "plate", "thickness")),
        ("top bracket bolt", bracket_window(spec), ("top", "bracket_thickness")),
    )
    for what, window, path in windows:
        advice = (
            "" if window.length else "Change the plate or add a washer: too long lifts it, too short strips."
        )
        limit = window.length or window.longest
        yield Judged(
            Check(
                "bolt-window",
                "error",
                "A stock bolt is long enough for its nut and clear of the slot's floor",
                window.shortest,
                limit,
                "mm",
                window.length is not None,
                what,
                advice,
            ),
            path,
        )


def _base(spec: Spec, bench: Bench, casters: Casters) -> Iterator[Judged]:
    rating = float(caster(spec).rating)
    yield Judged(
        Check(
            "caster-rating",
            "error",
            "Each caster carries its load with one wheel in the air",
            casters.required,
            rating,
            "kg",
            casters.required <= rating,
            f"{casters.count} casters",
            "Take casters of a higher rating.",
        ),
        ("base", "casters"),
    )
    loose = sorted({bolt.plate for bolt in bench.plate_bolts if not bolt.member})
    if loose:
        check = Check(
            "plate-without-bar",
            "error",
            "Every caster plate bolt has a bar above it",
            None,
            None,
            "",
            False,
            ", ".join(loose),
            "Use 4 casters, or move a line to the middle.",
        )
        yield Judged(check, ("base", "count"))
    inset = bench.casters[0][0]
    sweep = caster(spec).trail + caster(spec).wheel / 2
    yield _at_most(
        "wheel-sweep",
        "note",
        "The wheels swivel inside the footprint",
        sweep,
        inset,
        "corner casters",
        "The wheel stands out by the difference: keep toes and cables clear.",
        "base",
        "casters",
    )
    plate = spec.base.plate.size
    for part in bench.in_group("caster plate"):
        edge = min(
            min(op.at[0], op.at[1], plate[0] - op.at[0], plate[1] - op.at[1]) for op in part.operations
        )
        needed = max(op.size for op in part.operations if isinstance(op.size, Fraction)) * Fraction(3, 2)
        yield _at_least(
            "plate-edge",
            "error",
            "The plate's holes keep one and a half diameters from its edge",
            edge,
            needed,
            part.mark,
            "Take a larger plate.",
            "base",
            "plate",
            "size",
        )


def _stock(spec: Spec, bench: Bench) -> Iterator[Judged]:
    """No part is longer than anything that its material is sold in."""
    for material in dict.fromkeys(part.material for part in bench.parts):
        entry = spec.materials.get(material)
        if entry is None or not entry.stock:
            continue
        own = [part for part in bench.parts if part.material == material]
        longest = max(own, key=lambda part: max(part.length, part.width))
        if entry.kind == "sheet":
            trim = 2 * spec.saws.sheet.edge_trim
            if any(
                _fits_sheet(longest, stock.length - trim, (stock.width or stock.length) - trim)
                for stock in entry.stock
            ):
                continue
            room = max(stock.length for stock in entry.stock) - trim
        else:
            room = max(stock.length for stock in entry.stock) - 2 * spec.saws.bar.end_trim
            if longest.length <= room:
                continue
        yield _at_most(
            "longer-than-stock",
            "error",
            "Every part can be cut from what is sold",
            max(longest.length, longest.width),
            room,
            f"{longest.mark}, {longest.group}",
            "Name a longer stock size, or divide the part.",
            "materials",
            material,
            "stock",
        )


def _fits_sheet(part: Part, length: Fraction, width: Fraction) -> bool:
    long, short = max(part.length, part.width), min(part.length, part.width)
    return long <= max(length, width) and short <= min(length, width)
