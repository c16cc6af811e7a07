"""Brackets that fix panels, and those in corners: where they are, and what they keep clear of."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise

from generator.bench.fillings.gussets import gussets
from generator.bench.fillings.panel_brackets import by_panel
from generator.bench.model import Bench
from generator.figures.checks.check_result import CheckResult
from generator.figures.checks.openings import opening_checks
from generator.spec.adapt import adapted
from tests.bench.benches import DEMO, STACK, codes, part, solved

FIXED = adapted(
    STACK % "",
    [
        ("panels.fix.ends.spacing", "200"),
        ("panels.fix.back.spacing", "200"),
        ("frame.gussets.at", "[long corners, inner posts, end corners]"),
    ],
)


def bench() -> Bench:
    return solved(FIXED)


def test_no_two_brackets_of_an_edge_are_farther_apart_than_the_spacing() -> None:
    places: dict[tuple[str, str], list[Fraction]] = {}
    for panel, found in by_panel(bench()):
        for each in found:
            (bolt,) = each.bolts
            places.setdefault((panel.mark, bolt.bar), []).append(bolt.at)
    assert {mark for mark, _ in places} == {"EF1", "EF2", "BP1", "BP2"}
    for along in places.values():
        gaps = [b - a for a, b in pairwise(along)]
        assert len(along) >= 2 and all(0 < gap <= 200 for gap in gaps)


def test_brackets_are_outside_and_clear_of_all_that_is_cut_into_their_bars() -> None:
    for _, found in by_panel(bench()):
        for each in found:
            (bolt,) = each.bolts
            bar = part(bench(), bolt.bar)
            assert bolt.face == {"-x": "left", "+x": "right", "+y": "rear"}[each.out]
            for operation in bar.operations:
                if operation.face == bolt.face and operation.op != "tap":
                    size = operation.size[0] if isinstance(operation.size, tuple) else operation.size
                    apart = abs(bar.box.span(bar.along).low + operation.at[0] - bolt.at)
                    assert apart >= size / 2 + 12


def test_two_panels_of_a_post_have_their_brackets_beside_each_other() -> None:
    shared = Counter(bolt.bar for _, found in by_panel(bench()) for each in found for bolt in each.bolts)
    (post,) = (mark for mark in shared if part(bench(), mark).role.value == "inner post")
    heights = [
        bolt.at for _, found in by_panel(bench()) for e in found for bolt in e.bolts if bolt.bar == post
    ]
    assert min(abs(a - b) for n, a in enumerate(heights) for b in heights[n + 1 :]) >= 30


def test_a_bracket_in_each_corner_under_the_top() -> None:
    """Four at the corner posts along, four across, one at each of both inner posts; four bolts each."""
    found = gussets(bench())
    assert Counter(each.out for each in found) == {"-y": 3, "+y": 3, "-x": 2, "+x": 2}
    assert all(len(each.bolts) == 4 for each in found)
    top = bench().layout.levels.frame_height - bench().layout.section
    assert {each.body.bounds[5] for each in found} == {float(top)}


def test_a_back_of_two_zones_is_refused() -> None:
    assert codes(adapted(DEMO, [("panels.fix.back.spacing", "150")])) == ["wall-without-place"]


def blocked(text: str) -> list[CheckResult]:
    """Openings that a bracket covers."""
    return [
        each for each in opening_checks(solved(text)) if not each.check.ok and "bracket" in each.check.where
    ]


def test_no_screw_of_a_bracket_is_in_an_opening() -> None:
    """An opening in the middle of a leg on the panel is told, with a place that is free."""
    panel, found = next((panel, found) for panel, found in by_panel(bench()) if panel.mark == "BP1")
    # the leg that is wholly on the panel is the last of the three plates
    leg = found[len(found) // 2].body.blocks[2]
    corner = (float(panel.box.span(panel.along).low), float(panel.box.span(panel.across).low))
    at = [(leg[n] + leg[n + 3]) / 2 - low for n, low in zip((0, 2), corner, strict=True)]
    text = adapted(FIXED, [("panels.cutouts", f"[{{in: BP1, at: [{at[0]}, {at[1]}], diameter: 20}}]")])
    (told,) = blocked(text)
    assert told.check.code == "opening-blocked" and told.remedy
    moved = adapted(text, [(change.path, change.value) for change in told.remedy])
    assert blocked(moved) == []
