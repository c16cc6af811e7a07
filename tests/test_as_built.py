"""The record against the bench: what was cut, what still fits and by how much, what must be cut again.

Expected values are worked by hand from the demo's own sizes: shoulders 0.5 clear of the bars, gaps of 3 round a front,
1 at each end of a shelf and of a trim piece. Common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.bench.role import Role
from generator.bench.solve import solve
from generator.calculators.as_built import Held, held_by_tongues, moved, outcome
from generator.figures.compute import compute
from generator.figures.record import build_record
from generator.figures.rows.record import BuildRecord, CutRow, Following
from generator.findings import Finding
from generator.resources import bundled
from generator.spec.load import RecordText, read_spec
from tests.strategies import Plan, plans, spec_text

DEMO = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")


def built(*entries: str) -> tuple[BuildRecord, tuple[Finding, ...]]:
    text = "".join(f"- {{date: 2026-11-0{n}, {entry}}}\n" for n, entry in enumerate(entries, 1))
    loaded = read_spec(DEMO, "demo.yml", RecordText(text, "demo.record.yml"))
    figures, findings = compute(solve(loaded))
    assert figures.record is not None
    return figures.record, findings


def cut(mark: str, size: str) -> str:
    return f"cut: {{mark: {mark}, size: {size}}}"


def row(record: BuildRecord, mark: str) -> CutRow:
    return next(row for row in record.cuts if row.mark == mark)


def following(record: BuildRecord, mark: str) -> dict[str, Following]:
    return {each.mark: each for each in row(record, mark).consequences}


# --- the formulas


def test_a_panel_in_two_slots_binds_at_its_shoulders_and_falls_out_at_six() -> None:
    """Tongue 10 in a slot of 12.3: 2.3 to the floor, shoulders 0.5. Moved over to one floor, 7.7 is left there."""
    held = held_by_tongues(2, Fraction(10), Fraction("2.3"), Fraction("0.5"))
    assert held == Held(Fraction(1), Fraction("1.7"))
    size, tolerance = Fraction(520), Fraction("0.5")
    for off, left, verdict in (
        ("0", "1.7", "as planned"),
        ("0.5", "0.5", "as planned"),
        ("0.9", "0.1", "fits"),
        ("1.2", "-0.2", "trim"),
        ("-1.7", "0", "fits"),
        ("-2", "-0.3", "recut"),
    ):
        found = outcome(size, size + Fraction(off), held, tolerance)
        assert (found.off, found.verdict) == (Fraction(off), verdict)
        assert found.left == (max(Fraction(left), 0) if verdict == "as planned" else Fraction(left))


def test_what_holds_a_panel_may_come_nearer_or_go_apart() -> None:
    held = Held(Fraction(1), Fraction("1.7"))
    assert moved(held, Fraction("-1.5")) == Fraction("-0.5")
    assert moved(held, Fraction("1.5")) == Fraction("0.2")


# --- one rail too short


def test_a_rail_cut_short_is_told_with_all_that_follows() -> None:
    record, findings = built(cut("B1", "1918.5"), cut("B3", "1920.1"))
    rail = row(record, "B1")
    assert (rail.planned, rail.actual, rail.off) == ((1920,), (Fraction("1918.5"),), (Fraction("-1.5"),))
    assert rail.verdict == "recut"
    after = following(record, "B1")
    # the joints at its ends, and the three bars between the same two end frames
    assert (after["A1 and A2"].left, after["A1 and A2"].ok) == (Fraction("-1.5"), False)
    for mark, apart, state in (("B2", "-1.5", "to cut"), ("B3", "-1.6", "cut"), ("B4", "-1.5", "to cut")):
        found = after[mark]
        assert (found.left, found.ok, found.state) == (Fraction(apart), False, state)
        assert found.to_match == Fraction("1918.5")
    # tray and last spine panel reach into the right end frame: two shoulders of 0.5 are used up
    for mark, size in (("PAN", "1938.5"), ("SP4", "518.5")):
        assert (after[mark].left, after[mark].ok) == (Fraction("-0.5"), False)
        assert after[mark].to_match == Fraction(size)
    # what lies free has less room: 2 at a trim piece and a shelf, 6 at a front
    for mark, left in (("T4", "0.5"), ("T6", "0.5"), ("SH3", "0.5"), ("SH4", "0.5"), ("DF5", "4.5")):
        assert (after[mark].left, after[mark].ok) == (Fraction(left), True)
    assert after["bay F4"].measure
    assert after["bay F4"].left == Fraction("-1.5")
    # and nothing on the other side of the bench
    assert not {"FD1", "SP1", "DF1", "T1", "SH1", "C1", "bay F1", "bay B2"} & set(after)
    (told,) = [finding for finding in findings if finding.code == "cut-off-size"]
    assert told.where is not None
    assert (told.where.file, told.where.line, told.found) == ("demo.record.yml", 1, "1918.5 mm")
    assert "PAN" in told.advice


def test_the_whole_bench_can_be_built_to_a_short_rail() -> None:
    """1.5 off the rail is 1.5 off the bench; the two bays that are shares take 0.75 each, the back ones too."""
    record, _ = built(cut("B1", "1918.5"), cut("B2", "1920"), cut("FD1", "520x509"))
    to = row(record, "B1").build_to
    assert to is not None
    assert (to.path, to.planned, to.value, to.why_not) == ("bench.length", 2000, Fraction("1998.5"), "")
    sizes = {mark: each for each in to.changed for mark in each.marks}
    expected = {
        "B1": "1918.5",
        "B4": "1918.5",
        "PAN": "1938.5",
        "TOP": "1998.5",
        "SP1": "519.25",
        "T1": "497.25",
    }
    for mark, length in {**expected, "DF1": "493.25", "SH1": "965.25", "SP4": "519.25"}.items():
        (size,) = [each for each in sizes[mark].sizes if each.what == "length"]
        assert size.effective == Fraction(length), mark
    assert not {"A1", "C1", "FD1", "FD2", "EF1", "SP2", "TR1"} & set(sizes)
    assert {mark for each in to.changed for mark in each.cut} == {"B1", "B2"}


def test_a_bench_of_fixed_bays_says_why_it_cannot_be_built_to_a_short_rail() -> None:
    fixed = DEMO.replace("name: F1, width: share", "name: F1, width: 500").replace(
        "name: F4, width: share", "name: F4, width: 500"
    )
    text = "- {date: 2026-11-03, cut: {mark: B1, size: 1918.5}}\n"
    spec = read_spec(fixed, "demo.yml", RecordText(text, "demo.record.yml"))
    record = compute(solve(spec))[0].record
    assert record is not None
    to = row(record, "B1").build_to
    assert to is not None
    assert "1.5 mm too much" in to.why_not
    assert to.changed == ()


def test_rails_that_are_all_cut_alike_suit_each_other() -> None:
    record, _ = built(*(cut(f"B{n}", "1918.5") for n in range(1, 5)))
    after = following(record, "B1")
    assert [after[f"B{n}"].ok for n in (2, 3, 4)] == [True] * 3


def test_a_bar_within_its_tolerance_has_no_consequences() -> None:
    record, findings = built(cut("B1", "1919.8"), cut("C2", "820.2"))
    assert {row.verdict for row in record.cuts} == {"as planned"}
    assert [row.consequences for row in record.cuts] == [(), ()]
    assert "cut-off-size" not in [finding.code for finding in findings]


def test_a_bar_that_is_too_long_is_trimmed() -> None:
    record, _ = built(cut("C2", "821"))
    assert row(record, "C2").verdict == "trim"
    after = following(record, "C2")
    assert after["C1"].to_match == 821
    assert after["BD1"].left == Fraction("0.7")  # 1.7 to spare in its slots, less 1
    assert "SH1" not in after  # more room harms no shelf


def test_a_board_that_still_fits_says_by_how_much() -> None:
    record, findings = built(cut("FD1", "519 x 509"), cut("SP1", "517 x 496"))
    assert (row(record, "FD1").verdict, row(record, "FD1").left) == ("fits", Fraction("0.7"))
    assert row(record, "SP1").verdict == "recut"
    assert [finding.found for finding in findings if finding.code == "cut-off-size"] == ["517 mm x 496 mm"]


def test_the_newest_cut_of_a_piece_counts() -> None:
    record, _ = built(cut("B1", "1918.5"), cut("B1", "1920"))
    assert [(row.mark, row.verdict) for row in record.cuts] == [("B1", "as planned")]


def test_a_box_end_has_its_partner_told() -> None:
    record, _ = built(cut("DE1", "446 x 140"))
    after = following(record, "DE1")
    assert list(after) == ["DE2"]
    assert after["DE2"].to_match == 446


# --- states, progress, what was cut too early


def test_what_was_cut_before_its_sheet_was_measured_is_named() -> None:
    late = "measured: {path: materials.ply-12.thickness, value: 11.8}"
    record, _ = built(cut("FD1", "520x509"), late, cut("FD2", "520x509"))
    (measured,) = record.measured
    assert (measured.nominal, measured.measured, measured.effective) == (
        12,
        Fraction("11.8"),
        Fraction("11.8"),
    )
    assert measured.affected == ("FD1",)
    dividers = next(each for each in record.changed if "FD1" in each.marks)
    sizes = {size.what: (size.nominal, size.effective) for size in dividers.sizes}
    assert sizes == {"thickness": (12, Fraction("11.8")), "rabbet depth": (2, Fraction("1.9"))}
    assert dividers.cut == ("FD1", "FD2")


def test_every_piece_has_one_state_and_all_of_them_are_counted() -> None:
    record, _ = built(cut("A1", "725"), "installed: [A1, A2]", cut("A3", "725"))
    states = {piece.mark: (piece.state, piece.date) for piece in record.pieces}
    assert states["A1"] == ("installed", "2026-11-02")
    assert states["A2"] == ("installed", "2026-11-02")
    assert states["A3"] == ("cut", "2026-11-03")
    assert states["A4"] == ("to cut", "")
    assert sum(record.progress.values()) == len(record.pieces) == len(states)
    assert (record.progress["cut"], record.progress["installed"], record.state) == (1, 2, "in work")


@pytest.mark.parametrize(
    ("last", "state"), [("note: done", "built"), ("verified: load test", "built and verified")]
)
def test_a_bench_is_built_when_every_piece_stands(last: str, state: str) -> None:
    marks = ", ".join(piece.mark for piece in built("note: x")[0].pieces)
    record, _ = built(f"installed: [{marks}]", last)
    assert record.state == state
    assert [row.text for row in record.verified] == (["load test"] if "verified" in state else [])


def test_without_a_record_the_bench_is_a_draft() -> None:
    loaded = read_spec(DEMO, "demo.yml")
    record = compute(solve(loaded))[0].record
    assert record is not None
    assert (record.state, record.checksum, record.entries, record.cuts) == ("draft", "", (), ())


# --- whatever the bench


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plans(), st.data())
def test_what_is_measured_never_changes_a_bar_or_the_outside_of_a_captured_panel(
    plan: Plan, data: st.DataObject
) -> None:
    text = spec_text(plan)
    bench = solve(read_spec(text, "bench.yml"))
    bay = data.draw(st.sampled_from(bench.layout.bays))
    off, sheet = (
        data.draw(st.sampled_from(["-5", "-0.8", "0.8"])),
        data.draw(st.sampled_from(["11.5", "12.3"])),
    )
    part = data.draw(st.sampled_from(bench.parts))
    size = " x ".join(
        str(float(each) - 1.5) for each in (part.length, part.width)[: 2 if part.kind == "sheet" else 1]
    )
    width = float(bay.width + Fraction(off))
    record = (
        f"- {{date: 2026-11-04, measured: {{path: bays.{bay.name}.width, value: {width}}}}}\n"
        f"- {{date: 2026-11-04, measured: {{path: materials.ply-12.thickness, value: {sheet}}}}}\n"
        f"- {{date: 2026-11-04, cut: {{mark: {part.mark}, size: {size}}}}}\n"
    )
    loaded = read_spec(text, "bench.yml", RecordText(record, "bench.record.yml"))
    built_bench = solve(loaded)
    planned = {each.mark: each for each in bench.parts}
    # a tray of 12.3 that was planned 12 lies 0.15 lower on its end rails, and so do plain edges below it
    lower = max(Fraction(sheet) - 12, Fraction(0)) / 2
    for each in built_bench.parts:
        if each.kind == "profile" or each.fit is not None:
            under = lower if each.role in (Role.DIVIDER, Role.BACK_PANEL) else 0
            was = planned[each.mark]
            assert (each.length, each.width) == (was.length, was.width - under), each.mark
    (row,) = build_record(built_bench).cuts
    assert row.mark == part.mark
    assert len(row.off) == (2 if part.kind == "sheet" else 1)


def test_boards_longer_than_the_standard_has_tolerances_for_are_judged() -> None:
    text = DEMO.replace("length: 2000, depth: 900", "length: 9000, depth: 900").replace(
        "[{length: 6000, price: 54}]", "[]"
    )
    record = "- {date: 2026-11-04, cut: {mark: SH1, size: 4465 x 278}}\n"
    loaded = read_spec(text, "demo.yml", RecordText(record, "demo.record.yml"))
    bench = solve(loaded)
    (shelf,) = build_record(bench).cuts
    assert shelf.planned[0] == 4466
    assert shelf.verdict == "fits"
