"""Every fit with what may be off in it: sheets in slots, tongues over a bottom, drawers, shelves, totes, clips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.facts import Off
from generator.bench.frames.panels import panel_rules
from generator.bench.model import Bench
from generator.calculators.fit_verdicts import IN_SLOT, UNDER, Feel, fit_range
from generator.calculators.fits import RABBET_TOLERANCE, TongueFit
from generator.calculators.tolerances import (
    CLASS_M,
    Deviation,
    mdf_thickness,
    nearest_general_tolerance,
    plywood_thickness,
)
from generator.figures.rows.fits import FitRow, FitSize
from generator.provenance import constant
from generator.spec.goods import Sheet
from generator.spec.members import Members

#: What a good shop keeps (mm). Common practice, no source.
BAR_LENGTH = constant("0.2", "how far a bar's length may be off")
#: Half of what a measured sheet's six points are apart, when the spec does not say (mm). Common practice, no source.
MEASURED = constant("0.1", "how far a measured sheet differs from its mean")

TONGUE_TEST = "Cut a test tongue on scrap. It must go in by hand and stay in when you turn the bar over."
GROOVE_TEST = "Cut a test groove in an off-cut. The sheet must go in by hand and not rattle."
DEPTH_TEST = (
    "Push the panel home in one groove and mark it at the timber: the other edge must still be in its groove."
)
BOTTOM_TEST = (
    "Push the panel home in one slot and mark it at the bar: the other end must still be in its slot."
)


def fit_ranges(bench: Bench) -> tuple[FitRow, ...]:
    """Rows in the order of the work."""
    return (
        *_tongues(bench),
        *_bottoms(bench),
        *_in_slots(bench),
        *_of_fillings(bench),
    )


def _fit(name: str, where: str, nominal: Fraction, sizes: Sequence[FitSize], feel: Feel, test: str) -> FitRow:
    found = fit_range(nominal, tuple(Deviation(each.lower, each.upper) for each in sizes), feel)
    return FitRow(
        name=name,
        where=where,
        nominal=nominal,
        worst=(found.worst.low, found.worst.high),
        likely=(found.likely.low, found.likely.high),
        verdict=found.verdict,
        likely_verdict=found.likely_verdict,
        worst_verdict=found.worst_verdict,
        sizes=tuple(sizes),
        test=test,
    )


def _size(name: str, value: Fraction, most: Fraction, source: str, measured: str = "") -> FitSize:
    return FitSize(name, value, -most, most, source, measured)


def _general(name: str, value: Fraction) -> FitSize:
    source = "ISO 2768-1, class m"
    if value > CLASS_M[-1][0]:
        source += ", as for the longest size it has"
    return _size(name, value, nearest_general_tolerance(value), source)


def sheet_size(card: Sheet) -> FitSize:
    """A sheet's thickness: by its six points when they were measured, else by its standard."""
    name = "sheet, thickness"
    if card.spread is not None:
        return _size(name, card.thickness, card.spread / 2, "spread of its points", card.measured)
    if card.measured:
        return _size(name, card.thickness, MEASURED, "common practice", card.measured)
    if card.grain == "none":
        return FitSize(name, card.thickness, *mdf_thickness(card.thickness), "EN 622-1")
    return FitSize(name, card.thickness, *plywood_thickness(card.thickness), "EN 315")


def _turned(size: FitSize) -> FitSize:
    """A size that takes from the clearance: what makes it larger makes the clearance smaller."""
    return FitSize(size.name, size.value, -size.upper, -size.lower, size.source, size.measured)


def _tongues(bench: Bench) -> Iterator[FitRow]:
    spec = bench.spec
    rules, slotted = panel_rules(bench.loaded), bench.goods.profile is not None
    named = {"panels": (rules.fit, spec.panels.material), "tray": (rules.tray_fit, spec.tray.material)}
    if not spec.tray.there:
        del named["tray"]
    elif spec.panels.material == spec.tray.material:
        named = {"panels and tray": named["panels"]}
    for where, (fit, material) in named.items():
        yield _fit(
            "tongue in its slot" if slotted else "sheet in its groove",
            where,
            fit.groove - fit.tongue_thickness,
            (
                _slot(bench.goods.members, "slot, opening" if slotted else "groove, width", fit.groove),
                _turned(sheet_size(bench.goods.sheets[material])),
                *_rabbets(fit),
            ),
            IN_SLOT,
            TONGUE_TEST if slotted else GROOVE_TEST,
        )


def _slot(bar: Members, name: str, value: Fraction) -> FitSize:
    return _size(
        name, value, bar.tolerance, "the bar's card" if bar.opening else "common practice", bar.measured
    )


def _rabbets(fit: TongueFit) -> tuple[FitSize, ...]:
    if not fit.needs_rabbet:
        return ()
    cut = _size("rabbet, depth", fit.rabbet_depth, RABBET_TOLERANCE, "common practice")
    return (cut, cut)


def _bottoms(bench: Bench) -> Iterator[FitRow]:
    """The longest board between two slots: both ends together."""
    boards = [
        (part, axis)
        for part in bench.parts
        for axis, edges in ((part.along, _EDGES[part.along]), (part.across, _EDGES[part.across]))
        if part.fit is not None and all(edge in part.tongues for edge in edges)
    ]
    if not boards:
        return
    part, axis = max(boards, key=lambda each: each[0].box.span(each[1]).size)
    assert part.fit is not None
    length, depth = part.box.span(axis).size, bench.goods.members.groove
    tongues = [part.tongues[edge] for edge in _EDGES[axis]]
    opening = length - tongues[0] - tongues[1]
    slotted = bench.goods.profile is not None
    slot = _slot(bench.goods.members, "slot, depth" if slotted else "groove, depth", depth)
    yield _fit(
        "space under both tongues" if slotted else "space at the bottoms of both grooves",
        f"{part.mark}, {part.group}",
        2 * depth - tongues[0] - tongues[1],
        (
            slot,
            slot,
            _size("bars, apart", opening, BAR_LENGTH, "bars cut to ±0.2 mm"),
            _turned(_general("panel, length", length)),
        ),
        UNDER,
        BOTTOM_TEST if slotted else DEPTH_TEST,
    )


_EDGES = {"x": ("left", "right"), "y": ("front", "rear"), "z": ("bottom", "top")}


def _in_slots(bench: Bench) -> Iterator[FitRow]:
    spec = bench.spec
    if in_slot := bench.joinings[spec.frame.joints.default].in_slot:
        yield _fit(
            in_slot.fit,
            spec.frame.joints.default,
            in_slot.left,
            (
                _slot(bench.goods.members, "slot, depth", bench.goods.members.groove),
                _size(
                    in_slot.stacked,
                    in_slot.stack,
                    in_slot.off,
                    "common practice",
                ),
            ),
            UNDER,
            in_slot.test,
        )


def _of_fillings(bench: Bench) -> Iterator[FitRow]:
    for kind in FILLINGS:
        for each in kind.clearances(bench):
            yield _fit(
                each.name, each.where, each.nominal, tuple(map(_off, each.sizes)), each.feel, each.test
            )


def _off(off: Off) -> FitSize:
    most = off.most
    size = _general(off.name, off.value) if most is None else _size(off.name, off.value, most, off.source)
    return _turned(size) if off.takes else size
