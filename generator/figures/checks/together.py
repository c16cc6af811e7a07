"""Checks of the solid bodies: overlaps, the order of the work, key lines and nuts in their slots."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.assembled import causes, describe
from generator.bench.fasteners import fastener_name
from generator.bench.model import Bench, Joint
from generator.bench.role import Role
from generator.calculators.access import Access
from generator.calculators.bodies import Body
from generator.calculators.collisions import Clash
from generator.figures.checks.judged import Judged, Path, judged
from generator.figures.together import Together
from generator.spec.load import LoadedSpec
from generator.spec.lookup import slot_nut

#: So many overlaps are told one by one; a spec that is wrong at the root has hundreds.
MOST_TOLD = 30
#: A clash this near to two edges of a board lies in its corner (mm).
CORNER = 25.0
#: What bodies may overlap by (mm).
TOLERANCE = Fraction(1, 50)


def together_checks(bench: Bench, whole: Together) -> Iterator[Judged]:
    """Overlaps, the order, key lines and nuts."""
    loaded = bench.loaded
    goods = _Goods(bench)
    yield from _overlaps(bench, whole, goods)
    yield from _order(whole, goods)
    yield from _access(whole, goods)
    yield from _preload(loaded, whole)


class _Goods:
    """The cards that a body follows from, as key paths."""

    def __init__(self, bench: Bench) -> None:
        spec = bench.spec
        self._fasteners = {
            fastener_name(joint, bench.joinings[joint.fastener]): joint.fastener for joint in bench.joints
        }
        self._slot: Path = ("materials", spec.frame.material, "slot")
        self._bought: dict[str, Path] = {
            "nut": ("hardware", spec.frame.slot_nut),
            "slide": ("hardware", spec.drawers.slide),
            "tote": ("totes",),
        }

    def of(self, *names: str) -> tuple[Path, ...]:
        """The goods among these bodies; what is bought for a bar rests on its slot as well."""
        found: list[Path] = [("hardware", self._fasteners[name]) for name in names if name in self._fasteners]
        found += [self._bought[first] for name in names if (first := name.split(" ")[0]) in self._bought]
        return (*found, self._slot) if found else ()


def _overlaps(bench: Bench, whole: Together, goods: _Goods) -> Iterator[Judged]:
    told: dict[tuple[str, str], Clash] = {}
    for clash in whole.clashes:
        told.setdefault((clash.first.owner, clash.second.owner), clash)
    for clash in list(told.values())[:MOST_TOLD]:
        code, where = _judge_clash(clash)
        depth = Fraction(round(clash.depth * 1000), 1000)
        path = _path(bench, clash)
        rests_on = goods.of(clash.first.name, clash.second.name)
        yield judged(code, False, where, path, value=depth, limit=TOLERANCE, unit="mm", rests_on=rests_on)
    if len(told) > MOST_TOLD:
        rest = [
            name
            for clash in list(told.values())[MOST_TOLD:]
            for name in (clash.first.name, clash.second.name)
        ]
        where = f"{len(told) - MOST_TOLD} more pairs of parts"
        yield judged("overlap", False, where, (), rests_on=goods.of(*rest))
    if not told:
        yield judged("overlap", True, f"{len(whole.done.bodies)} bodies", ())


def _judge_clash(clash: Clash) -> tuple[str, str]:
    one, two = clash.first, clash.second
    where = f"{one.name} and {two.name}"
    if {one.kind, two.kind} <= {"screw", "clip"}:
        return "screws-meet", where
    if "nut" in (one.kind, two.kind):
        return "nut-clash", where
    board, other = (one, two) if one.kind == "board" else (two, one)
    if board.kind == "board" and other.kind in ("bar", "clip", "screw"):
        corner = _corner(board, clash)
        if corner:
            return "notch-missing", f"{board.name} at {corner}, {other.name}"
    return "overlap", where


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


def _order(whole: Together, goods: _Goods) -> Iterator[Judged]:
    path = ("frame", "joints")
    proof = whole.done.proof
    for blockage in causes(proof):
        # what lies in one place never comes apart
        rests_on = (*goods.of(blockage.placing.name, *blockage.culprits), ("overlap",), ("screws-meet",))
        yield judged("order-blocked", False, describe(blockage), path, rests_on=rests_on)
    if proof.ok:
        yield judged("order-blocked", True, f"{len(proof.ways)} motions", path)


def _access(whole: Together, goods: _Goods) -> Iterator[Judged]:
    bodies, path = whole.by_name, ("frame", "joints")
    failed = 0
    for name, (joint, found) in whole.keys.items():
        if not found.ok:
            failed += 1
            where = f"{name} in {joint.crossing}: {found.barred_by[0]}"
            code = _judge_key(joint, found, bodies)
            yield judged(code, False, where, path, rests_on=goods.of(name, found.barred_by[0]))
        elif found.culprit and bodies[found.culprit].kind == "plate":
            where = f"{name} in {joint.crossing}: {found.culprit}"
            yield judged("plate-over-access", False, where, ("base", "plate"))
    if not failed:
        yield judged("key-line-blocked", True, f"{len(whole.keys)} screws", path)


def _judge_key(joint: Joint, found: Access, bodies: dict[str, Body]) -> str:
    culprit = bodies[found.barred_by[0]]
    if culprit.name == joint.crossing:
        return "access-missing"
    by_kind = {"clip": "clips-back-to-back", "plate": "plate-over-access"}
    return by_kind.get(culprit.kind, "key-line-blocked")


def _preload(loaded: LoadedSpec, whole: Together) -> Iterator[Judged]:
    path = ("hardware",)
    if slot_nut(loaded.spec).entry == "roll-in":
        yield judged("nuts-preload", True, "the nuts roll in", path)
        return
    bars = dict.fromkeys(nut.bar.mark for nut, found in whole.nuts if found.lost_to)
    yield judged("nuts-preload", not bars, ", ".join(bars), path)
