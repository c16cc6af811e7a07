"""The cutting plans of a bench, bars and sheets together."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.model import Bench
from generator.figures.bar_cutting import bar_cutting
from generator.figures.offcuts import offcuts
from generator.figures.rows.cutting import Cutting
from generator.figures.sheet_cutting import sheet_cutting


def cutting(bench: Bench) -> Cutting:
    """Plans of all materials whose stock the spec names."""
    spec = bench.spec
    bars, sheets = bar_cutting(bench), sheet_cutting(bench)
    rule = spec.saws.sheet.break_down
    return Cutting(
        bars=bars.bars,
        bar_bound=bars.bounds,
        sheets=sheets.sheets,
        sheet_bound=sheets.bounds,
        summaries=bars.summaries,
        stops=bars.stops,
        sheet_summaries=sheets.summaries,
        fences=sheets.fences,
        shortages=(*bars.shortages, *sheets.shortages),
        offcuts=offcuts(spec, bars.bars, sheets.sheets),
        longest_part=rule.max_length if rule else None,
        allowance=rule.allowance if rule else Fraction(0),
        track_kerf=rule.kerf if rule else None,
        least_bar_offcut=spec.saws.bar.least_offcut,
        least_sheet_offcut=spec.saws.sheet.least_offcut,
    )
