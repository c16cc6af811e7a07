"""What both plans rest on: whole steps, linear and whole-number programs, bounds, and budgets of counted work."""

from generator.calculators.cutting.core.budget import (
    EFFORT_PER_SECOND,
    Effort,
    WatchedEffort,
    effort_for,
)

__all__ = ["EFFORT_PER_SECOND", "Effort", "WatchedEffort", "effort_for"]
