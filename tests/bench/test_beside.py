"""Benches that are bolted together, placed side by side by hand and looked at by another geometry library.

Where the other bench is follows here from how the two stand on the floor, never from what the tool says of it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

import manifold3d as m3
import pytest

from generator.bench.beside import HOLE
from generator.bench.fillings.joins import JoinFilling
from generator.bench.model import Bench, Part
from generator.bench.solids import solid_bodies
from generator.bench.solve import solve
from generator.calculators.joining import joining_bolt
from generator.findings import SpecError
from generator.spec.load import read_spec, read_spec_file
from generator.spec.samples import sample_text
from tests.bench.benches import changed, codes
from tests.effort import quick_or
from tests.solid_models import cube

JOINED = Path(__file__).parents[1] / "data" / "joined"
AXES = "xyz"
#: Overlaps below this (mm³) are rounding.
NOTHING = 1.0

Place = Callable[[m3.Manifold], m3.Manifold]


@cache
def joined(name: str) -> Bench:
    return solve(read_spec_file(JOINED / f"{name}.yml"))


@cache
def row(name: str, joins: str) -> Bench:
    return solve(read_spec(sample_text(name) + f"\njoin: {joins}\n", f"{name}.yml"))


@dataclass(frozen=True)
class Joint:
    """Two benches at their joint: the other one is placed by hand."""

    one: Bench
    two: Bench
    side: str
    other: str
    place: Place

    @property
    def near(self):
        return next(each for each in self.one.neighbours if each.join.side == self.side)

    @property
    def far(self):
        return next(each for each in self.two.neighbours if each.join.side == self.other)


def beside(one: Bench, two: Bench, apart: float) -> Place:
    """At the right end, both fronts in line, both on one floor."""
    return lambda solid: solid.translate((float(one.layout.length) + apart, 0, _rise(one, two)))


def behind(one: Bench, two: Bench, at: float, apart: float) -> Place:
    """The right end of the other at the rear of this one: its front looks to the left, it runs away to the rear."""
    deep = float(one.layout.depth) + apart + float(two.layout.length)
    # a quarter turn to the right: what was right is now in front, what was in front is left
    return lambda solid: solid.rotate((0, 0, -90)).translate((at, deep, _rise(one, two)))


def back_to_back(one: Bench, two: Bench, apart: float) -> Place:
    """Rear to rear, the other turned half round."""
    return lambda solid: solid.rotate((0, 0, 180)).translate(
        (float(one.layout.length), float(one.layout.depth + two.layout.depth) + apart, _rise(one, two))
    )


def _rise(one: Bench, two: Bench) -> float:
    return float(two.layout.levels.floor_to_frame - one.layout.levels.floor_to_frame)


@cache
def joint_of(name: str) -> Joint:
    long, short, wing = (joined(each) for each in ("long", "short", "wing"))
    if name == "row":
        # tops reach out by 20 and by 30
        return Joint(long, short, "right", "left", beside(long, short, 50))
    if name == "an L of bars and timber":
        # a gap of 5 between bare edges
        return Joint(long, wing, "rear", "right", behind(long, wing, 75, 5))
    if name == "back to back":
        # panel brackets of 4 mm, a washer of 1.6 and a head of 8 mm are behind each rear
        wall = row("wall-bench", "[{side: rear}]")
        return Joint(wall, wall, "rear", "rear", back_to_back(wall, wall, 2 * 13.6))
    same = row(name, "[{side: right}, {side: left}]")
    return Joint(same, same, "right", "left", beside(same, same, 0))


NAMES = quick_or(("row", "an L of bars and timber"), ("back to back", "lumber", "cart"))


@pytest.fixture(params=NAMES)
def joint(request: pytest.FixtureRequest) -> Joint:
    return joint_of(request.param)


def outline(bench: Bench) -> list[tuple[str, m3.Manifold]]:
    """Each thing of a bench; of bars and boards all, with what is cut into them."""
    return [
        (body.name, m3.Manifold.batch_boolean([cube(b[:3], b[3:]) for b in body.blocks], m3.OpType.Add))
        for body in solid_bodies(bench)
    ]


def rod(at: tuple[float, ...], axis: str, low: float, high: float, size: float) -> m3.Manifold:
    """A round rod of a diameter along an axis, from `low` to `high` beyond the point."""
    index = AXES.index(axis)
    turn = {"x": (0, 90, 0), "y": (-90, 0, 0)}[axis]
    spot = list(at)
    spot[index] += low
    return m3.Manifold.cylinder(high - low, size / 2, circular_segments=64).rotate(turn).translate(spot)


def normal(side: str) -> tuple[str, int]:
    return {"right": ("x", 1), "left": ("x", -1), "rear": ("y", 1), "front": ("y", -1)}[side]


def holes(bench: Bench, side: str) -> dict[str, list[m3.Manifold]]:
    """A thin rod in each joining hole that a member's part sheet shows at a side, by its mark."""
    found: dict[str, list[m3.Manifold]] = {}
    for part in bench.parts:
        for op in part.operations:
            if op.op == HOLE and op.face == side:
                found.setdefault(part.mark, []).append(_in_hole(part, op, side))
    return found


def _in_hole(part: Part, op, side: str) -> m3.Manifold:
    axis, out = normal(side)
    third = next(each for each in AXES if each not in (axis, part.along))
    spot = {
        part.along: part.box.span(part.along).low + op.at[0],
        third: part.box.span(third).low + op.at[1],
        axis: part.box.span(axis).high if out > 0 else part.box.span(axis).low,
    }
    at = tuple(float(spot[each]) for each in AXES)
    return rod(at, axis, 0, 1, 0.2)


def test_both_benches_stand_together_and_nothing_overlaps(joint: Joint) -> None:
    mine = outline(joint.one)
    yours = [(name, joint.place(solid)) for name, solid in outline(joint.two)]
    meets = [
        (one, two)
        for one, solid in mine
        for two, other in yours
        if _near(solid, other) and (solid ^ other).volume() > NOTHING
    ]
    assert meets == []


def _near(one: m3.Manifold, two: m3.Manifold) -> bool:
    a, b = one.bounding_box(), two.bounding_box()
    return all(min(a[i + 3], b[i + 3]) - max(a[i], b[i]) > 0 for i in range(3))


def test_the_holes_of_both_part_sheets_face_each_other(joint: Joint) -> None:
    mine, yours = holes(joint.one, joint.side), holes(joint.two, joint.other)
    assert sum(map(len, mine.values())) == sum(map(len, yours.values())) == joint.near.join.bolts
    index = AXES.index(normal(joint.side)[0])

    def spots(rods: list[m3.Manifold]) -> list[tuple[float, ...]]:
        middles = (
            [(b[i] + b[i + 3]) / 2 for i in range(3) if i != index] for b in (r.bounding_box() for r in rods)
        )
        return sorted(tuple(round(value, 3) for value in each) for each in middles)

    mine_all = spots([each for rods in mine.values() for each in rods])
    placed = [joint.place(each) for rods in yours.values() for each in rods]
    assert mine_all == spots(placed)


def test_each_bolt_goes_through_two_members_and_meets_nothing_else(joint: Joint) -> None:
    """Shank in its holes; head, nut and washers clear of all that is there, drawers shut; both members drilled."""
    axis, out = normal(joint.side)
    mine = outline(joint.one)
    yours = [(name, joint.place(solid)) for name, solid in outline(joint.two)]
    thick = {part.mark: float(part.box.span(axis).size) for part in joint.one.parts}
    diameter = float(joint.near.card.washer[0])
    assert float(joint.near.hole) - 2 in (6, 8, 10)
    for bolt in joint.near.bolts:
        at = tuple(map(float, bolt.at))
        inside = thick[bolt.member]
        grip = float(bolt.grip)
        low, high = (-inside, grip - inside) if out > 0 else (inside - grip, inside)
        shank = rod(at, axis, low - 20, high + 20, float(joint.near.hole) - 2.01)
        hits = [name for name, solid in (*mine, *yours) if (shank ^ solid).volume() > NOTHING]
        assert hits == [], (bolt.member, hits)
        wide = rod(at, axis, low, high, float(joint.near.hole) + 3)
        through = {name for name, solid in mine if (wide ^ solid).volume() > NOTHING}
        across = {name for name, solid in yours if (wide ^ solid).volume() > NOTHING}
        assert through == {bolt.member} and across == {bolt.facing}
        end = float(bolt.size.end)
        for start, stop in ((low - end, low), (high, high + end)):
            washer = rod(at, axis, start, stop, diameter)
            hits = [name for name, solid in (*mine, *yours) if (washer ^ solid).volume() > NOTHING]
            assert hits == [], (bolt.member, hits)


def test_bolts_are_bought_once_and_in_the_length_that_they_need(joint: Joint) -> None:
    bought = [
        sum(
            need.count
            for need in JoinFilling().needs(bench)
            if need.kind == "joining bolt" and side in need.use
        )
        for bench, side in ((joint.one, joint.side), (joint.two, joint.other))
    ]
    if joint.one is joint.two and joint.side == joint.other:
        bought = bought[:1]
    assert sorted(bought)[-1] == joint.near.join.bolts and sum(bought) == joint.near.join.bolts
    for bolt in joint.near.bolts:
        washers = 2 * float(joint.near.card.washer[1])
        nut = 0.8 * (float(joint.near.hole) - 2)  # ISO 4032: a little over 0.8 diameters
        assert bolt.size.length is not None
        assert 0 < float(bolt.size.length - bolt.grip) - washers - nut < 25


def test_a_bolt_is_the_next_on_the_shelf() -> None:
    """Worked by hand: 80 + 2 × 2 + 0.9 × 8 + 2 × 1.25 = 93.7, and 95 is the next of ISO 888."""
    size = joining_bolt(thread="M8", grip=Fraction(80), washer=Fraction(2))
    assert (float(size.shortest), size.length, size.end) == (93.7, 95, 13)


def test_what_no_joint_can_be_made_of_is_refused() -> None:
    text = sample_text("cart")
    assert codes(f"{text}\njoin: [{{side: left}}, {{side: left}}]\n") == ["join-twice"]
    assert codes(f"{text}\njoin: [{{side: left, bolts: 5}}]\n") == ["not-a-choice"]
    assert codes(f"{text}\njoin: [{{side: left, bolt: none}}]\n") == ["unknown-name"]


@pytest.mark.parametrize("name", ["gone.yml", "../long.yml", "long.txt", "C:long.yml"])
def test_a_file_that_is_not_there_is_told_at_its_key(name: str, tmp_path: Path) -> None:
    spec = tmp_path / "short.yml"
    text = (JOINED / "short.yml").read_text(encoding="utf-8")
    spec.write_text(changed(text, ("to: long.yml", f"to: '{name}'")), encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        read_spec_file(spec)
    (fault,) = caught.value.findings
    assert fault.where is not None and fault.where.path == "join[0].to"


def test_a_fault_of_the_other_spec_is_told_in_its_own_place(tmp_path: Path) -> None:
    for name in ("long", "short", "wing"):
        text = (JOINED / f"{name}.yml").read_text(encoding="utf-8")
        text = text.replace("length: 1600", "length: nothing")
        (tmp_path / f"{name}.yml").write_text(text, encoding="utf-8")
    with pytest.raises(SpecError) as caught:
        read_spec_file(tmp_path / "short.yml")
    assert {(each.code, each.where.file) for each in caught.value.findings if each.where} == {
        ("bad-length", "long.yml")
    }


CHANGES = (
    ("short", ("bolts: 6", "bolts: 4"), "join-agrees", "long"),
    ("short", ("height: 900", "height: 902"), "join-height", "short"),
    ("short", ("join: [{to: long.yml, side: left, bolts: 6}]", ""), "join-agrees", "long"),
    ("short", ("bolts: 6}]", "bolts: 6}]\nroom: {left: 500}"), "join-floor", "short"),
    ("short", ("join: [", "base: {casters: caster}\njoin: ["), "join-rolls", "short"),
    ("short", ("left: 30", "left: 300"), "join-length", "short"),
    ("long", ("at: 75", "at: 1480"), "join-bolts", "wing"),
    ("long", ("at: 75", "at: 200"), "join-spread", "wing"),
)
#: Codes of laws that these changes and tests/figures/test_joins.py provoke, for the test of all laws.
CODES_JOINED = {each[2] for each in CHANGES} | {"join-opens", "join-corner", "join-swivel", "join-drag"}


@pytest.mark.parametrize(("name", "change", "code", "seen"), CHANGES, ids=[each[2] for each in CHANGES])
def test_what_is_wrong_at_a_joint_is_told(
    name: str, change: tuple[str, str], code: str, seen: str, tmp_path: Path
) -> None:
    for each in ("long", "short", "wing"):
        text = (JOINED / f"{each}.yml").read_text(encoding="utf-8")
        if each == name:
            if "casters" in change[1]:
                text = "\n".join(line for line in text.splitlines() if not line.startswith("base:"))
            text = changed(text, change)
        (tmp_path / f"{each}.yml").write_text(text, encoding="utf-8")
    found = JoinFilling().judge(solve(read_spec_file(tmp_path / f"{seen}.yml")))
    assert code in {each.law.code for each in found if not each.ok}
    assert not {v.law.code for v in JoinFilling().judge(joined(seen)) if not v.ok}


def test_the_height_that_a_finding_names_cures_it(tmp_path: Path) -> None:
    for each in ("long", "short", "wing"):
        text = (JOINED / f"{each}.yml").read_text(encoding="utf-8")
        text = text.replace("height: 900", "height: 912.5") if each == "short" else text
        (tmp_path / f"{each}.yml").write_text(text, encoding="utf-8")
    found = JoinFilling().judge(solve(read_spec_file(tmp_path / "short.yml")))
    (failed,) = (each for each in found if each.law.code == "join-height")
    assert not failed.ok and [str(each) for each in failed.remedy] == ["`bench.height: 900 mm`"]
