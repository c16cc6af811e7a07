"""Sheets that close the frame: dividers, ends, spine, back. The tray over them is in `trays`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from generator.bench.frames.bars import end_rail_name, in_row
from generator.bench.joints import joining, joinings
from generator.bench.layout import Layout, ZonePlace
from generator.bench.leg_room import knee_lines
from generator.bench.piece import Notch, Part
from generator.bench.place import ENDS, Place
from generator.bench.role import Role
from generator.calculators.fits import TongueFit, corner_notch, groove_width, tongue_fit, tongue_length
from generator.geometry import Box, Span
from generator.provenance import constant, greatest
from generator.spec.goods import Sheet
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec, Wall

#: A spine panel ends this much below the tray, and a trim piece is this much shorter than half its bay's play.
UNDER_TRAY = constant(1, "a spine panel ends under the tray by")
TRIM_PLAY = constant(1, "play at each end of a trim piece")
#: Of these (mm) no key speaks.
FIXED = (
    ("a spine panel ends under the tray by", UNDER_TRAY),
    ("a trim piece is shorter than its bay by", 2 * TRIM_PLAY),
)
#: What the spec calls the walls of each role.
WALLS: Mapping[Role, Wall] = {
    Role.DIVIDER: "dividers", Role.END_PANEL: "ends", Role.SPINE_PANEL: "spine", Role.BACK_PANEL: "back",
}  # fmt: skip


@dataclass(frozen=True)
class PanelRules:
    """What all captured sheets have in common (mm); `joint` is the kind whose fastener the notches clear."""

    joint: str
    tongue: Fraction
    notch: Fraction
    clip_notch: Fraction
    clearance: Fraction
    fit: TongueFit
    tray_fit: TongueFit


def wall_names(spec: Spec) -> tuple[str, ...]:
    """The walls that the spec asks for; by default a back for one zone, else a spine."""
    if spec.panels.walls is not None:
        return spec.panels.walls
    return ("dividers", "ends", "back" if len(spec.zones) == 1 else "spine")


def tongue_of(loaded: LoadedSpec) -> Fraction:
    """The tongue that the spec asks for, or the longest that leaves the clearance under it."""
    if loaded.spec.panels.tongue is not None:
        return loaded.spec.panels.tongue
    # a whole half millimetre; an imperial bar is no reason for another step
    return tongue_length(loaded.goods.members.groove)


def panel_rules(loaded: LoadedSpec) -> PanelRules:
    """Tongue, notches and fits of this spec's panels. The tray's sheet may differ, so it has its own fit."""
    spec, goods = loaded.spec, loaded.goods
    fixing = joinings(goods).get(spec.frame.joints.default)  # none where another joint is refused
    bar, tongue, clearance = goods.members, tongue_of(loaded), spec.panels.notch_clearance

    def fit(sheet: Sheet) -> TongueFit:
        return tongue_fit(
            section=bar.section,
            slot_opening=groove_width(bar.opening, sheet.thickness, bar.clearance),
            slot_depth=bar.groove,
            thickness=sheet.thickness,
            clearance=spec.panels.groove_clearance,
            tongue=tongue,
            shoulder=spec.panels.shoulder,
        )

    def notch(clip: Fraction | None, solid: bool) -> Fraction:
        return corner_notch(
            tongue=tongue, section=bar.section, clip_length=clip, solid_corner=solid, clearance=clearance
        )

    return PanelRules(
        joint=fixing.kind if fixing else "",
        tongue=tongue,
        notch=notch(None, True),
        clip_notch=notch(fixing.in_slot.length if fixing and fixing.in_slot else None, False),
        clearance=clearance,
        fit=fit(goods.wall),
        tray_fit=fit(goods.tray),
    )


def panel_parts(loaded: LoadedSpec, layout: Layout) -> tuple[Part, ...]:
    """All walls, in the order of the cut list."""
    rules, walls = panel_rules(loaded), wall_names(loaded.spec)
    parts: list[Part] = []
    if "dividers" in walls:
        parts += [part for zone in layout.zones for part in _dividers(loaded, layout, zone, rules)]
    if "ends" in walls:
        parts += [part for zone in layout.zones for part in _end_panels(loaded, layout, zone, rules)]
    if "spine" in walls:
        parts += _spine_panels(loaded, layout, rules)
    if "back" in walls:
        parts += _back_panels(loaded, layout, rules)
    return tuple(parts)


def _sheet_span(low_face: Fraction, section: Fraction, thickness: Fraction) -> Span:
    """The thickness of a sheet centred in a bar that begins at `low_face`."""
    offset = (section - thickness) / 2
    return Span(low_face + offset, low_face + section - offset)


def wider(span: Span, low: Fraction, high: Fraction) -> Span:
    """A span that reaches further by `low` and `high` (mm)."""
    return Span(span.low - low, span.high + high)


def _wall(
    loaded: LoadedSpec,
    rules: PanelRules,
    *,
    mark: str,
    name: str,
    role: Role,
    box: Box,
    along: str,
    place: Place,
    tongues: Mapping[str, Fraction],
    notches: tuple[Notch, ...],
) -> Part:
    """An upright sheet in the slots of the bars about it."""
    return Part(
        mark=mark,
        name=name,
        role=role,
        material=loaded.spec.panels.boards.get(WALLS[role], loaded.spec.panels.material),
        kind="sheet",
        box=box,
        along=along,
        across="z",
        place=place,
        thickness=rules.fit.thickness,
        tongues=tongues,
        notches=notches,
        fit=rules.fit,
    )


def _dividers(loaded: LoadedSpec, layout: Layout, zone: ZonePlace, rules: PanelRules) -> Iterator[Part]:
    tongue, thickness = rules.tongue, rules.fit.thickness
    z = Span(layout.levels.base_top - tongue, wall_top(loaded, layout))
    last = zone.index == len(layout.zones) - 1
    reasons = (
        "solid corner of the base rail" if zone.index == 0 else f"{rules.joint} of the spine post",
        "solid corner of the base rail" if last else f"{rules.joint} of the spine post",
    )
    sizes = (
        rules.notch if zone.index == 0 else rules.clip_notch,
        rules.notch if last else rules.clip_notch,
    )
    for number, line in enumerate(zone.lines, 1):
        # a knee post has no rail below it, but the clip of the cross-member in its slot: the notch clears both
        deeper = greatest(rules.notch, rules.clip_notch)
        beside = [line in knee_lines(layout, row) for row in (zone.index, zone.index + 1)]
        own = tuple(deeper if knee else size for knee, size in zip(beside, sizes, strict=True))
        why = tuple(
            f"{rules.joint} of the base cross-member" if knee else reason
            for knee, reason in zip(beside, reasons, strict=True)
        )
        x = _sheet_span(line, layout.section, thickness)
        yield _wall(
            loaded,
            rules,
            mark=f"{zone.letter}D{number}",
            name=f"divider, {zone.name} zone",
            role=Role.DIVIDER,
            box=Box(x, wider(zone.y, tongue, tongue), z),
            along="y",
            place=Place(zone=zone.name, lines=(layout.line_number(line),)),
            tongues={"front": tongue, "rear": tongue, "bottom": tongue},
            notches=_notches(("front bottom", "rear bottom"), own, why),
        )


def _notches(
    corners: tuple[str, ...], sizes: tuple[Fraction, ...], reasons: tuple[str, ...]
) -> tuple[Notch, ...]:
    return tuple(
        Notch(corner, size, size, reason)
        for corner, size, reason in zip(corners, sizes, reasons, strict=True)
        if size
    )


def _end_panels(loaded: LoadedSpec, layout: Layout, zone: ZonePlace, rules: PanelRules) -> Iterator[Part]:
    tongue, thickness = rules.tongue, rules.fit.thickness
    z = Span(layout.levels.base_top - tongue, layout.levels.end_rail_bottom + tongue)
    ends = (Fraction(0), layout.length - layout.section)
    for number, (end, face) in enumerate(zip(ENDS, ends, strict=True), 1):
        yield _wall(
            loaded,
            rules,
            mark=f"E{zone.letter}{number}",
            name=f"end panel, {zone.name} zone",
            role=Role.END_PANEL,
            box=Box(_sheet_span(face, layout.section, thickness), wider(zone.y, tongue, tongue), z),
            along="y",
            place=Place(zone=zone.name, end=end),
            tongues=dict.fromkeys(("front", "rear", "bottom", "top"), tongue),
            notches=_end_panel_notches(loaded, layout, zone, rules),
        )


def _end_panel_notches(
    loaded: LoadedSpec, layout: Layout, zone: ZonePlace, rules: PanelRules
) -> tuple[Notch, ...]:
    """Per corner: a rail's clip in the post's slot, a spine post's clip in the rail's slot, or a long rail's corner."""
    found: list[tuple[str, Fraction, str]] = []
    for side, is_corner in (("front", zone.index == 0), ("rear", zone.index == len(layout.zones) - 1)):
        clip = f"{rules.joint} of the rail in the post" if is_corner else f"{rules.joint} of the spine post"
        size, reason = rules.clip_notch, clip
        if is_corner and loaded.spec.frame.through == "rails":
            size, reason = rules.notch, "solid corner of the base rail"
        found.append((f"{side} bottom", size, reason))
        found.append((f"{side} top", rules.clip_notch, clip))
    corners, sizes, reasons = zip(*found, strict=True)
    return _notches(corners, sizes, reasons)


def _spine_panels(loaded: LoadedSpec, layout: Layout, rules: PanelRules) -> Iterator[Part]:
    tongue, thickness, levels = rules.tongue, rules.fit.thickness, layout.levels
    z = Span(levels.base_top, levels.tray_bottom - UNDER_TRAY)
    at_rail = z.high - levels.end_rail_bottom + rules.clearance
    edges = (Fraction(0), *layout.lines, layout.length - layout.section)
    number = 0
    for row, y in list(enumerate(layout.rows))[1:-1]:
        for left, right in pairwise(edges):
            if right - left == layout.section:
                continue  # two posts side by side leave no panel
            number += 1
            gap = Span(left + layout.section, right)
            notches = [
                Notch(f"{end} top", tongue + rules.clearance, at_rail, end_rail_name(loaded.spec))
                for end, edge, outer in (("left", left, edges[0]), ("right", right, edges[-1]))
                if edge == outer
            ]
            yield _wall(
                loaded,
                rules,
                mark=f"SP{number}",
                name="spine panel",
                role=Role.SPINE_PANEL,
                box=Box(wider(gap, tongue, tongue), _sheet_span(y, layout.section, thickness), z),
                along="x",
                place=in_row(layout, row, left, right),
                tongues={"left": tongue, "right": tongue},
                notches=tuple(notches),
            )


def _back_panels(loaded: LoadedSpec, layout: Layout, rules: PanelRules) -> Iterator[Part]:
    tongue, thickness = rules.tongue, rules.fit.thickness
    angle = loaded.goods.trim
    # the trim's leg under the tray would meet a panel whose face is within the leg
    under_trim = angle.thickness if angle and angle.leg > rules.fit.offset else Fraction(0)
    z = Span(layout.levels.base_top - tongue, wall_top(loaded, layout) - under_trim)
    y = _sheet_span(layout.rows[-1], layout.section, thickness)
    edges = layout.zones[-1].post_edges
    chosen = loaded.spec.frame.joints
    through_rails = loaded.spec.frame.through == "rails"
    corner = joining(loaded.goods, chosen.default if through_rails else chosen.long_rails_to_corner_posts)
    at_corner = rules.clip_notch if through_rails or corner.in_slot else Fraction(0)
    for number, (left, right) in enumerate(pairwise(edges), 1):
        ends = (("left", left == edges[0]), ("right", right == edges[-1]))
        sizes = tuple(at_corner if is_corner else rules.clip_notch for _, is_corner in ends)
        reasons = tuple(
            f"{corner.kind} at the corner post" if is_corner else f"{rules.joint} of the inner post"
            for _, is_corner in ends
        )
        yield _wall(
            loaded,
            rules,
            mark=f"BP{number}",
            name="back panel",
            role=Role.BACK_PANEL,
            box=Box(wider(Span(left + layout.section, right), tongue, tongue), y, z),
            along="x",
            place=in_row(layout, len(layout.rows) - 1, left, right),
            tongues={"left": tongue, "right": tongue, "bottom": tongue},
            notches=_notches(("left bottom", "right bottom"), sizes, reasons),
        )


def tray_heights(loaded: LoadedSpec, layout: Layout) -> Span:
    """Underside and top of the tray (mm): centred on its end rails, whatever its sheet measures."""
    levels = layout.levels
    off = (levels.tray_top - levels.tray_bottom - loaded.goods.tray.thickness) / 2
    return (
        Span(levels.tray_bottom + off, levels.tray_top - off)
        if off
        else Span(levels.tray_bottom, levels.tray_top)
    )


def wall_top(loaded: LoadedSpec, layout: Layout) -> Fraction:
    """Upper edge of the walls under the tray (mm): as planned, and lower where a thicker tray asks for it."""
    planned = layout.levels.tray_bottom
    return min(planned, tray_heights(loaded, layout).low) if loaded.spec.tray.there else planned


def trim_thickness(loaded: LoadedSpec) -> Fraction:
    """What the tray's trim takes from the opening below it (mm); 0 without trim."""
    angle = loaded.goods.trim
    return angle.thickness if angle else Fraction(0)
