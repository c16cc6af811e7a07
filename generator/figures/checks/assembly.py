"""Checks of the solid bodies: overlaps, the order of the work, key lines and nuts in their slots."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.assembly_proof import causes, describe, when_free
from generator.bench.fasteners import fastener_name
from generator.bench.fillings import FILLINGS
from generator.bench.joints.facts import Joining
from generator.bench.law import CHOICE, HOUSE, PLACED, WORK, Law
from generator.bench.model import Bench, Joint
from generator.bench.piece import MEMBERS
from generator.bench.role import Role
from generator.calculators.bodies import Body
from generator.calculators.collisions import Clash
from generator.codes import Code
from generator.figures.access_report import AccessReport
from generator.figures.checks.check_result import CheckResult, Path, check_result

#: This many overlaps are reported one by one; a spec that is wrong at the root has hundreds.
MOST_TOLD = 30
#: A clash this near to two edges of a board is in its corner (mm).
CORNER = 25.0
#: What bodies may overlap by (mm).
TOLERANCE = Fraction(1, 50)

OVERLAP = Law(
    Code.OVERLAP, "error", "No two parts overlap", "Two parts overlap",
    "Move or shorten one of the two.", "The second one does not fit.", PLACED,
    quantity="depth of the overlap",
)  # fmt: skip
NOTCH_MISSING = Law(
    Code.NOTCH_MISSING, "error", "Every corner that needs a notch has one",
    "Another part is where this corner goes", "Notch this corner.",
    "The panel stops before it reaches its groove.", HOUSE,
    quantity="depth of the overlap",
)  # fmt: skip
SCREWS_MEET = Law(
    Code.SCREWS_MEET, "error", "No two screws meet in a bar", "Two screws meet in one bar",
    "Join one of the two members in another way.", "The second screw stops on the first one and feels tight.",
    CHOICE,
    quantity="depth of the overlap",
)  # fmt: skip
NUT_CLASH = Law(
    Code.NUT_CLASH, "error", "Every nut fits in its slot", "A nut does not fit in its slot",
    "Move its bolt, or the joint at that place.", "The nut cannot reach its place, and the bolt misses it.", PLACED,
    quantity="depth of the overlap",
)  # fmt: skip
ORDER_BLOCKED = Law(
    Code.ORDER_BLOCKED, "error", "The bench can be put together",
    "The bench cannot be put together", "Choose joints that close in the direction in which the tongues go in.",
    Code.ORDER_BLOCKED.why,
    "joints, walls and places share in it: the finding names what blocks what",
)  # fmt: skip
KEY_LINE_BLOCKED = Law(
    Code.KEY_LINE_BLOCKED, "error", "A key reaches every screw at its step", "No key reaches this screw at its step",
    "Tighten this joint before you fit the part that blocks the key.",
    "Only friction would hold the joint.",
    "joints and places share in it: the finding names what bars the key",
)  # fmt: skip
ACCESS_MISSING = Law(
    Code.ACCESS_MISSING, "error", "Every joint has its holes",
    "A hole is missing, or in the wrong place or face",
    "Drill it at the joint's place, in the face that its key enters.",
    "Without the hole, you cannot tighten the joint.", HOUSE,
)  # fmt: skip
PLATE_OVER_ACCESS = Law(
    Code.PLATE_OVER_ACCESS, "warning", "No plate covers an access hole", "A plate covers an access hole",
    "Drill a hole for the key in the plate.",
    "When the joint works loose, the plate must come off to tighten it.", WORK,
)  # fmt: skip
NUTS_PRELOAD = Law(
    Code.NUTS_PRELOAD, "note", "No slot closes over nuts that are still to come",
    "Nuts must be in these slots before they close", "Follow the steps: they say how many, and before which part.",
    "For a forgotten nut you must take the frame apart again.", WORK,
)  # fmt: skip


def assembly_checks(bench: Bench, whole: AccessReport) -> Iterator[CheckResult]:
    """Overlaps, the order, key lines and nuts."""
    goods = _Goods(bench)
    yield from _overlaps(bench, whole, goods)
    yield from _order(whole, goods)
    yield from _access(whole, goods)
    yield from _preload(bench, whole)


class _Goods:
    """The cards that a body follows from, as key paths."""

    def __init__(self, bench: Bench) -> None:
        spec = bench.spec
        self._fasteners = {
            fastener_name(joint, bench.joinings[joint.fastener]): joint.fastener for joint in bench.joints
        }
        self._joinings = bench.joinings
        self._slot: Path = ("materials", spec.frame.material, "slot")
        self._bought: dict[str, Path] = {
            "nut": ("hardware", spec.frame.slot_nut),
            **{first: path for kind in FILLINGS for first, path in kind.body_goods(spec).items()},
        }

    def of(self, *names: str) -> tuple[Path, ...]:
        """The goods among these bodies; what is bought for a bar rests on its slot as well."""
        found: list[Path] = [("hardware", self._fasteners[name]) for name in names if name in self._fasteners]
        found += [self._bought[first] for name in names if (first := name.split(" ")[0]) in self._bought]
        return (*found, self._slot) if found else ()

    @property
    def free_of_the_bar(self) -> str:
        """Advice to take a fastener of the spec that does not cross the bar; nothing where there is none."""
        names = [f"`{name}`" for name, each in self._joinings.items() if not each.across]
        return f"Join one of the two members by {' or '.join(names)}." if names else ""

    def joining(self, name: str) -> Joining | None:
        """What a fastener does at its joint; None for other bodies."""
        return self._joinings[self._fasteners[name]] if name in self._fasteners else None


def _overlaps(bench: Bench, whole: AccessReport, goods: _Goods) -> Iterator[CheckResult]:
    by_pair: dict[tuple[str, str], Clash] = {}
    for clash in whole.clashes:
        by_pair.setdefault((clash.first.owner, clash.second.owner), clash)
    for clash in list(by_pair.values())[:MOST_TOLD]:
        law, where = _judge_clash(clash, goods)
        depth = Fraction(round(clash.depth * 1000), 1000)
        path = _path(bench, clash)
        rests_on = goods.of(clash.first.name, clash.second.name)
        advice = goods.free_of_the_bar if law is SCREWS_MEET else ""
        yield check_result(
            law, False, where, path, value=depth, limit=TOLERANCE, unit="mm", rests_on=rests_on, advice=advice
        )
    if len(by_pair) > MOST_TOLD:
        rest = [
            name
            for clash in list(by_pair.values())[MOST_TOLD:]
            for name in (clash.first.name, clash.second.name)
        ]
        where = f"{len(by_pair) - MOST_TOLD} more pairs of parts"
        yield check_result(OVERLAP, False, where, (), rests_on=goods.of(*rest))
    if not by_pair:
        yield check_result(OVERLAP, True, f"{len(whole.done.bodies)} bodies", ())


def _judge_clash(clash: Clash, goods: _Goods) -> tuple[Law, str]:
    one, two = clash.first, clash.second
    where = f"{one.name} and {two.name}"
    if goods.joining(one.name) and goods.joining(two.name):
        return SCREWS_MEET, where
    if "nut" in (one.kind, two.kind):
        return NUT_CLASH, where
    board, other = (one, two) if one.kind == "board" else (two, one)
    if board.kind == "board" and (other.kind in MEMBERS or goods.joining(other.name)):
        corner = _corner(board, clash)
        if corner:
            return NOTCH_MISSING, f"{board.name} at {corner}, {other.name}"
    return OVERLAP, where


def _corner(board: Body, clash: Clash) -> str:
    names = (("left", "right"), ("front", "rear"), ("bottom", "top"))
    bounds = board.bounds
    sizes = [bounds[axis + 3] - bounds[axis] for axis in range(3)]
    thin = sizes.index(min(sizes))
    words = []
    for axis in range(3):
        if axis == thin:
            continue
        middle = (clash.at[axis] + clash.at[axis + 3]) / 2
        if middle - bounds[axis] < CORNER:
            words.append(names[axis][0])
        elif bounds[axis + 3] - middle < CORNER:
            words.append(names[axis][1])
    return " ".join(words) if len(words) == 2 else ""


def _path(bench: Bench, clash: Clash) -> tuple[str | int, ...]:
    role_of = {part.mark: part.role for part in bench.parts}
    roles = {role_of.get(clash.first.owner), role_of.get(clash.second.owner)}
    if roles & {Role.EXTRA_MEMBER, Role.EXTRA_PANEL}:
        return ("extra",)
    if roles & {Role.DIVIDER, Role.END_PANEL, Role.SPINE_PANEL, Role.BACK_PANEL}:
        return ("panels",)
    return ("tray",) if roles & {Role.TRAY, Role.TRAY_TRIM} else ("zones",)


def _order(whole: AccessReport, goods: _Goods) -> Iterator[CheckResult]:
    path = ("frame", "joints")
    proof = whole.done.proof
    for blockage in causes(proof):
        # what is in one place never comes apart
        rests_on = (
            *goods.of(blockage.motion.name, *blockage.culprits),
            (OVERLAP.code,),
            (SCREWS_MEET.code,),
        )
        advice = f"{when_free(blockage)} {ORDER_BLOCKED.advice}"
        yield check_result(ORDER_BLOCKED, False, describe(blockage), path, rests_on=rests_on, advice=advice)
    if proof.ok:
        yield check_result(ORDER_BLOCKED, True, f"{len(proof.ways)} motions", path)


def _access(whole: AccessReport, goods: _Goods) -> Iterator[CheckResult]:
    bodies, path = whole.by_name, ("frame", "joints")
    failed = 0
    for name, (joint, found) in whole.keys.items():
        if not found.ok:
            failed += 1
            where = f"{name} in {joint.crossing}: {found.barred_by[0]}"
            law = _judge_key(joint, bodies[found.barred_by[0]], goods)
            yield check_result(law, False, where, path, rests_on=goods.of(name, found.barred_by[0]))
        elif found.culprit and bodies[found.culprit].kind == "plate":
            where = f"{name} in {joint.crossing}: {found.culprit}"
            yield check_result(PLATE_OVER_ACCESS, False, where, ("base", "plate"))
    for bolt, found in whole.bolts:
        if not found.ok:
            failed += 1
            where = f"a bolt of {bolt.name}: {found.barred_by[0]}"
            yield check_result(KEY_LINE_BLOCKED, False, where, bolt.path)
    if not failed:
        count = len(whole.keys) + len(whole.bolts)
        yield check_result(KEY_LINE_BLOCKED, True, f"{count} screws", path)


def _judge_key(joint: Joint, culprit: Body, goods: _Goods) -> Law:
    if culprit.name == joint.crossing:
        return ACCESS_MISSING
    if culprit.kind == "plate":
        return PLATE_OVER_ACCESS
    other = goods.joining(culprit.name)
    return (other and other.face_to_face) or KEY_LINE_BLOCKED


def _preload(bench: Bench, whole: AccessReport) -> Iterator[CheckResult]:
    path = ("hardware",)
    if not whole.nuts:
        return
    if bench.goods.slot_nut.entry == "roll-in":
        yield check_result(NUTS_PRELOAD, True, "the nuts roll in", path)
        return
    bars = dict.fromkeys(nut.bar.mark for nut, found in whole.nuts if found.lost_to)
    yield check_result(NUTS_PRELOAD, not bars, ", ".join(bars), path)
