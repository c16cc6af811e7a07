"""Checks of boards by their grain and wood: along what they span, with room across it, thick enough to plane."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.walls import PLANING
from generator.bench.law import GOODS, Law, by_the_check, to_limit
from generator.bench.model import Bench, Part
from generator.calculators.wood_movement import change_with_moisture, species
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, at_most, check_result
from generator.figures.seasons import moistures
from generator.figures.solid_top import TABLE
from generator.findings import Change
from generator.geometry import FACES
from generator.provenance import constant, inexact

GRAIN_ACROSS = Law(
    Code.GRAIN_ACROSS, "warning", "The grain runs along what each board spans",
    "The grain of a board runs across what it spans", "Turn the grain.",
    "Across its grain plywood is half as stiff, and solid wood breaks.", by_the_check,
)  # fmt: skip
SOLID_PANEL = Law(
    Code.SOLID_PANEL, "error", "Panels of solid wood have space to move in their grooves",
    "A panel of solid wood has too little space in its grooves",
    "Take plywood, or boards of another wood.", "In a damp season it grows, and pushes the frame apart.", GOODS,
    quantity="growth across the grain",
)  # fmt: skip


PLANING_LITTLE = Law(
    Code.PLANING_LITTLE, "warning", "Rough boards are thick enough to plane both faces",
    "Rough boards are too thin to plane both faces", "Buy them thicker.",
    "Hollows and saw marks stay in the faces.", to_limit, quantity="what is planed off",
)  # fmt: skip


MOISTURE_MIXED = Law(
    Code.MOISTURE_MIXED, "warning", "Boards of solid wood are of one moisture",
    "Boards of solid wood are of unequal moisture: do not cut them yet",
    "Stack them with laths between them in the shop, and measure again each week.",
    "Each moves by another amount: glued joints open, and faces that were flush stand off.", GOODS,
    quantity="highest less lowest reading",
)  # fmt: skip
#: Highest less lowest of nine readings (per cent). Common practice, no source.
MOST_SPREAD = Fraction(2)


def grain_checks(bench: Bench) -> Iterator[CheckResult]:
    """Boards that lie on two ends, then panels that are held at two opposite edges."""
    parts, said = {part.mark: part for part in bench.parts}, bench.spec.grain
    for each in (each for kind in FILLINGS for each in kind.sagging(bench) if each.short is None):
        across = [mark for mark in each.marks if parts[mark].grain == "width"]
        group = each.part.group
        names = dict.fromkeys(mark if mark in said or group not in said else group for mark in across)
        path = ("grain", next(iter(names))) if set(names) & set(said) else each.path
        where = ", ".join(across or each.marks)
        remedy = tuple(Change(f"grain.{name}", "length") for name in names)
        yield check_result(GRAIN_ACROSS, not across, where, path, remedy=remedy)
    for name in dict.fromkeys(part.material for part in bench.parts):
        sheet = bench.goods.sheets.get(name)
        if sheet is not None and sheet.moisture_spread is not None:
            yield check_result(
                MOISTURE_MIXED, sheet.moisture_spread <= MOST_SPREAD, name,
                ("materials", name, "moisture_spread"), value=sheet.moisture_spread, limit=MOST_SPREAD, unit="%",
            )  # fmt: skip
        if sheet is not None and sheet.planing:
            yield at_least(PLANING_LITTLE, sheet.planing, PLANING, name, ("materials", name, "planing"))
    wetter = moistures(bench)[2]
    for part in bench.parts:
        yield from _room(bench, part, wetter)


def _room(bench: Bench, part: Part, wetter: float) -> Iterator[CheckResult]:
    """A panel of solid wood that is in slots at both edges across its grain."""
    sheet, fit = bench.goods.sheets.get(part.material), part.fit
    if sheet is None or sheet.species is None or fit is None:
        return
    axis, size = (part.along, part.length) if part.grain == "width" else (part.across, part.width)
    if part.floating or not all(edge in part.tongues for edge in FACES[axis]):
        return
    wood = species(sheet.species)
    each = constant(
        Fraction(wood.tangential), "movement of a panel for each per cent of moisture", TABLE, unit=""
    )
    grows = change_with_moisture(size=inexact(size), coefficient=inexact(each), moisture_change=wetter)
    path = ("materials", part.material, "species")
    yield at_most(SOLID_PANEL, Fraction(grows), 2 * fit.bottom_clearance, f"{part.mark}, {part.group}", path)
