"""Pulls and edge grips: where they are on the face, what they do to the box behind it, and what is bought."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.fillings.pulls import FITS, MISSING, ON_EDGE, needs, pulls, things, verdicts
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.calculators.fasteners import stock_lengths
from generator.findings import SpecError
from tests.bench.benches import DEMO, changed, solved


def bench(card: str, keys: str = "", more: str = "") -> Bench:
    chosen = ", ".join(filter(None, ("groove: 6, pull: grip", keys)))
    return solved(
        changed(
            DEMO,
            ("groove: 6}", f"{chosen}}}"),
            ("  caster: {", f"  grip: {{use: {card}{more}}}\n  caster: {{"),
        )
    )


BOW, GRIP = "pull 128", "edge grip 100 x 25"


def faces(on: Bench) -> list[tuple[Part, Part, Part]]:
    """Each face with the box's end behind it and the end far from it."""
    found = []
    for face in on.of(Role.DRAWER_FACE):
        ends = [end for end in on.of(Role.DRAWER_END) if end.place == face.place]
        near, far = sorted(ends, key=lambda end: abs(end.box.y.middle - face.box.y.middle))
        found.append((face, near, far))
    return found


def in_bench(part: Part) -> list[tuple[Fraction, Fraction, object]]:
    """Its holes and cut-outs at X, Z of the frame."""
    return [
        (part.box.x.low + act.at[0], part.box.z.low + act.at[1], act.size)
        for act in part.operations
        if act.op in ("through hole", "cut-out")
    ]


def test_a_bow_is_in_the_middle_of_its_face_and_its_holes_go_on_through_the_box() -> None:
    """Face and box are drilled as one: two holes of 4.5 for M4, 128 apart, at one X and Z of the bench."""
    on = bench(BOW)
    assert len(faces(on)) == 8
    for face, near, far in faces(on):
        left, right = in_bench(face)
        assert right[0] - left[0] == 128
        assert (left[0] + right[0]) / 2 == face.box.x.middle
        assert left[1] == right[1] == face.box.z.middle
        assert {left[2], right[2]} == {Fraction(9, 2)}
        assert in_bench(near) == in_bench(face)
        assert in_bench(far) == []


def test_a_bow_where_the_spec_has_it() -> None:
    for face, _, _ in faces(bench(BOW, "pull_at: [0.4, 0.7]")):
        middle = sum(x for x, _, _ in in_bench(face)) / 2
        assert middle == face.box.x.low + face.box.x.size * Fraction(2, 5)
        assert {z for _, z, _ in in_bench(face)} == {face.box.z.low + face.box.z.size * Fraction(7, 10)}


def test_a_bow_above_the_box_is_screwed_to_the_face_alone() -> None:
    """The box ends 15 below the face's upper edge; at 94 of 100 the lowest face's screws are above it."""
    face, near, _ = faces(bench(BOW, "pull_at: [0.5, 0.98]"))[0]
    assert len(in_bench(face)) == 2
    assert in_bench(near) == []


def test_a_grip_is_cut_from_the_upper_edge_of_the_face_and_the_box_behind_it() -> None:
    """100 by 25 from the face; the box begins 15 lower, so 10 are cut out of it, to the same depth in the bench."""
    for face, near, far in faces(bench(GRIP)):
        ((x, z, size),) = in_bench(face)
        assert (x, size, z + Fraction(25, 2)) == (face.box.x.middle, (100, 25), face.box.z.high)
        ((at_x, at_z, in_box),) = in_bench(near)
        assert (at_x, in_box) == (x, (100, 10))
        assert at_z - Fraction(10, 2) == z - Fraction(25, 2)
        assert at_z + Fraction(10, 2) == near.box.z.high
        assert in_bench(far) == []


def test_a_shallow_grip_leaves_the_box_alone() -> None:
    _, near, _ = faces(bench(GRIP, more=", size: [100, 15]"))[0]
    assert in_bench(near) == []


def test_what_is_bought() -> None:
    """A bow a drawer; screws through 18 and 12 into the pull by 6 at least: of those on the shelf, 40."""
    on = bench(BOW)
    assert [(each.kind, each.item, each.count) for each in needs(on)] == [
        ("pull", "grip", 8), ("pull screw", "pull screw", 16),
    ]  # fmt: skip
    (screw,) = (each for each in needs(on) if each.kind == "pull screw")
    longer = [length for length in stock_lengths("M4") if length >= 18 + 12 + 6]
    assert screw.size == f"M4x{longer[0]}"
    assert list(needs(bench(GRIP))) == []


def test_screws_of_faces_that_no_box_backs_are_shorter() -> None:
    """All holes above their boxes: through 18 and 6 into the pull is 25 of those on the shelf."""
    (screw,) = (each for each in needs(bench(BOW, "pull_at: [0.5, 0.98]")) if each.kind == "pull screw")
    assert screw.size == "M4x25"


def test_the_figures_are_the_holes() -> None:
    on = bench(BOW)
    parts = {part.mark: part for part in on.parts}
    for pull in pulls(on):
        drilled = [act.at for act in parts[pull.part].operations]
        assert list(pull.holes) == drilled
        assert pull.at == (parts[pull.part].length / 2, parts[pull.part].width / 2)


def test_a_bow_is_seen_before_the_open_side_of_its_zone() -> None:
    on = bench(BOW)
    shown = list(things(on))
    assert len(shown) == 8
    depth = on.layout.depth
    assert all(each.high[1] <= 0 or each.low[1] >= depth for each in shown)
    assert list(things(bench(GRIP))) == []


def failed(on: Bench) -> set[tuple[str, str]]:
    return {(each.law.code, each.where) for each in verdicts(on) if not each.ok}


@pytest.mark.parametrize(
    ("card", "keys", "more", "law", "fails"),
    [
        (BOW, "", "", FITS, False),
        # the narrowest face is 494: 247 - 64 = 183 beside a hole, and 232 for two holes 464 apart leave 15
        (BOW, "", ", holes: 464", FITS, False),
        (BOW, "", ", holes: 464.2", FITS, True),
        (GRIP, "", ", size: [434, 25]", FITS, False),
        (GRIP, "", ", size: [434.1, 25]", FITS, True),
        # the lowest face is 80 high
        (GRIP, "", ", size: [100, 40]", FITS, False),
        (GRIP, "", ", size: [100, 40.1]", FITS, True),
        (BOW, "", "", ON_EDGE, False),
        (BOW, "pull_at: [0.5, 0.82]", "", ON_EDGE, True),
    ],
)
def test_limits(card: str, keys: str, more: str, law: object, fails: bool) -> None:
    assert (law.code in {code for code, _ in failed(bench(card, keys, more))}) is fails


def test_drawers_without_a_pull_are_told_and_none_is_a_word_for_it() -> None:
    for text in (DEMO, changed(DEMO, ("groove: 6}", "groove: 6, pull: none}"))):
        assert (MISSING.code, "all drawers") in failed(solved(text))
    assert failed(bench(BOW)) == set()


@pytest.mark.parametrize("size", ["[494, 80]", "[100, 70]", "[4940, 800]"])
def test_a_grip_that_leaves_nothing_of_a_face_or_its_box_is_refused(size: str) -> None:
    """The lowest face is 80 high, its box ends 10 above the face's lower edge."""
    with pytest.raises(SpecError, match="would cut through the face or the box") as caught:
        bench(GRIP, more=f", size: {size}")
    assert {finding.code for finding in caught.value.findings} == {"no-size"}
    assert faces(bench(GRIP, more=", size: [100, 69.9]"))


@pytest.mark.parametrize(("at", "found"), [("[2, 0.5]", "2"), ("[0.5, -1]", "-1")])
def test_a_pull_beside_its_face_is_refused(at: str, found: str) -> None:
    with pytest.raises(SpecError) as caught:
        bench(BOW, f"pull_at: {at}")
    assert [(finding.code, finding.found) for finding in caught.value.findings] == [("out-of-range", found)]
