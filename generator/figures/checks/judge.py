"""All checks of a bench, and the findings that follow from those that fail."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.model import Bench
from generator.figures.checks.base import base_checks
from generator.figures.checks.boards import panel_checks, shortage_checks, stock_checks
from generator.figures.checks.completeness import completeness_checks
from generator.figures.checks.frame import bolt_checks, joint_checks, layout_checks, relief_checks
from generator.figures.checks.judged import Judged
from generator.figures.checks.storage import drawer_checks, reach_checks, shelf_checks, tote_checks
from generator.figures.checks.strength import handling_checks, strength_checks
from generator.figures.checks.together import together_checks
from generator.figures.model import Casters, Check, Cutting
from generator.figures.strength_model import Strength
from generator.figures.together import Together
from generator.findings import Finding, Severity
from generator.spec.load import LoadedSpec


def judge(
    loaded: LoadedSpec, bench: Bench, casters: Casters, whole: Together, strength: Strength, plans: Cutting
) -> tuple[Judged, ...]:
    """All checks, those that fail worst first and what someone can be hurt by before the rest; else as one builds."""
    too_large = tuple(stock_checks(loaded.spec, bench))
    flagged = {str(each.path[1]) for each in too_large}
    found = [
        *layout_checks(loaded.spec, bench),
        *joint_checks(loaded.spec, bench),
        *panel_checks(loaded.spec, bench),
        *drawer_checks(loaded.spec, bench),
        *tote_checks(loaded.spec, bench),
        *shelf_checks(loaded.spec, bench),
        *reach_checks(loaded.spec, bench),
        *relief_checks(loaded.spec, bench),
        *bolt_checks(loaded.spec),
        *base_checks(loaded.spec, bench, casters),
        *strength_checks(loaded.spec, casters, strength),
        *handling_checks(loaded.spec, strength),
        *too_large,
        *shortage_checks(loaded.spec, plans.shortages, flagged),
        *completeness_checks(loaded.spec, bench),
        *together_checks(loaded, bench, whole),
    ]
    rank = {"error": 0, "warning": 1, "note": 2}
    return tuple(
        sorted(found, key=lambda each: (each.check.ok, rank[each.check.severity], not each.check.caution))
    )


def findings(loaded: LoadedSpec, judged: tuple[Judged, ...]) -> tuple[Finding, ...]:
    """The failed checks as findings with their place in the spec."""
    return tuple(
        Finding(
            each.check.code,
            Severity[each.check.severity.upper()],
            f"{each.check.title} ({each.check.where})" if each.check.where else each.check.title,
            loaded.where(*each.path),
            found=_amount(loaded, each.check, each.check.value),
            allowed=f"{each.check.sense} {_amount(loaded, each.check, each.check.limit)}".strip(),
            advice=each.check.advice,
        )
        for each in judged
        if not each.check.ok
    )


def _amount(loaded: LoadedSpec, check: Check, value: float | Fraction | None) -> str:
    if value is None:
        return ""
    if check.unit == "mm":
        return loaded.say(Fraction(str(round(float(value), 6))))
    return f"{float(value):.4g} {check.unit}".strip()
