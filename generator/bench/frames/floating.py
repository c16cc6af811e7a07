"""Panels of solid wood in a timber frame: they float in their grooves across the grain, and are cut to their moisture.

The room at the bottom of a groove is for the dampest weeks, what of the panel is in it for the driest. Where nobody
measured how damp the wood is, the panel is cut as if it were driest, and judged as if it had been dampest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor

from generator.bench.frames.facts import Framed
from generator.bench.grain import grain_of
from generator.bench.law import GOODS, MEASURE, Law, Verdict, at_least, by_the_check, said
from generator.bench.piece import Notch, Part
from generator.bench.role import STRIPS, Role
from generator.calculators.floating_panels import (
    HOLD,
    LEAST_HOLD,
    MOST_OFF,
    STEP,
    dry_hold,
    floating_width,
    groove_to_hold,
)
from generator.calculators.wood_movement import moisture_in_equilibrium, species
from generator.codes import Code
from generator.findings import Change, Steps
from generator.geometry import FACES, Box, Span
from generator.provenance import constant, greatest, rounded_down
from generator.spec.goods import Sheet
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

PANEL_LEAVES = Law(
    Code.PANEL_LEAVES, "error", "Panels of solid wood stay in their grooves in the driest weeks",
    "A panel of solid wood leaves its groove in the driest weeks",
    "Cut the grooves deeper, take quarter-sawn boards, or divide the panel by another post.",
    "It shrinks out of its groove, and then it rattles or falls.", by_the_check,
    quantity="what of the panel is in its groove",
)  # fmt: skip
PANEL_HOLD = Law(
    Code.PANEL_HOLD, "warning", "Panels of solid wood reach far enough into their grooves in the driest weeks",
    "A panel of solid wood reaches too little into its groove in the driest weeks",
    "Cut the grooves deeper, take quarter-sawn boards, or divide the panel by another post.",
    "A groove that is a little off, or a drier winter, lets it out.", by_the_check,
    quantity="what of the panel is in its groove",
)  # fmt: skip
PANEL_MOISTURE = Law(
    Code.PANEL_MOISTURE, "warning", "Boards of solid wood are cut at the moisture of their shop",
    "Boards of solid wood are not at the moisture of their shop",
    "Lay them on sticks in the shop until they are, one to three weeks. Measure again.",
    "They move more after you cut them than their grooves allow for, and they warp.", MEASURE,
    quantity="how far the moisture is off",
)  # fmt: skip
MOISTURE_OPEN = Law(
    Code.MOISTURE_OPEN, "note", "The moisture of boards of solid wood is measured",
    "Nobody measured how damp these boards of solid wood are",
    "Measure three boards in three places each, and write the mean as `moisture`.",
    "Their panels are cut as if they were driest, and have less hold than they could have.", GOODS,
)  # fmt: skip
STRIPS_ACROSS = Law(
    Code.STRIPS_ACROSS, "warning", "Strips run along the grain of panels of solid wood",
    "Strips run across the grain of a panel of solid wood", "Turn the grain of the panel.",
    "Their screws hold the panel fast across its grain, and in a dry season it cracks between them.", by_the_check,
)  # fmt: skip
FLOATING_LAWS = (PANEL_LEAVES, PANEL_HOLD, STRIPS_ACROSS, PANEL_MOISTURE, MOISTURE_OPEN)

_CLIMATE = "from the spec's climate; moisture by Wood Handbook, equation 4-5"


@dataclass(frozen=True)
class Moistures:
    """Moisture of wood in the driest and dampest weeks of the spec's climate, to the safe tenth of a per cent."""

    driest: Fraction
    dampest: Fraction

    @property
    def middle(self) -> Fraction:
        """What wood should have when it is cut (per cent)."""
        return (self.driest + self.dampest) / 2


def shop_moistures(spec: Spec) -> Moistures:
    """Both extremes for wood in this shop (per cent)."""
    climate = spec.climate
    dry = moisture_in_equilibrium(celsius=float(climate.warmest), humidity=float(climate.driest))
    damp = moisture_in_equilibrium(celsius=float(climate.coldest), humidity=float(climate.dampest))
    return Moistures(
        constant(Fraction(floor(dry * 10), 10), "moisture of wood in the driest weeks (%)", _CLIMATE, ""),
        constant(Fraction(ceil(damp * 10), 10), "moisture of wood in the dampest weeks (%)", _CLIMATE, ""),
    )


@dataclass(frozen=True)
class Floating:
    """A panel across its grain: the axis, its clear opening there, its edges in grooves (mm), and its wood.

    `movement` is for each per cent of moisture. `made` is the moisture that its width goes by, and the one from which
    it may dry: they differ where nobody measured it.
    """

    axis: str
    opening: Fraction
    grooves: tuple[str, ...]
    movement: Fraction
    made: tuple[Fraction, Fraction]


def solid(loaded: LoadedSpec, part: Part) -> Sheet | None:
    """The card of a wall of solid wood; None for sheet goods, and for a board that is no wall."""
    sheet = loaded.goods.sheets.get(part.material)
    walls = (Role.DIVIDER, Role.END_PANEL, Role.SPINE_PANEL, Role.BACK_PANEL)
    return sheet if sheet is not None and sheet.species is not None and part.role in walls else None


def movement_of(sheet: Sheet) -> Fraction:
    """Change across the grain for each per cent of moisture, by the card's wood and how it was sawn."""
    wood = species(sheet.species or "")
    way = wood.tangential if sheet.sawn == "flat" else wood.radial
    name = f"movement of {sheet.species}, {sheet.sawn}-sawn, for each per cent of moisture"
    return constant(str(way), name, "Wood Handbook, table 13-5", "")


def floating(loaded: LoadedSpec, part: Part) -> Floating | None:
    """How a panel floats; None for one that does not move."""
    sheet = solid(loaded, part)
    if sheet is None:
        return None
    axis = part.along if grain_of(loaded, part) == "width" else part.across
    grooves = tuple(edge for edge in FACES[axis] if edge in part.tongues)
    opening = part.box.span(axis).size
    for edge in grooves:
        opening = opening - part.tongues[edge]
    found = shop_moistures(loaded.spec)
    made = (found.driest, found.dampest) if sheet.moisture is None else (sheet.moisture, sheet.moisture)
    return Floating(axis, opening, grooves, movement_of(sheet), made)


def floated(loaded: LoadedSpec, part: Part) -> Part:
    """A wall as it is cut: one of solid wood with room at the bottoms of its grooves, else at its upper edge."""
    how = floating(loaded, part)
    if how is None:
        return part
    width = floating_width(
        opening=how.opening, groove=loaded.goods.members.groove, grooves=len(how.grooves), movement=how.movement,
        made=how.made[0], dampest=shop_moistures(loaded.spec).dampest,
    )  # fmt: skip
    _, high = FACES[how.axis]
    if not how.grooves:
        short = how.opening - rounded_down(width, STEP)
        return _moved(part, how.axis, {high: short}, (high,))
    tongue = greatest(rounded_down((width - how.opening) / len(how.grooves), STEP), STEP)
    less = {edge: part.tongues[edge] - tongue for edge in how.grooves}
    moved = _moved(part, how.axis, less, how.grooves)
    return replace(moved, tongues={**part.tongues, **dict.fromkeys(how.grooves, tongue)})


def _moved(part: Part, axis: str, less: dict[str, Fraction], floating: tuple[str, ...]) -> Part:
    """The part smaller at some of its edges, its notches with it."""
    low, high = FACES[axis]
    span, none = part.box.span(axis), Fraction(0)
    own = Span(span.low + less.get(low, none), span.high - less.get(high, none))
    box = Box(*(own if each == axis else part.box.span(each) for each in "xyz"))
    notches = (_notch(part, each, axis, less) for each in part.notches)
    return replace(part, box=box, notches=tuple(each for each in notches if each), floating=floating)


def _notch(part: Part, notch: Notch, axis: str, less: dict[str, Fraction]) -> Notch | None:
    """A notch in an edge that is further in; None where nothing is left of it."""
    edge = next((each for each in notch.corner.split() if each in less), None)
    if edge is None:
        return notch
    along = notch.along - less[edge] if axis == part.along else notch.along
    across = notch.across - less[edge] if axis == part.across else notch.across
    return Notch(notch.corner, along, across, notch.reason) if min(along, across) > 0 else None


def hold_of(loaded: LoadedSpec, part: Part, how: Floating) -> Fraction:
    """What of a panel is in each of its grooves in the driest weeks (mm)."""
    return dry_hold(
        width=part.box.span(how.axis).size, opening=how.opening, grooves=len(how.grooves), movement=how.movement,
        made=how.made[1], driest=shop_moistures(loaded.spec).driest,
    )  # fmt: skip


def judge_floating(bench: Framed) -> Iterator[Verdict]:
    """The panel with the least hold of each material, then how damp that is."""
    loaded, found = bench.loaded, dict[str, tuple[Fraction, Part, Floating]]()
    for part in bench.parts:
        how = floating(loaded, part)
        if how is None:
            continue
        hold = hold_of(loaded, part, how) if how.grooves else HOLD
        kept = found.get(part.material)
        if kept is None or hold < kept[0]:
            found[part.material] = (hold, part, how)
    for name, (hold, part, how) in found.items():
        where, path = f"{part.mark}, {part.group}", ("frame", "groove")
        cure = _deeper(loaded, how) if how.grooves else ()
        law, limit = (PANEL_LEAVES, LEAST_HOLD) if hold < LEAST_HOLD else (PANEL_HOLD, HOLD)
        if law is PANEL_HOLD:
            yield at_least(PANEL_LEAVES, hold, LEAST_HOLD, where, path)
        yield at_least(law, hold, limit, where, path, remedy=cure)
        yield _strips(bench, name)
        yield from _moisture(loaded, name)


def _strips(bench: Framed, name: str) -> Verdict:
    """Whether strips that lie on the panels of one wood are across its grain."""
    lying = [strip for strip in bench.of(*STRIPS) if strip.along != "z"]
    walls = [part for part in bench.parts if part.material == name and floating(bench.loaded, part)]
    held = [
        wall
        for wall in walls
        if grain_of(bench.loaded, wall) == ("width" if wall.along == "y" else "length")
        and any(_touches(wall, strip) for strip in lying)
    ]
    groups = dict.fromkeys(wall.group for wall in held)
    remedy = tuple(Change(f"grain.{group}", "length") for group in groups)
    where = ", ".join(wall.mark for wall in held) or name
    path: Steps = ("grain", next(iter(groups))) if groups else ("materials", name, "grain")
    return Verdict(STRIPS_ACROSS, not held, where, path, remedy=remedy)


def _touches(wall: Part, strip: Part) -> bool:
    """Whether a strip is on one of the faces of a wall that is across the bench."""
    on_face = strip.box.x.high == wall.box.x.low or strip.box.x.low == wall.box.x.high
    return on_face and strip.box.y.overlap(wall.box.y) > 0 and strip.box.z.overlap(wall.box.z) > 0


def _deeper(loaded: LoadedSpec, how: Floating) -> tuple[Change, ...]:
    """A groove that holds it; none where a third of the timber is not as deep."""
    air, members = shop_moistures(loaded.spec), loaded.goods.members
    needed = groove_to_hold(
        opening=how.opening, grooves=len(how.grooves), movement=how.movement, made=how.made,
        driest=air.driest, dampest=air.dampest,
    )  # fmt: skip
    if 3 * (needed + 1) > members.section:
        return ()
    deep = said(loaded.spec, needed)
    chosen = loaded.spec.frame.joints
    names = dict.fromkeys((chosen.default, chosen.long_rails_to_corner_posts, chosen.inner_post_tops))
    shallow = (name for name in names if 0 < getattr(loaded.goods.joints[name], "shoulder", 0) <= needed)
    return (Change("frame.groove", deep), *(Change(f"hardware.{name}.shoulder", deep) for name in shallow))


def _moisture(loaded: LoadedSpec, name: str) -> Iterator[Verdict]:
    """Whether it was measured, and how far it is off the middle of the shop."""
    path, has = ("materials", name, "moisture"), loaded.goods.sheets[name].moisture
    yield Verdict(MOISTURE_OPEN, has is not None, name, path)
    if has is not None:
        middle = shop_moistures(loaded.spec).middle
        off = has - middle if has > middle else middle - has
        yield Verdict(PANEL_MOISTURE, off <= MOST_OFF, name, path, off, MOST_OFF, unit="%")
