"""What both plans rest on: whole steps, linear and whole-number programs, bounds, and budgets of counted work."""

from generator.calculators.cutting.core.budget import (
    UNITS_PER_SECOND,
    WatchedBudget,
    WorkBudget,
    budget_for,
)

__all__ = ["UNITS_PER_SECOND", "WatchedBudget", "WorkBudget", "budget_for"]
