"""A sheet plan in the parts' own sizes: what each cut leaves is what the saw leaves, and says how it came about."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from generator.bench.solve import solve
from generator.figures.cutting import cutting
from generator.figures.rows.cutting import Cutting, SheetCutRow, SheetRow
from generator.provenance import GivenValue, provenance_of
from generator.resources import bundled
from generator.spec.load import read_spec

#: A zone half a tenth deeper, so that plan and parts differ; and sheets that are broken down for the fence.
CHANGES = {
    "half a tenth": ("depth: 500\n", "depth: 500.05\n"),
    "broken down": (
        "edge_trim: 10}",
        "edge_trim: 10, stages: 3, break_down: {max_length: 1300, allowance: 4}}",
    ),
    "two saws": (
        "edge_trim: 10}",
        "edge_trim: 10, stages: 3, break_down: {max_length: 1300, allowance: 4, kerf: 2.25}}",
    ),
}


@cache
def plans(change: str) -> Cutting:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8").replace(*CHANGES[change])
    loaded = read_spec(text, "demo.yml")
    return cutting(solve(loaded))


def left_of(sheet: SheetRow, cut: SheetCutRow, track: Fraction | None) -> tuple[object, object]:
    """Length and width of what a cut divides, from the cut that made it: by hand, no source."""
    if not cut.parent:
        return (sheet.stock[0] - 2 * sheet.trim, sheet.stock[1] - 2 * sheet.trim)
    before = next(each for each in sheet.cuts if each.n == cut.parent)
    whole = before.l if before.across else before.w
    kerf = track if before.by_track and track is not None else sheet.kerf
    part = before.setting if cut.near else whole - before.setting - kerf
    return (part, before.w) if before.across else (before.l, part)


@pytest.mark.parametrize("change", CHANGES)
def test_every_cut_divides_what_the_cut_before_it_left(change: str) -> None:
    track = plans(change).track_kerf
    assert track == (Fraction("2.25") if change == "two saws" else None)
    for sheet in plans(change).sheets:
        for cut in sheet.cuts:
            assert (cut.l, cut.w) == left_of(sheet, cut, track)
            assert cut.at == (cut.x if cut.across else cut.y) + cut.setting


@pytest.mark.parametrize("change", CHANGES)
def test_pieces_and_offcuts_lie_on_their_sheet_and_beside_each_other(change: str) -> None:
    for sheet in plans(change).sheets:
        lying = [(each.x, each.y, each.l, each.w) for each in sheet.pieces] + list(sheet.offcuts)
        for n, (x, y, length, width) in enumerate(lying):
            assert length > 0 and width > 0
            assert min(x, y) >= sheet.trim
            assert x + length <= sheet.stock[0] - sheet.trim and y + width <= sheet.stock[1] - sheet.trim
            for u, v, long, wide in lying[:n]:
                assert x >= u + long or u >= x + length or y >= v + wide or v >= y + width


def test_a_plan_chooses_a_size_only_where_it_breaks_a_sheet_down_or_leaves_an_offcut() -> None:
    for change in CHANGES:
        for sheet in plans(change).sheets:
            for cut in sheet.cuts:
                how = provenance_of(cut.setting)
                assert how is not None
                if isinstance(how, GivenValue) and how.origin == "plan":
                    ends = {y + w if not cut.across else x + long for x, y, long, w in sheet.offcuts}
                    assert not cut.marks and (cut.by_track or cut.at in ends)
