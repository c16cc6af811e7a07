"""Sheets cut from edge to edge: `plan_sheets` plans them, `fence_order` and `stage_order` are ways through the cuts."""

from generator.calculators.cutting.sheets.fence import FenceBatch, FenceCut, FenceOrder, fence_order
from generator.calculators.cutting.sheets.model import (
    Area,
    BreakDown,
    CutSheet,
    CutTree,
    PlacedPiece,
    SawCut,
    SheetPiece,
    SheetPlan,
    SheetShortage,
    SheetStock,
    ShopRules,
)
from generator.calculators.cutting.sheets.plan import plan_sheets
from generator.calculators.cutting.sheets.rules import Breaches, breaches
from generator.calculators.cutting.sheets.stage_order import StageCut, StageOrder, stage_order

__all__ = [
    "Area",
    "Breaches",
    "BreakDown",
    "CutSheet",
    "CutTree",
    "FenceBatch",
    "FenceCut",
    "FenceOrder",
    "PlacedPiece",
    "SawCut",
    "SheetPiece",
    "SheetPlan",
    "SheetShortage",
    "SheetStock",
    "ShopRules",
    "StageCut",
    "StageOrder",
    "breaches",
    "fence_order",
    "plan_sheets",
    "stage_order",
]
