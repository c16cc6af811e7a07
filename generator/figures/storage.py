"""Fits, openings, drawers, totes, shelves and spacers as rows."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.frames.bars import end_rail_name
from generator.bench.frames.panels import panel_rules
from generator.bench.layout import ZonePlace
from generator.bench.model import Bench, Part
from generator.bench.place import Place
from generator.bench.role import Role
from generator.calculators.fits import TongueFit, packing_thickness
from generator.figures.material_labels import material_labels
from generator.figures.measure_first import drawer_released
from generator.figures.rows.checks import Fit
from generator.figures.rows.setting_out import Spacer
from generator.figures.rows.storage import Door, Drawer, OpeningRow, PullPlace, Shelf, Shown, StripPlace, Tote
from generator.figures.set_out import set_out

_FIT_PLACES = {
    Role.DIVIDER: "divider in posts and base cross-member",
    Role.END_PANEL: "end panel in posts, base end member and {rail}",
    Role.SPINE_PANEL: "spine panel in spine posts",
    Role.BACK_PANEL: "back panel in rear posts and base rail",
    Role.TRAY: "tray in both tray end rails",
}


def fits(bench: Bench) -> tuple[Fit, ...]:
    """One row for each kind of captured panel."""
    spec = bench.spec
    first: dict[Role, Part] = {}
    for part in bench.parts:
        if part.fit is not None:
            first.setdefault(part.role, part)
    return tuple(
        _fit(_FIT_PLACES[role].format(rail=end_rail_name(spec)), part.fit, spec.drawers.proud)
        for role, part in first.items()
        if part.fit
    )


def _fit(where: str, fit: TongueFit, proud: Fraction) -> Fit:
    return Fit(
        where=where,
        groove=fit.groove,
        thickness=fit.thickness,
        tongue_thickness=fit.tongue_thickness,
        rabbet_depth=fit.rabbet_depth,
        tongue=fit.tongue,
        clearance_min=fit.clearance_min,
        clearance_max=fit.clearance_max,
        offset=fit.offset,
        rabbet_length=fit.rabbet_length,
        bottom_clearance=fit.bottom_clearance,
        packing=packing_thickness(fit.offset, proud),
    )


def shown(bench: Bench) -> Shown:
    """What the kinds give to drawings and pages, kind after kind."""
    return Shown(
        tuple(each for kind in FILLINGS for each in kind.pictures(bench)),
        tuple(each for kind in FILLINGS for each in kind.things(bench)),
        tuple(each for kind in FILLINGS for each in kind.to_measure(bench)),
        tuple(each for kind in FILLINGS for each in kind.effects(bench)),
        tuple(each for kind in FILLINGS for each in kind.swings(bench)),
        set_out(bench),
    )


def openings(bench: Bench) -> tuple[OpeningRow, ...]:
    """Every item with its clear width and height, from below, bay by bay; an empty bay is one open space."""
    widths = {bay.name: bay.clear for bay in bench.layout.bays}
    rows = [
        OpeningRow(each.bay, each.name, widths[each.bay], each.height, each.bottom, each.top)
        for kind in FILLINGS
        for each in kind.openings(bench)
    ]
    filled = {row.bay for row in rows}
    levels = bench.layout.levels
    rows += [
        OpeningRow(bay, "open", width, levels.opening, levels.base_top, levels.base_top + levels.opening)
        for bay, width in widths.items()
        if bay not in filled
    ]
    order = list(widths)
    return tuple(sorted(rows, key=lambda row: (order.index(row.bay), row.bottom)))


def drawers(bench: Bench) -> tuple[Drawer, ...]:
    """Rows of the drawers in the order of the bays, from below; heights from the frame's underside (mm)."""
    labels = material_labels(bench)
    return tuple(
        drawer_released(
            Drawer(
                bay=d.bay,
                number=d.number,
                front_width=d.sizes.front_width,
                front_height=d.sizes.front_height,
                front_bottom=d.sizes.front_bottom,
                box_width=d.sizes.box_width,
                box_depth=d.sizes.box_depth,
                box_height=d.sizes.box_height,
                box_bottom=d.sizes.box_bottom,
                slide_axis=d.sizes.slide_axis,
                slide_lower_edge=d.sizes.slide_lower_edge,
                spacer=d.spacer,
                bottom_panel=d.sizes.bottom_panel,
                slide_front=d.slide_front,
                hole_stations=d.stations,
                above_rail=_above_rail(
                    bench,
                    front=d.sizes.front_bottom,
                    box=d.sizes.box_bottom,
                    axis=d.sizes.slide_axis,
                    slide=d.sizes.slide_lower_edge,
                ),
            ),
            labels,
        )
        for d in bench.storage.drawers
    )


def pulls(bench: Bench) -> tuple[PullPlace, ...]:
    """What opens the faces, in their order."""
    return tuple(PullPlace(each.part, each.at, each.holes) for kind in FILLINGS for each in kind.pulls(bench))


def doors(bench: Bench) -> tuple[Door, ...]:
    """Rows of the doors in the order of the bays."""
    return tuple(
        Door(d.bay, d.number, d.x.size, d.z.size, d.thickness, d.hinge_side, d.hinges, d.mass)
        for d in bench.storage.doors
    )


def _above_rail(bench: Bench, **heights: Fraction) -> dict[str, Fraction]:
    """Heights above the frame's underside as they are measured from the top of the base rail (mm)."""
    return {name: height - bench.layout.levels.base_top for name, height in heights.items()}


def strips(bench: Bench) -> tuple[StripPlace, ...]:
    """Packing strips of each bay's left wall; the right wall has the same."""
    tongue = panel_rules(bench.loaded).tongue
    rows = []
    for zone in bench.layout.zones:
        for bay in zone.bays:
            face = (
                zone.y.high + bench.layout.section
                if zone.opens == "rear"
                else zone.y.low - bench.layout.section
            )
            for part in bench.of(Role.PACKING_STRIP):
                if part.place == Place(bay=bay.name, wall="left"):
                    near, far = sorted((abs(part.box.y.low - face), abs(part.box.y.high - face)))
                    ends = part.box.z.low, part.box.z.high
                    edge = _from_edge(bench, zone, part)
                    above = _above_rail(bench, bottom=ends[0], top=ends[1])
                    rows.append(StripPlace(bay.name, near, far, *ends, tongue, edge, above))
    return tuple(rows)


def _from_edge(bench: Bench, zone: ZonePlace, strip: Part) -> Fraction:
    """From the edge of its wall that looks to the zone's open face to a strip (mm): so it is set out on the flat."""
    walls = (
        wall.box.y
        for wall in bench.of(Role.DIVIDER, Role.END_PANEL)
        if strip.box.x.low == wall.box.x.high or strip.box.x.high == wall.box.x.low
        if strip.box.y.overlap(wall.box.y) > 0
    )
    wall = next(walls, strip.box.y)
    return wall.high - strip.box.y.high if zone.opens == "rear" else strip.box.y.low - wall.low


def _edges(bench: Bench, role: Role) -> dict[Place, Fraction]:
    """How far from that edge the strips of a role are, by the place of what they carry."""
    zones = {bay.name: zone for zone in bench.layout.zones for bay in zone.bays}
    found: dict[Place, Fraction] = {}
    for strip in bench.of(role):
        carried = replace(strip.place, wall="")
        found.setdefault(carried, _from_edge(bench, zones[strip.place.bay], strip))
    return found


def totes(bench: Bench) -> tuple[Tote, ...]:
    """Rows of the totes in the order of the bays, from below; heights from the frame's underside (mm)."""
    edges = _edges(bench, Role.TOTE_RUNNER)
    return tuple(
        Tote(
            t.bay, t.number, t.bottom, t.top, t.runner_top, t.runner_width, t.kind,
            edges.get(t.place, Fraction(0)),
            _above_rail(bench, bottom=t.bottom, runner=t.runner_top, top=t.top),
        )
        for t in bench.storage.totes
    )  # fmt: skip


def shelves(bench: Bench) -> tuple[Shelf, ...]:
    """Rows of the shelves in the order of the bays, as the stack names them (mm)."""
    edges = _edges(bench, Role.SHELF_CLEAT)
    return tuple(
        Shelf(
            s.bay, s.number, s.top, s.length, s.depth, s.cleat_top,
            edges.get(s.place, Fraction(0)),
            _above_rail(bench, cleat=s.cleat_top, top=s.top),
        )
        for s in bench.storage.shelves
    )  # fmt: skip


def spacers(bench: Bench) -> tuple[Spacer, ...]:
    """Blocks that things rest on, a pair of each, and sticks that set the posts apart, one a bay of that width."""
    rows = []
    for kind in FILLINGS:
        blocks: dict[tuple[Fraction, str], list[str]] = {}
        for each in kind.blocks(bench):
            blocks.setdefault((each.length, each.use), []).append(f"{each.item.bay}/{each.item.number}")
        for (length, use), users in sorted(blocks.items()):
            rows.append(Spacer(length, 2, f"{use}: {', '.join(users)}"))
    widths = Counter(bay.width for bay in bench.layout.bays)
    for width, count in sorted(widths.items()):
        bays = ", ".join(bay.name for bay in bench.layout.bays if bay.width == width)
        rows.append(Spacer(width, count, f"bay spacer: {bays}"))
    return tuple(rows)
