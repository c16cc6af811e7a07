"""A bench of timber from its spec to its manual: lengths, joints, solids, order, glue, hardware, words, refusals."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from math import pi
from pathlib import Path

import pytest

from generator.bench.frames import frame_kind
from generator.bench.law import Verdict
from generator.bench.solids import part_bodies
from generator.bench.solve import solve
from generator.calculators.bodies import Body
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.findings import Finding, Severity, SpecError
from generator.manual import Manual
from generator.pages import PAGES
from generator.spec.adapt import adapted
from generator.spec.load import LoadedSpec, read_spec
from tests.benchmarks.timbers import tried

SPEC = Path(__file__).parent / "data" / "timber.yml"
TEXT = SPEC.read_text(encoding="utf-8")
F = Fraction

#: Two changes that together fail every check of timber, and what each of them fails.
TOO_LITTLE = (
    ("thickness: 23", "thickness: 55"), ("shoulder: 10", "shoulder: 6"), ("open_time: 20", "open_time: 9"),
    ("screw: M8x130", "screw: M8x100"), ("from_end: 56", "from_end: 42"), ("washer: [24, 2]", "washer: [20, 2]"),
    ("recess: {diameter: 26", "recess: {diameter: 18"), ("length: 45, stub", "length: 15, stub"),
)  # fmt: skip
TOO_LONG = (("screw: M8x130", "screw: M8x140"),)
CODES_OF_TIMBER = {
    "tenon-cheek", "tenon-shoulder", "tenon-short", "barrel-bolt-short", "barrel-bolt-long", "barrel-near-end",
    "washer-on-wood", "washer-recess", "glue-time",
}  # fmt: skip
CODES_OF_BOLTS = {"bolt-edge", "bolt-through", "fasteners-meet"}
CURED_IN_TIMBER = ("tenon-cheek", "tenon-shoulder", "barrel-bolt-short", "barrel-bolt-long", "washer-recess")


def changed(*pairs: tuple[str, str], text: str = TEXT) -> str:
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


@pytest.fixture(scope="module")
def loaded() -> LoadedSpec:
    return read_spec(TEXT, SPEC.name)


@pytest.fixture(scope="module")
def judged(loaded: LoadedSpec) -> tuple[Figures, tuple[Finding, ...]]:
    return compute(solve(loaded))


@pytest.fixture(scope="module")
def figures(judged: tuple[Figures, tuple[Finding, ...]]) -> Figures:
    return judged[0]


@pytest.fixture(scope="module")
def bodies(loaded: LoadedSpec) -> dict[str, Body]:
    return {body.name: body for body in part_bodies(loaded, solve(loaded).parts)}


def test_it_builds_without_an_error_and_its_order_is_proved(
    judged: tuple[Figures, tuple[Finding, ...]],
) -> None:
    figures, findings = judged
    assert [str(each) for each in findings if each.severity is Severity.ERROR] == []
    assert figures.assembly.proved
    assert {check.code: check.ok for check in figures.checks}["overlap"]


def test_members_are_as_long_as_their_space_and_their_tenons(figures: Figures) -> None:
    """Length 1570, depth 760, posts 70: rails 1430, cross-members 620 and two stubs of 12.

    The end members' tenons share their posts with a bolt of 8: 70 - 35 - 9/2 - 8 = 22.5 each; at the tray there is
    none, and they are as long as they may be, 45. Posts between the rails have two stubs.
    """
    lengths = {row.group: row.length for row in figures.parts if row.kind == "timber"}
    height = figures.layout.frame_height
    assert lengths == {
        "corner post": height,
        "long rail": 1430,
        "base cross-member": 620 + 24,
        "top cross-member": 620 + 24,
        "base end member": 620 + 45,
        "top end member": 620 + 45,
        "tray end rail": 620 + 90,
        "inner post": height - 2 * 95 + 24,
    }
    for row in figures.joinery:
        tenon = row.tenon.length if row.tenon else 0
        (own,) = (part for part in figures.parts if row.member in part.marks)
        ends = sum(each.tenon.length for each in figures.joinery if each.member == row.member and each.tenon)
        assert row.shoulder_to_shoulder + ends == own.length
        assert tenon in (0, 12, F("22.5"), 45)


def test_a_tenon_beside_the_end_of_a_post_has_its_haunch(figures: Figures) -> None:
    """95 less two shoulders of 10 less a third for the haunch at base and top, 5 × 23 at most, 75 at the tray."""
    width = {
        row.member: row.tenon.width
        for row in figures.joinery
        if row.tenon and row.member in ("C5", "C7", "C9")
    }
    assert width == {"C5": 75 - F(95, 3), "C7": 75, "C9": 75 - F(95, 3)}


def test_each_tenon_fills_its_mortise_and_leaves_two_at_its_bottom(figures: Figures) -> None:
    mortises = {op.purpose: op for row in figures.parts for op in row.operations if op.op == "mortise"}
    for row in figures.joinery:
        if row.tenon is None:
            continue
        name = f"{row.member}, {row.end} end"
        if name not in mortises:
            continue  # its twin is drawn
        cut = mortises[name]
        assert isinstance(cut.size, tuple)
        assert sorted(cut.size) == [row.tenon.thickness, row.tenon.width]
        assert cut.depth == row.tenon.length + 2


def test_the_solids_are_what_is_left_of_the_timber(loaded: LoadedSpec, bodies: dict[str, Body]) -> None:
    """Volume by hand: the sections over the shoulder lengths, the tenons, less all that is cut out."""
    for part in solve(loaded).parts:
        if part.kind != "timber":
            continue
        volume = part.shoulders.x.size * part.shoulders.y.size * part.shoulders.z.size
        round_holes = 0
        for op in part.operations:
            if isinstance(op.size, tuple):
                block = op.size[0] * op.size[1] * (op.depth or 0)
                volume += block if op.op == "tenon" else -block
            else:
                round_holes += 1
        if round_holes == 0 and not _meets_groove(part.operations):
            assert bodies[part.mark].volume == pytest.approx(float(volume))
        else:
            assert bodies[part.mark].volume < float(volume) + 1


def _meets_groove(operations: object) -> bool:
    """Grooves from two sides of one timber can run into each other at a corner of a panel."""
    assert isinstance(operations, tuple)
    return sum(op.op == "panel groove" for op in operations) > 1


def test_hardware_follows_from_the_joints(figures: Figures) -> None:
    """Four long rails, each with a bolt, a nut and a washer at both ends; glue is no hardware."""
    counts = {row.kind: row.count for row in figures.hardware}
    assert Counter(row.kind for row in figures.joinery)["barrel bolt"] == 8
    assert (counts["barrel bolt"], counts["barrel nut"], counts["bolt washer"]) == (8, 8, 8)
    assert not {"slot nut", "top bracket bolt", "washer"} & set(counts)
    assert counts["bracket rail screw"] == 2 * len(figures.top.brackets)


def test_what_is_glued_in_one_go(figures: Figures) -> None:
    """Six tenons and three clamps an end frame: 6 × 1.5 + 3 × 0.5 + 3 = 13.5 minutes."""
    ups = {each.step: each for each in figures.glue_ups}
    assert list(ups) == ["left-posts", "right-posts", "rails", "posts", "grid", "lid"]
    assert (len(ups["left-posts"].joints), ups["left-posts"].clamps, ups["left-posts"].minutes) == (
        6,
        3,
        13.5,
    )
    assert sum(len(each.joints) for each in ups.values()) == sum(
        row.tenon is not None for row in figures.joinery
    )


def test_the_time_at_the_machines_counts_what_is_cut_into_timbers(figures: Figures) -> None:
    """A mortise for each tenon, a hole through the post and one for the nut for each bolt."""
    assert figures.shop is not None
    counts = {row.operation: row.count for row in figures.shop.times}
    tenons = sum(row.tenon is not None for row in figures.joinery)
    assert (counts["mortise"], counts["tenon"], counts["bolt hole"], counts["barrel hole"]) == (
        tenons,
        tenons,
        8,
        8,
    )


def test_grooves_are_as_wide_as_the_measured_sheet(figures: Figures) -> None:
    grooves = [op for row in figures.parts for op in row.operations if op.op == "panel groove"]
    assert {op.size[1] for op in grooves if isinstance(op.size, tuple)} == {F("11.7") + F("0.2")}
    assert {op.depth for op in grooves} == {10}


def groove_of(row: PartRow) -> float:
    """How long the groove of a timber is."""
    (size,) = (op.size for op in row.operations if op.op == "panel groove")
    assert isinstance(size, tuple)
    return float(size[0])


def test_masses_follow_from_the_wood(figures: Figures) -> None:
    """A front post of beech: 70 × 70 × its length, less what is cut into it, at 720 kg/m³.

    Two mortises of 23 × 43 1/3, 24.5 deep, and one of 23 × 75, 47 deep; a groove 11.9 wide and 10 deep; two
    recesses of 26, 12 deep, with holes of 9 through what is left below them.
    """
    post = next(row for row in figures.parts if row.mark == "A1")
    cut = 2 * 23 * 130 / 3 * 24.5 + 23 * 75 * 47 + 11.9 * 10 * groove_of(post)
    cut += 2 * pi / 4 * (26**2 * 12 + 9**2 * 58)
    whole = 70 * 70 * float(figures.layout.frame_height)
    assert post.mass == pytest.approx((whole - cut) * 720e-9)
    # a rail between posts that it is bolted to has nothing beyond its shoulders, a cross-member its two stubs
    member = next(row for row in figures.parts if row.mark == "C1")
    left = 620 * 70 * 95 + 2 * 12 * 23 * 55 - 11.9 * 10 * groove_of(member)
    assert member.mass == pytest.approx(left * 720e-9)


#: What is no running text.
NO_WORDS = re.compile(
    r"<svg.*?</svg>|<style.*?</style>|\{ \.bm-[a-z]+ \}|\]\([^)]*\)(?:\{[^}]*\})?|<[^>]*>|\[", re.DOTALL
)


@pytest.fixture(scope="module")
def pages(loaded: LoadedSpec, figures: Figures) -> dict[str, str]:
    """The words of the pages, without pictures and links."""
    manual = Manual(loaded, figures, SPEC.name)
    return {page.slug: NO_WORDS.sub("", manual.page(page)) for page in PAGES if page.slug in OWN}


#: Pages that speak of this bench alone.
OWN = (
    "assembly", "bar-plan", "before-you-start", "checklist", "checks", "cut-list", "downloads", "fits", "hardware",
    "index", "measure", "openings-and-drawers", "order-lists", "part-sheets", "replicate", "sheet-plan",
    "set-up-cards", "shopping-list", "story-sticks", "strength",
)  # fmt: skip
#: What only a frame of slotted bars has.
OF_SLOTS = re.compile(
    r"(?<![a-z-])(slots?|clips?|alumin\w+(?! plate)|tapped ends?|reliefs?|profile)(?![a-z])", re.IGNORECASE
)


@pytest.mark.parametrize("page", OWN)
def test_no_page_speaks_of_slots(pages: dict[str, str], page: str) -> None:
    assert sorted({match[0] for match in OF_SLOTS.finditer(pages[page])}) == []


def test_rough_boards_are_bought_thicker_and_the_moisture_of_wood_is_measured(
    figures: Figures, pages: dict[str, str]
) -> None:
    assert {row.material: row.rough for row in figures.cut_sections if row.rough} == {
        "beech-30": 34,
        "oak": F("15.7"),
    }
    (line,) = (line for line in figures.purchases if line.item == "beech-30")
    assert line.detail.endswith("; rough 34 mm, planed to 30 mm")
    assert "Plane the rough boards from 34 mm" in pages["cut-list"]
    (moisture,) = (each for each in pages["order-lists"].splitlines() if "Measure the moisture" in each)
    assert "glued beech" in moisture and "plywood" not in moisture


def test_nothing_of_this_bench_is_left_to_mend_but_its_mass_and_its_drawers(
    judged: tuple[Figures, tuple[Finding, ...]],
) -> None:
    """What a wood strip behind a post asks of the slides is in the spec: no screw is near the strip's edge."""
    warned = {each.code for each in judged[1] if each.severity is Severity.WARNING}
    assert warned == {"drawers-open", "lift-weight"}


def test_the_pages_say_what_a_joiner_asks(pages: dict[str, str]) -> None:
    assert "Drive the coach screws up through the plates into the frame, with washers." in pages["assembly"]
    assert "Close the joints with 3 clamps" in pages["assembly"]
    assert "takes 14 minutes. The glue stays open for 20." in pages["assembly"]
    assert "Stop: from the end to the shoulder line" in pages["set-up-cards"]
    assert "Groove, width: the measured sheet and its play" in pages["set-up-cards"]
    assert "4 clamps that open to " in pages["before-you-start"]
    assert "planed beech" in pages["shopping-list"]


REFUSED = (
    (("  groove: 10\n", "  groove: 10\n  through: rails\n"), "closing-joints", "frame.through"),
    (("default: tenon,", "default: end-clip,"), "closing-joints", "frame.joints.default"),
    (
        ("corner_posts: corner,", "corner_posts: tenon,"),
        "closing-joints",
        "frame.joints.long_rails_to_corner_posts",
    ),
    (("  posts: leg\n", ""), "missing-key", "frame"),
    (("section: [70, 70]", "section: [70, 60]"), "no-size", "materials.leg.section"),
    (("section: [70, 95]", "section: [45, 95]"), "no-size", "materials.rail.section"),
    (("  groove: 10\n", "  groove: 24\n"), "no-size", "frame.groove"),
    (("{name: right,", "{name: right, door: {hinge: left},"), "wall-without-place", "zones[0].bays[2].door"),
    (("stack: [{shelf: 150}]", "knee: true"), "wall-without-place", "zones[0].bays[2].knee"),
)


@pytest.mark.parametrize(("pair", "code", "path"), REFUSED, ids=[path for _, _, path in REFUSED])
def test_what_cannot_be_built_of_timber_is_refused_with_its_reason(
    pair: tuple[str, str], code: str, path: str
) -> None:
    with pytest.raises(SpecError) as caught:
        solve(read_spec(changed(pair), SPEC.name))
    assert (code, path) in {(each.code, each.where.path) for each in caught.value.findings if each.where}
    assert all(each.allowed for each in caught.value.findings)


@pytest.mark.parametrize("pairs", [TOO_LITTLE, TOO_LONG], ids=["too little", "too long"])
@pytest.mark.usefixtures("quick_plans")
def test_each_check_of_timber_is_provoked_and_its_advice_cures_it(pairs: tuple[tuple[str, str], ...]) -> None:
    text = changed(*pairs)
    _, findings = compute(solve(read_spec(text, SPEC.name)))
    told = {each.code: each for each in findings if each.code in CODES_OF_TIMBER}
    assert set(told) == (
        CODES_OF_TIMBER - {"barrel-bolt-long"} if pairs is TOO_LITTLE else {"barrel-bolt-long"}
    )
    assert all(each.advice and each.why for each in told.values())
    changes = {it.path: it.value for each in told.values() for it in each.remedy}
    assert changes
    cured = solve(read_spec(adapted(text, list(changes.items())), SPEC.name))
    _, after = compute(cured)
    assert {each.code for each in after} & set(CURED_IN_TIMBER) == set()


#: Every joint with bolts; rails as high as the posts are thick, so that one length of bolt fits all.
ALL_BOLTS = (
    ("default: tenon,", "default: corner,"), ("inner_post_tops: tenon", "inner_post_tops: corner"),
    ("section: [70, 95]", "section: [70, 70]"),
)  # fmt: skip


def judged_by_hand(*pairs: tuple[str, str]) -> dict[str, Verdict]:
    """Code -> the verdict of the frame on it, a failed one first."""
    bench = solve(read_spec(changed(*pairs), SPEC.name))
    verdicts = sorted(frame_kind(bench.spec).judge(bench), key=lambda each: each.ok, reverse=True)
    return {each.law.code.value: each for each in verdicts}


def test_bolts_that_would_meet_in_a_post_are_one_above_the_other() -> None:
    """Holes of 9 with 6 of wood between are 15 apart.

    A nut of 40 in a rail of 70 can move 35 - 10 - 20 = 5 toward the grooves, so the other bolt moves 10. A post beside
    a cross-member moves all of it.
    """
    bench = solve(read_spec(changed(*ALL_BOLTS), SPEC.name))
    asides = {(joint.member[0], joint.crossing[0]): joint.aside for joint in bench.joints}
    assert {joint.aside for joint in bench.joints if joint.crossing[0] == "A"} == {5, 10, -5, -10, 0}
    assert abs(asides[("D", "B")]) == 15 and asides[("C", "B")] == 0
    judged = judged_by_hand(*ALL_BOLTS)
    assert judged["fasteners-meet"].ok
    assert (judged["bolt-edge"].ok, judged["bolt-edge"].value, judged["bolt-edge"].limit) == (False, 20, 24)


@pytest.mark.parametrize(
    ("pairs", "code"),
    [
        ((("hole: 9", "hole: 40"),), "fasteners-meet"),
        ((("inner_post_tops: tenon", "inner_post_tops: corner"),), "bolt-through"),
    ],
)
def test_bolts_that_do_not_go_are_told(pairs: tuple[tuple[str, str], ...], code: str) -> None:
    """No room for two coach screws beside a wide hole; 95 of rail wants 2 + 95 - 12 + 56 + 6 = 147 of bolt, not 130."""
    verdict = judged_by_hand(*pairs)[code]
    assert not verdict.ok and verdict.law.advice
    if code == "bolt-through":
        assert (verdict.value, verdict.limit) == (130, 147)


@pytest.mark.parametrize("seed", [1, 22])
def test_random_benches_of_timber_are_sound(seed: int) -> None:
    """Two of those that `python -m tests.benchmarks.timbers` tries, by geometry of its own."""
    assert tried(seed) == []


def test_a_bench_of_slots_has_no_joinery() -> None:
    starter = SPEC.parent.parent.parent / "specs" / "starter.yml"
    bench = solve(read_spec(starter.read_text(encoding="utf-8"), starter.name))
    assert all(not part.tenons and part.shoulders is part.box for part in bench.parts)


def test_views_show_members_up_to_their_shoulders(figures: Figures) -> None:
    """A tenon is within the post: what is seen of a rail is its space, what is cut is longer by its tenons."""
    pieces = {piece.mark: piece for part in figures.parts for piece in part.pieces}
    tenoned = [row for row in figures.joinery if row.tenon]
    assert tenoned
    for row in tenoned:
        piece = pieces[row.member]
        axis = next(each for each in range(3) if piece.size[each] != piece.shown[1][each])
        assert piece.shown[1][axis] == row.shoulder_to_shoulder < piece.size[axis]
