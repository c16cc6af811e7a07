"""The worked bench's plans and set-up cards, and what other saws and stock make of them."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.saw_setups import planned_fence
from generator.resources import bundled
from generator.spec.load import read_spec
from tests.demo.rows import Data

# --- the bar plan


def test_bar_plan(data: Data) -> None:
    bars = [bar for bar in data["cutting"]["bars"] if bar["material"] == "bar"]
    assert len(bars) == 5
    assert sorted(mark for bar in bars for mark in bar["pieces"]) == sorted(
        mark for row in data["parts"] if row["kind"] == "profile" for mark in row["marks"]
    )
    assert max(bar["offcut"] for bar in bars) == 3843
    assert data["cutting"]["bar_bound"]["bar"] == {"cost": 270, "count": 5}
    for bar in bars:
        assert bar["offcut"] == bar["stock_length"] - 2 * 10 - sum(length + 4 for length in bar["lengths"])
        assert bar["running"][-1] == sum(bar["lengths"]) + 4 * (len(bar["lengths"]) - 1)


def test_bars_of_3000_take_ten() -> None:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = text.replace("{length: 6000, price: 54}", "{length: 3000, price: 30}")
    loaded = read_spec(text, "demo.yml")
    plans = compute(solve(loaded))[0].cutting
    (summary,) = [each for each in plans.summaries if each.material == "bar"]
    assert (summary.bars, summary.proved, plans.bar_bound["bar"].count) == (10, True, 10)


def test_sheet_plan(data: Data) -> None:
    sheets = Counter(sheet["material"] for sheet in data["cutting"]["sheets"])
    assert sheets == {"ply-12": 3, "ply-18": 1, "ply-6": 1, "mdf-18": 1}
    assert data["cutting"]["sheet_bound"] == {"ply-12": 3, "ply-18": 1, "ply-6": 1, "mdf-18": 1}
    laid = Counter(piece["mark"] for sheet in data["cutting"]["sheets"] for piece in sheet["pieces"])
    boards = [row for row in data["parts"] if row["kind"] == "sheet" and row["group"] != "caster plate"]
    assert laid == Counter(mark for row in boards for mark in row["marks"])
    sizes = {mark: (row["length"], row["width"]) for row in boards for mark in row["marks"]}
    for sheet in data["cutting"]["sheets"]:
        for piece in sheet["pieces"]:
            lying = (piece["l"], piece["w"])
            assert lying == (sizes[piece["mark"]][::-1] if piece["turned"] else sizes[piece["mark"]])
            assert piece["x"] >= 10 and piece["x"] + piece["l"] <= sheet["stock"][0] - 10
            assert piece["y"] >= 10 and piece["y"] + piece["w"] <= sheet["stock"][1] - 10


def test_fence_settings_cover_every_cut_of_all_sheets(data: Data) -> None:
    cutting = data["cutting"]
    for summary in cutting["sheet_summaries"]:
        fences = [each for each in cutting["fences"] if each["material"] == summary["material"]]
        sheets = [each for each in cutting["sheets"] if each["material"] == summary["material"]]
        assert len(fences) == summary["setups"] <= summary["setups_sheet_by_sheet"]
        assert len({each["setting"] for each in fences}) == summary["settings"]
        made = [(sheet, n) for each in fences for sheet, n in each["cuts"]]
        assert sorted(made) == [(s, cut["n"]) for s, sheet in enumerate(sheets, 1) for cut in sheet["cuts"]]
        settings = {(s, n): each["setting"] for each in fences for s, n in each["cuts"]}
        for number, sheet in enumerate(sheets, 1):
            for cut in sheet["cuts"]:
                assert cut["parent"] < cut["n"]
                assert cut["setting"] == settings[number, cut["n"]]
    plies = {each["material"]: each for each in cutting["sheet_summaries"]}
    assert plies["ply-12"]["setups"] * 2 < plies["ply-12"]["setups_sheet_by_sheet"]


def test_the_set_up_cards_take_their_fences_from_the_sheet_plan(data: Data) -> None:
    for fences in by_material(data["cutting"]["fences"]).values():
        material = fences[0]["material"]
        cards = [each for each in data["setups"] if each["key"].endswith(f"fence-{material}")]
        settings = [setting["values"] for card in cards for setting in card["settings"]]
        assert settings == [[each["setting"]] for each in fences]


def test_a_card_says_what_it_cuts_before_the_bays_are_measured() -> None:
    loaded = read_spec((bundled("specs") / "wall-bench.yml").read_text(encoding="utf-8"), "wall-bench.yml")
    figures = compute(solve(loaded))[0]
    waiting = [fence for fence in figures.cutting.fences if fence.waits and fence.marks]
    why = " to the planned size now, because a part beside needs the cut"
    early = [planned_fence(replace(fence, too_early=fence.marks), figures.parts).text for fence in waiting]
    assert early and all("; this cuts D" in text and text.endswith(why) for text in early)


def by_material(fences: list[Data]) -> dict[str, list[Data]]:
    return {
        name: [each for each in fences if each["material"] == name]
        for name in {f["material"] for f in fences}
    }


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_drawer_parts_wait_on_the_cards_and_in_the_plan(name: str) -> None:
    """Drawer boxes, bottoms and faces wait for the measured bays, says the cut list: all else must come free first."""
    loaded = read_spec((bundled("specs") / f"{name}.yml").read_text(encoding="utf-8"), f"{name}.yml")
    figures = compute(solve(loaded))[0]
    drawer = {mark for row in figures.parts for mark in row.marks if re.match("D[SEBF][0-9]", mark)}
    for card in figures.setups:
        if "fence" in card.key or card.key.startswith("groove"):
            assert set(card.marks) <= drawer or not set(card.marks) & drawer, card.title
    waiting = [bool(set(card.marks) & drawer) for card in figures.setups]
    assert any(waiting) and waiting == sorted(waiting)
    for number, sheet in enumerate(figures.cutting.sheets):
        own = [each for each in figures.cutting.sheets[:number] if each.material == sheet.material]
        made = {
            cut for fence in figures.cutting.fences if fence.material == sheet.material and not fence.waits
            for place, cut in fence.cuts if place == len(own) + 1
        }  # fmt: skip
        for piece in sheet.pieces:
            around = [
                cut.n for cut in sheet.cuts
                if cut.x <= piece.x < cut.x + cut.l and cut.y <= piece.y < cut.y + cut.w
            ]  # fmt: skip
            assert piece.mark in drawer or set(around) <= made, piece.mark
        assert made == set(range(1, len(made) + 1))


def test_a_fence_is_set_to_the_parts_own_size_where_the_plan_is_made_to_a_tenth() -> None:
    """The front zone half a tenth deeper: its dividers come to 520.05 mm, which is planned as 520.1."""
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = text.replace("depth: 500\n", "depth: 500.05\n")
    loaded = read_spec(text, "demo.yml")
    figures = compute(solve(loaded))[0]
    sizes = {mark: {row.length, row.width} for row in figures.parts for mark in row.marks}
    sized = [(each.setting, mark) for each in figures.cutting.fences for mark in each.marks]
    assert Fraction("520.05") in {setting for setting, _ in sized}
    assert all(setting in sizes[mark] for setting, mark in sized)


def test_a_panel_saw_and_a_track_saw_have_their_say_in_the_sheet_plan() -> None:
    """Whole sheets are broken down at 1300 mm, three runs of cuts: as many sheets, and the tray by track saw alone."""
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = text.replace("edge_trim: 10}", "edge_trim: 10, stages: 3, break_down: {max_length: 1300}}")
    loaded = read_spec(text, "demo.yml")
    plans = compute(solve(loaded))[0].cutting
    assert (plans.longest_part, plans.allowance) == (1300, 5)
    counted = {each.material: each.sheets for each in plans.sheet_summaries}
    assert counted == {"ply-12": 3, "ply-6": 1, "ply-18": 1, "mdf-18": 1}
    assert max(each.stages for each in plans.sheet_summaries) <= 3
    assert len([cut for sheet in plans.sheets for cut in sheet.cuts if cut.by_track]) == sum(
        each.track_cuts for each in plans.sheet_summaries
    )
    for sheet in plans.sheets:
        for cut in sheet.cuts:
            assert cut.by_track == (max(cut.l, cut.w) > 1300)
    fenced = {(f.material, sheet, n) for f in plans.fences for sheet, n in f.cuts}
    assert len(fenced) == sum(not cut.by_track for sheet in plans.sheets for cut in sheet.cuts)
    tray = [cut for sheet in plans.sheets for cut in sheet.cuts if "PAN" in cut.marks]
    assert tray and all(cut.by_track for cut in tray)
