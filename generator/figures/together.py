"""The bench as it goes together: bodies, proved order, and until when each key and each nut gets to its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.bench.assembled import Assembled, assembled, causes, describe
from generator.bench.bar_bodies import fastener_name, key_block
from generator.bench.model import Bench, Joint
from generator.bench.slot_nuts import SlotNut, slot_nuts
from generator.calculators.access import Access, Growth, access, key_line, last_chance
from generator.calculators.bodies import Body
from generator.calculators.collisions import Clash, clashes
from generator.figures.checks.judged import Judged
from generator.figures.model import Check
from generator.spec.load import LoadedSpec
from generator.spec.lookup import fastener, profile, slot_nut
from generator.spec.schema import Spec

#: So many overlaps are told one by one; a spec that is wrong at the root has hundreds.
MOST_TOLD = 30
#: A clash this near to two edges of a board lies in its corner (mm).
CORNER = 25.0

Code = Literal["overlap", "notch-missing", "screws-meet", "nut-clash"]


@dataclass(frozen=True)
class Together:
    """`keys` by the fastener's name; `nuts` with their last chance."""

    done: Assembled
    growth: Growth
    clashes: tuple[Clash, ...]
    keys: dict[str, tuple[Joint, Access]]
    nuts: tuple[tuple[SlotNut, Access], ...]

    @property
    def placed_by(self) -> dict[str, Body]:
        """All bodies by name."""
        return {body.name: body for body in self.done.bodies}


def together(loaded: LoadedSpec, bench: Bench) -> Together:
    """Put the bench together and look at every key and nut on the way."""
    spec, done = loaded.spec, assembled(loaded, bench)
    growth = Growth(done.proof.order)
    nuts = slot_nuts(spec, bench)
    return Together(
        done=done,
        growth=growth,
        clashes=clashes((*done.bodies, *(nut.body for nut in nuts))),
        keys=dict(_keys(spec, bench, growth)),
        nuts=tuple((nut, last_chance(growth, nut.body, nut.bar.mark, nut.bar.along)) for nut in nuts),
    )


def _keys(spec: Spec, bench: Bench, growth: Growth) -> Iterator[tuple[str, tuple[Joint, Access]]]:
    by_mark = {part.mark: part for part in bench.parts}
    for joint in bench.joints:
        member, crossing = by_mark.get(joint.member), by_mark.get(joint.crossing)
        if member is None or crossing is None:
            continue
        line = key_block(joint, member, crossing, fastener(spec, joint.fastener), profile(spec))
        name = fastener_name(joint)
        found = access(growth, name, (joint.member, joint.crossing), key_line(line))
        yield name, (joint, found)


def judge_together(loaded: LoadedSpec, bench: Bench, whole: Together) -> tuple[Judged, ...]:
    """Checks of overlaps, of the order, of key lines and of nuts."""
    return (*_overlaps(bench, whole), *_order(whole), *_access(bench, whole), *_preload(loaded, whole))


def _fails(
    code: str,
    severity: str,
    title: str,
    where: str,
    advice: str,
    value: Fraction | None = None,
    limit: Fraction | None = None,
) -> Check:
    return Check(code, severity, title, value, limit, "" if value is None else "mm", False, where, advice)


def _passes(code: str, severity: str, title: str, where: str) -> Judged:
    return Judged(Check(code, severity, title, None, None, "", True, where, ""), ())


def _overlaps(bench: Bench, whole: Together) -> Iterator[Judged]:
    title = "No two parts are in one place"
    told: dict[tuple[str, str], Clash] = {}
    for clash in whole.clashes:
        told.setdefault((clash.first.owner, clash.second.owner), clash)
    for clash in list(told.values())[:MOST_TOLD]:
        code, where, advice = _judge_clash(clash)
        yield Judged(
            _fails(
                code,
                "error",
                title,
                where,
                advice,
                Fraction(round(clash.depth * 1000), 1000),
                Fraction(1, 50),
            ),
            _path(bench, clash),
        )
    if len(told) > MOST_TOLD:
        where = f"{len(told) - MOST_TOLD} more pairs of parts"
        yield Judged(_fails("overlap", "error", title, where, "Mend those above first."), ())
    if not told:
        yield _passes("overlap", "error", title, f"{len(whole.done.bodies)} bodies")


def _judge_clash(clash: Clash) -> tuple[Code, str, str]:
    one, two = clash.first, clash.second
    where = f"{one.name} and {two.name}"
    if {one.kind, two.kind} <= {"screw", "clip"}:
        return "screws-meet", where, "Two screws meet in one bar: join one of the two members by an end clip."
    if "nut" in (one.kind, two.kind):
        return "nut-clash", where, "The nut has no room in its slot there: move its bolt or the joint."
    board, other = (one, two) if one.kind == "board" else (two, one)
    if board.kind == "board" and other.kind in ("bar", "clip", "screw"):
        corner = _corner(board, clash)
        if corner:
            return "notch-missing", f"{board.name} at {corner}, {other.name}", "Notch this corner."
    return "overlap", where, "Move or shorten one of the two."


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
    groups = {part.mark: part.group for part in bench.parts}
    group = {groups.get(clash.first.owner, ""), groups.get(clash.second.owner, "")}
    if group & {"extra member", "extra panel"}:
        return ("extra",)
    if group & {"divider", "end panel", "spine panel", "back panel"}:
        return ("panels",)
    return ("tray",) if group & {"tray", "tray trim"} else ("zones",)


def _order(whole: Together) -> Iterator[Judged]:
    proof, title = whole.done.proof, "The bench can be put together"
    for blockage in causes(proof):
        check = _fails(
            "order-blocked", "error", title, describe(blockage), "Choose joints that close in this way."
        )
        yield Judged(check, ("frame", "joints"))
    if proof.ok:
        yield _passes("order-blocked", "error", title, f"{len(proof.ways)} motions, each proved backwards")


def _access(bench: Bench, whole: Together) -> Iterator[Judged]:
    title, kinds = "A key reaches every screw at its step", whole.placed_by
    path = ("frame", "joints")
    failed = 0
    for name, (joint, found) in whole.keys.items():
        if not found.ok:
            failed += 1
            code, advice = _judge_key(joint, found, kinds)
            where = f"{name} in {joint.crossing}: {found.barred_by[0]}"
            yield Judged(_fails(code, "error", title, where, advice), path)
        elif found.culprit and kinds[found.culprit].kind == "plate":
            where = f"{name} in {joint.crossing}: {found.culprit}"
            advice = "Drill a port in the plate, or the joint cannot be tightened again."
            yield Judged(_fails("plate-over-access", "warning", title, where, advice), ("base", "plate"))
    if not failed:
        yield _passes("key-line-blocked", "error", title, f"{len(whole.keys)} screws")


def _judge_key(joint: Joint, found: Access, bodies: dict[str, Body]) -> tuple[str, str]:
    culprit = bodies[found.barred_by[0]]
    if culprit.name == joint.crossing:
        what = "access hole" if joint.kind == "end clip" else "through hole"
        return (
            "access-missing",
            f"Drill the {what} {float(joint.at):g} mm from the datum end of {joint.crossing}.",
        )
    if culprit.kind == "clip":
        return (
            "clips-back-to-back",
            "Two end clips face each other: join one of the members by a through-screw.",
        )
    if culprit.kind == "plate":
        return "plate-over-access", "Fit the plate later, or drill a port in it."
    return "key-line-blocked", "Tighten this joint before what bars the key goes in."


def _preload(loaded: LoadedSpec, whole: Together) -> Iterator[Judged]:
    title = "No nut has to be in its slot before the slot closes"
    if slot_nut(loaded.spec).entry == "roll-in":
        yield _passes("nuts-preload", "note", title, "the nuts roll in")
        return
    bars = dict.fromkeys(nut.bar.mark for nut, found in whole.nuts if found.lost_to)
    if bars:
        advice = "The steps say how many, and when it is the last chance."
        yield Judged(_fails("nuts-preload", "note", title, ", ".join(bars), advice), ("hardware",))
