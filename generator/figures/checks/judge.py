"""All checks of a bench, and the findings that follow from those that fail."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.frames import FRAMES
from generator.bench.joints import JOINTS
from generator.bench.law import Case, Law
from generator.bench.model import Bench
from generator.bench.stands import STANDS
from generator.figures.access_report import AccessReport
from generator.figures.balance import Masses
from generator.figures.checks import (
    assembly,
    base,
    boards,
    budget,
    completeness,
    edge_bands,
    edging,
    fasteners,
    fillings,
    finish,
    frame,
    glue,
    grain,
    hanging,
    joins,
    openings,
    overhang,
    room,
    screws,
    solid_top,
    strength,
    swings,
    top,
    top_boards,
    top_features,
    vises,
    working_loads,
)
from generator.figures.checks.check_result import CheckResult, Path
from generator.figures.checks.consequences import causes_only
from generator.figures.rows.buying import Purchase
from generator.figures.rows.checks import Check
from generator.figures.rows.cutting import Cutting
from generator.figures.rows.masses import Stands
from generator.figures.rows.strength import Strength
from generator.findings import Change, Finding, Severity, with_changes
from generator.spec.cards import STANDARD
from generator.spec.load import LoadedSpec
from generator.units.sizes import KG_PER_LB, N_PER_LBF

#: Where the laws are, each beside its subject.
SUBJECTS = (
    frame, boards, fasteners, fillings, swings, top, top_boards, edging, edge_bands, openings, top_features, vises,
    overhang, solid_top, grain, strength, working_loads, completeness, screws, hanging, assembly, glue, finish, budget,
    room, joins,
)  # fmt: skip
#: Every law once, those of joints, stands and fillings from their own rooms.
LAWS: tuple[Law, ...] = tuple(
    dict.fromkeys(
        [law for subject in SUBJECTS for law in vars(subject).values() if isinstance(law, Law)]
        + [law for kind in FRAMES for law in kind.laws]
        + [law for kind in JOINTS for law in kind.laws]
        + [law for kind in STANDS for law in kind.laws]
        + [law for kind in FILLINGS for law in kind.laws]
    )
)
#: Up to this number, failed checks of one kind at one place are a finding each; more are one finding: a slide that is
#: too long meets every part behind it.
MOST_ALIKE = 3
#: What a finding is about is in its first line up to this number of letters, otherwise on lines of its own.
LONGEST_IN_A_LINE = 100
#: Which way a limit runs, in words behind it.
SENSES = {"at least": "or more", "at most": "or less"}
#: For a spec in inches: a unit, how much of it makes one of the other, and the other (exact by definition).
IN_POUNDS = {"kg": (KG_PER_LB, "lb"), "kg m": (KG_PER_LB * 0.3048, "lb ft"), "N": (N_PER_LBF, "lbf")}


def judge(
    bench: Bench,
    stands: Stands,
    whole: AccessReport,
    sums: Strength,
    plans: Cutting,
    masses: Masses,
    shopping: Sequence[Purchase],
) -> tuple[CheckResult, ...]:
    """All checks: the failed ones first, worst first, what can hurt someone before the rest; else in building order."""
    loaded = bench.loaded
    too_large = tuple(boards.stock_checks(bench))
    flagged = {str(each.path[1]) for each in too_large}
    found = [
        *frame.layout_checks(bench),
        *frame.joint_checks(bench),
        *boards.panel_checks(bench),
        *fasteners.fastener_checks(bench),
        *fillings.filling_checks(bench, masses),
        *swings.swing_checks(bench),
        *frame.relief_checks(bench),
        *frame.bolt_checks(bench),
        *top_boards.board_checks(bench),
        *edging.edging_checks(bench),
        *edge_bands.band_checks(bench),
        *openings.opening_checks(bench),
        *top.top_checks(bench),
        *top_features.feature_checks(bench),
        *base.base_checks(bench, stands, masses.loaded.mass),
        *strength.strength_checks(bench, stands, sums),
        *solid_top.solid_checks(bench),
        *grain.grain_checks(bench),
        *overhang.overhang_checks(bench),
        *vises.vise_checks(bench, sums.stability),
        *working_loads.load_checks(loaded.spec, sums.loads),
        *strength.handling_checks(loaded.spec, sums),
        *too_large,
        *boards.shortage_checks(bench, plans.shortages, flagged),
        *boards.plan_checks(plans.sheet_summaries),
        *completeness.completeness_checks(bench),
        *screws.screw_checks(bench),
        *hanging.hanging_checks(bench),
        *top.bracket_checks(bench),
        *finish.finish_checks(bench),
        *room.room_checks(bench),
        *joins.join_checks(bench, masses.loaded.mass),
        *budget.budget_checks(loaded.spec, shopping),
        *assembly.assembly_checks(bench, whole),
        *glue.glue_checks(bench, whole),
    ]
    found = [each if each.check.ok else _cured(bench, each) for each in found]
    rank = {"error": 0, "warning": 1, "note": 2}
    return tuple(
        sorted(
            causes_only(found),
            key=lambda each: (each.check.ok, rank[each.check.severity], not each.check.caution),
        )
    )


def _cured(bench: Bench, judged: CheckResult) -> CheckResult:
    """A failed check whose advice names the keys that cure it."""
    value, limit = Fraction(judged.check.value or 0), Fraction(judged.check.limit or 0)
    case = Case(bench.loaded, bench.layout, judged.path, value, limit, judged.check.sense == "at most")
    changes = _with_cards(bench.loaded, judged.remedy or judged.law.changes(case))
    own, law = judged.check.advice, judged.law
    advice = law.advised(bench.spec) if own == law.advice else own
    # the words of a check name already what the check worked out itself
    new = [each for each in changes if str(each).strip("`") not in advice]
    check = replace(judged.check, advice=with_changes(advice, new))
    return replace(judged, check=check, remedy=changes)


def _with_cards(loaded: LoadedSpec, changes: tuple[Change, ...]) -> tuple[Change, ...]:
    """Goods that the spec leaves to a standard card must name it once one of their keys is written."""
    cards = []
    for section, names in STANDARD.items():
        written = loaded.document.data.get(section) or {}
        changed = {_entry(change.path, section, {*names, *written}) for change in changes}
        left = [name for name in names if name in changed - set(written)]
        cards += [Change(f"{section}.{name}.use", names[name]) for name in left]
    return (*cards, *(change for change in changes if change not in cards))


def _entry(path: str, section: str, names: set[str]) -> str:
    """The entry of a section that a key path leads into: the longest name that fits, as names may hold dots."""
    return max((name for name in names if path.startswith(f"{section}.{name}.")), key=len, default="")


def findings(loaded: LoadedSpec, judged: tuple[CheckResult, ...]) -> tuple[Finding, ...]:
    """The failed checks as findings with their place in the spec; many of one kind at one place are one finding."""
    alike: dict[tuple[str, str, Path], list[CheckResult]] = {}
    for each in judged:
        if not each.check.ok:
            alike.setdefault((each.check.code, each.check.severity, each.path), []).append(each)
    return tuple(
        _finding(loaded, failed, also) for checks in alike.values() for failed, also in _merged(checks)
    )


def _merged(checks: list[CheckResult]) -> list[tuple[CheckResult, tuple[CheckResult, ...]]]:
    """Each failed check with those that share its finding."""
    if len(checks) <= MOST_ALIKE:
        return [(check, ()) for check in checks]
    return [(checks[0], tuple(checks[1:]))]


def _finding(loaded: LoadedSpec, failed: CheckResult, also: tuple[CheckResult, ...]) -> Finding:
    check, path = failed.check, failed.path
    places = [each.check.where for each in (failed, *also[: MOST_ALIKE - 1]) if each.check.where]
    more = len(also) - MOST_ALIKE + 1
    if more > 0:
        places.append(f"and {more} more")
    where = "; ".join(places)
    in_line = where and len(where) <= LONGEST_IN_A_LINE
    place = loaded.where(*path)
    return Finding(
        check.code,
        Severity[check.severity.upper()],
        f"{check.title} ({where})" if in_line else check.title,
        place if path else replace(place, quote=""),
        found=_amount(loaded, check, check.value),
        allowed=_limit(loaded, check),
        advice=check.advice,
        why=check.why,
        remedy=failed.remedy,
        places=() if in_line else tuple(places),
    )


def _limit(loaded: LoadedSpec, check: Check) -> str:
    """The limit with the way it runs: `24.5 mm or more`; empty for a check without one."""
    amount = _amount(loaded, check, check.limit)
    return f"{amount} {SENSES[check.sense]}" if amount else ""


def _amount(loaded: LoadedSpec, check: Check, value: float | Fraction | None) -> str:
    if value is None:
        return ""
    if check.unit == "mm":
        return loaded.say(Fraction(str(round(float(value), 3))))
    if check.unit in IN_POUNDS and loaded.spec.units == "in":
        pounds, unit = IN_POUNDS[check.unit]
        return f"{float(value) / pounds:.4g} {unit}"
    return f"{float(value):.4g} {check.unit}".strip()
