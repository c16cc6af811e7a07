"""`compute`: from a solved bench to everything that a manual prints."""

from __future__ import annotations

from generator.bench.model import Bench
from generator.figures import layout as plan
from generator.figures import storage
from generator.figures.assembly import assembly
from generator.figures.assumed import assumed
from generator.figures.checks.judge import findings, judge
from generator.figures.cut_list import cut_sections
from generator.figures.cutting import cutting
from generator.figures.goods import goods_facts
from generator.figures.hardware import hardware
from generator.figures.mass import casters, mass
from generator.figures.model import Figures, JointRow, Joints, SpecFacts
from generator.figures.parts import part_rows
from generator.figures.purchases import purchases, total, unknown_packs
from generator.figures.setups import setups
from generator.figures.sticks import height_rod, sticks
from generator.figures.together import together
from generator.findings import Finding
from generator.spec.goods import EndClip, ThroughScrew
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


def compute(loaded: LoadedSpec, bench: Bench) -> tuple[Figures, tuple[Finding, ...]]:
    """Figures of a bench, and the findings of its checks with their places in the spec."""
    spec = loaded.spec
    rows = part_rows(spec, bench)
    fasteners = hardware(spec, bench)
    plans = cutting(spec, bench)
    shopping = purchases(spec, rows, fasteners, plans)
    weight = mass(spec, bench, rows, fasteners)
    wheels = casters(spec, bench, weight)
    whole = together(loaded, bench)
    judged = judge(loaded, bench, wheels, whole, plans)
    squares = plan.diagonals(bench)
    figures = Figures(
        spec=_facts(loaded),
        layout=plan.layout(bench),
        parts=rows,
        joints=_joint_counts(bench),
        joint_rows=_joint_rows(spec, bench),
        fits=storage.fits(spec, bench),
        openings=storage.openings(bench),
        drawers=storage.drawers(bench),
        strips=storage.strips(spec, bench),
        totes=storage.totes(bench),
        shelves=storage.shelves(bench),
        sticks=sticks(spec, bench),
        spacers=storage.spacers(bench),
        top=plan.top(spec, bench),
        relief=plan.relief(bench),
        hardware=fasteners,
        assembly=assembly(spec, bench, squares, rows, fasteners, whole),
        checks=tuple(each.check for each in judged),
        mass=weight,
        casters=wheels,
        diagonals=squares,
        purchases=shopping,
        cut_sections=cut_sections(spec, rows),
        cutting=plans,
        goods=goods_facts(spec, bench),
        assumed=assumed(loaded, bench),
        height_rod=height_rod(bench),
        setups=setups(spec, bench, rows, plans),
        purchase_total=total(shopping),
    )
    return figures, (*bench.findings, *findings(loaded, judged), *unknown_packs(loaded, fasteners))


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
        currency=spec.display.currency,
    )


def _joint_counts(bench: Bench) -> Joints:
    operations = [op.op for part in bench.parts for op in part.operations]
    return Joints(
        end_clips=sum(joint.kind == "end clip" for joint in bench.joints),
        through_screws=sum(joint.kind == "through screw" for joint in bench.joints),
        tapped_ends=operations.count("tap"),
        access_holes=operations.count("access hole"),
        reliefs=operations.count("relief"),
    )


def _joint_rows(spec: Spec, bench: Bench) -> tuple[JointRow, ...]:
    rows = []
    for joint in bench.joints:
        item = spec.hardware[joint.fastener]
        assert isinstance(item, EndClip | ThroughScrew)
        rows.append(
            JointRow(
                joint.member, joint.end, joint.crossing, joint.kind, item.screw.text, joint.at, joint.face
            )
        )
    return tuple(rows)
