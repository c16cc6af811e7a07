"""Bars cut to length: `plan_bars`, and what it takes and gives."""

from generator.calculators.cutting.bars.marks import BarCut, bar_cuts
from generator.calculators.cutting.bars.plan import (
    BarPiece,
    BarPlan,
    BarShortage,
    BarStock,
    CutBar,
    plan_bars,
)

__all__ = ["BarCut", "BarPiece", "BarPlan", "BarShortage", "BarStock", "CutBar", "bar_cuts", "plan_bars"]
