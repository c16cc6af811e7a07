"""Check of glued laps: what a push at the top twists each of them by, against what its glued faces bear."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.law import CHOICE, Law
from generator.bench.model import Bench
from generator.bench.piece import GLUED_FACES, Part
from generator.calculators import wood_joints as rules
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.rows.strength import DIRECTIONS
from generator.figures.stability import PER_METRE
from generator.figures.sway import joint_moments
from generator.provenance import inexact

LAP_MOMENT = Law(
    Code.LAP_MOMENT, "warning", "The glue of laps and bridles bears a push at the top with a margin of three",
    "A push at the top twists a glued lap or bridle too hard",
    "Take mortises and tenons, higher rails, or thicker posts. Or fix the bench to the building.",
    "Glue that is twisted again and again opens, and the corner is loose.", CHOICE,
    quantity="moment that the joint bears",
)  # fmt: skip


def lap_checks(bench: Bench) -> Iterator[CheckResult]:
    """Of each direction the lap in a post that is nearest to its limit; nothing where glued faces alone hold no joint.

    A stub in a lying timber is left out: what is above presses its post's shoulders on that timber.
    """
    by_mark = {part.mark: part for part in bench.parts}
    in_posts = {(joint.member, joint.end) for joint in bench.joints if by_mark[joint.crossing].along == "z"}
    density = inexact(bench.goods.members.density)
    for way, words in DIRECTIONS.items():
        found = [
            (moment / PER_METRE, bears / PER_METRE / rules.LAP_SAFETY, f"{joint.member} {joint.end}, {words}")
            for joint, moment in joint_moments(bench, way)
            if (joint.member, joint.end) in in_posts
            and (bears := _bears(by_mark[joint.member], joint.end, density))
        ]
        if found:
            moment, limit, where = max(found, key=lambda each: each[0] / each[1])
            yield check_result(
                LAP_MOMENT, moment <= limit, where, ("frame", "joints", "default"),
                value=moment, limit=limit, unit="N m",
            )  # fmt: skip


def _bears(member: Part, end: str, density: float) -> float:
    """Moment (N mm) of the glued faces at an end of a member; 0 where there are none."""
    return sum(
        GLUED_FACES[act.op]
        * rules.lap_moment(
            one=float(max(act.size)), other=float(act.depth), shear=rules.rolling_shear(density=density)
        )
        for act in member.operations
        if act.op in GLUED_FACES and act.face == end and isinstance(act.size, tuple) and act.depth is not None
    )
