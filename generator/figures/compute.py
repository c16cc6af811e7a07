"""`compute`: from a solved bench to everything that a manual prints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from generator.bench.frames import frame_kind
from generator.bench.joints import JOINTS
from generator.bench.model import Bench
from generator.bench.solve import solve
from generator.figures import balance, storage
from generator.figures import layout as plan
from generator.figures.access_report import AccessReport, access_report
from generator.figures.assembly import assembly
from generator.figures.assumed import assumed
from generator.figures.bracing_advice import with_advice
from generator.figures.checks.check_result import CheckResult
from generator.figures.checks.judge import findings, judge
from generator.figures.cut_list import cut_sections
from generator.figures.cutting import cutting
from generator.figures.days import days
from generator.figures.edge_bands import banded_rows
from generator.figures.finish import finishes
from generator.figures.fit_ranges import fit_ranges
from generator.figures.glued import glued_rows
from generator.figures.glued_boards import glued_boards
from generator.figures.goods import goods_facts
from generator.figures.handling import handling, work_height_of
from generator.figures.hardware import hardware
from generator.figures.joinery import glue_ups, joinery
from generator.figures.joins import joins
from generator.figures.mass import mass, stand_facts, stands
from generator.figures.model import Figures, Standing
from generator.figures.parts import OPPOSITE, part_rows
from generator.figures.pull_outs import pull_outs
from generator.figures.purchases import purchases, total
from generator.figures.record import build_record, record_findings
from generator.figures.rows.assembly import Assembly
from generator.figures.rows.hardware import HardwareRow, JointRow, Joints
from generator.figures.rows.masses import Mass
from generator.figures.rows.parts import PartRow
from generator.figures.rows.record import BuildRecord
from generator.figures.rows.shop import Shop
from generator.figures.rows.spec import PastIssue, SourceBench, SpecFacts
from generator.figures.rows.strength import Strength
from generator.figures.sag import sags
from generator.figures.seasons import seasons
from generator.figures.setups import setups
from generator.figures.shop import shop
from generator.figures.stability import stability, with_one_in_the_air
from generator.figures.sticks import height_rod, sticks
from generator.figures.sway import sway
from generator.figures.unused import unused
from generator.figures.working_loads import working_loads
from generator.findings import Finding
from generator.spec.load import LoadedSpec


def figures_of(loaded: LoadedSpec) -> tuple[Figures, tuple[Finding, ...]]:
    """From a spec that was read to its figures and findings. Raises SpecError when no bench follows from it."""
    return compute(solve(loaded))


def compute(bench: Bench) -> tuple[Figures, tuple[Finding, ...]]:
    """Figures of a bench, and the findings of its checks with their places in the spec."""
    loaded, rows, fasteners, plans = bench.loaded, part_rows(bench), hardware(bench), cutting(bench)
    shopping, weight = purchases(bench, rows, fasteners, plans), mass(bench, rows, fasteners)
    masses, squares = balance.masses(bench, rows, fasteners), plan.diagonals(bench)
    carried, whole = stands(bench, weight), access_report(bench.planned or bench)
    on = with_one_in_the_air(bench, carried, masses, weight.loaded)
    work = assembly(bench, squares, rows, fasteners, whole)
    strength = _strength(bench, rows, fasteners, work, weight, masses)
    judged, built = judge(bench, on, whole, strength, plans, masses, shopping), build_record(bench)
    figures = Figures(
        spec=_facts(loaded),
        layout=plan.layout(bench),
        parts=rows,
        joints=_joint_counts(bench),
        joint_rows=_joint_rows(bench),
        fits=storage.fits(bench),
        openings=storage.openings(bench),
        drawers=storage.drawers(bench),
        strips=storage.strips(bench),
        totes=storage.totes(bench),
        fillings=storage.shown(bench),
        shelves=storage.shelves(bench),
        sticks=sticks(bench),
        spacers=storage.spacers(bench),
        top=plan.top(bench),
        relief=plan.relief(bench),
        hardware=fasteners,
        assembly=work,
        checks=tuple(each.check for each in judged),
        mass=weight,
        casters=None if bench.stand.inward is None else on,
        stand=Standing(bench.stand, on),
        diagonals=squares,
        purchases=shopping,
        cut_sections=cut_sections(bench, rows),
        cutting=plans,
        goods=goods_facts(bench),
        assumed=assumed(bench),
        height_rod=height_rod(bench),
        setups=setups(bench, rows, plans),
        purchase_total=total(shopping),
        record=built,
        sags=strength.sags,
        stability=strength.stability,
        balance=masses.balance(),
        handling=strength.handling,
        work_height=strength.work_height,
        fit_ranges=fit_ranges(bench),
        seasons=seasons(bench),
        pulls=storage.pulls(bench),
        doors=storage.doors(bench),
        pull_outs=pull_outs(bench),
        joins=joins(bench),
        stands=stand_facts(bench, on, weight),
        sway=strength.sway,
        loads=strength.loads,
        **_in_wood(bench, rows, whole, work, shop(bench, total(shopping).cost)),
    )
    return figures, (*bench.findings, *_found(bench, judged, built, fasteners))


def _found(
    bench: Bench, judged: tuple[CheckResult, ...], built: BuildRecord, goods: tuple[HardwareRow, ...]
) -> Iterator[Finding]:
    """What the checks, the record of the build and unused names have to say."""
    loaded = bench.loaded
    yield from (*findings(loaded, judged), *record_findings(loaded, built), *unused(loaded, goods))


def _in_wood(
    bench: Bench, rows: tuple[PartRow, ...], whole: AccessReport, work: Assembly, machines: Shop
) -> dict[str, Any]:
    """What is cut, glued and coated in wood, by the names of the sections."""
    ups = glue_ups(bench)
    return {
        "shop": machines,
        "finish": finishes(bench),
        "edges": banded_rows(bench, rows),
        "joinery": joinery(bench),
        "glue_ups": ups,
        "glued": glued_rows(bench, whole.done.bodies),
        "glued_boards": glued_boards(bench),
        "days": days(work.steps, ups, machines),
        "frame_tools": frame_kind(bench.spec).tools(bench),
    }


def _strength(
    bench: Bench,
    rows: tuple[PartRow, ...],
    goods: tuple[HardwareRow, ...],
    work: Assembly,
    weight: Mass,
    masses: balance.Masses,
) -> Strength:
    faces = stability(bench, masses)
    return Strength(
        sags=sags(bench, weight),
        stability=faces,
        sway=with_advice(bench, sway(bench)),
        handling=handling(bench, rows, goods, work, weight),
        work_height=work_height_of(bench.spec),
        loads=working_loads(bench, masses, faces),
    )


def _facts(loaded: LoadedSpec) -> SpecFacts:
    spec = loaded.spec
    return SpecFacts(
        title=spec.title,
        revision=spec.revision.number,
        checksum=loaded.checksum,
        units=spec.units,
        designer=spec.designer,
        date=spec.revision.date,
        reason=spec.revision.reason,
        licence=spec.licence,
        inch_fraction=spec.display.inch_fraction,
        history=tuple(PastIssue(past.number, past.date, past.reason, past.checksum) for past in spec.history),
        currency=spec.display.currency,
        budget=None if spec.budget is None else float(spec.budget),
        adapted_from=tuple(SourceBench(**each.model_dump()) for each in spec.adapted_from),
    )


def _joint_counts(bench: Bench) -> Joints:
    operations = [op.op for part in bench.parts for op in part.operations]
    counts = Counter(joint.kind for joint in bench.joints)
    return Joints(
        end_clips=counts["end clip"],
        through_screws=counts["through screw"],
        tapped_ends=operations.count("tap"),
        access_holes=operations.count("access hole"),
        reliefs=operations.count("relief"),
        kinds=tuple((counts[kind.kind], kind.many) for kind in JOINTS if counts[kind.kind]),
    )


def _joint_rows(bench: Bench) -> tuple[JointRow, ...]:
    screws = {name: each.screw.text if each.screw else "" for name, each in bench.joinings.items()}
    # no key enters a joint that is cut and glued: its face is the one that the mortise or notch is cut in
    cut = {name for name, each in bench.joinings.items() if each.glue is not None}
    return tuple(
        JointRow(
            joint.member, joint.end, joint.crossing, joint.kind, screws[joint.fastener], joint.at,
            OPPOSITE[joint.face] if joint.fastener in cut else joint.face,
        )
        for joint in bench.joints
    )  # fmt: skip
