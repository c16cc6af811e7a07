"""Laws of the totes on their runners."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings.facts import Solved
from generator.bench.fillings.tote_runners import PlacedTote, default_runner_gap
from generator.bench.law import MEASURE, Case, Law, Verdict, at_least, at_most, bay_path
from generator.bench.layout import bay_of
from generator.bench.remedies import deeper_zone, wider_bay
from generator.calculators.totes import LEAST_BEARING, RIM_PLAY, runner_fit
from generator.codes import Code
from generator.findings import Change


def _runner_gap(case: Case) -> tuple[Change, ...]:
    card = case.spec.totes[str(case.path[1])]
    return case.length(case.path, default_runner_gap(card.rim_width, card.body_width), down=True)


TOTE_BODY = Law(
    Code.TOTE_BODY, "error", "The tote's rim is wider than its body", "The tote's body is wider than its rim",
    "Measure the tote again: `body_width` is measured just below the rim.",
    "The rim carries the tote, so it must be wider than the body.", MEASURE,
    quantity="width of the body",
)  # fmt: skip
TOTE_RIM_HEIGHT = Law(
    Code.TOTE_RIM_HEIGHT, "error", "The tote's rim is the upper part of the tote",
    "The tote's rim is higher than half the tote",
    "Measure again: `rim_height` is from the top of the rim to its underside.",
    "The runners would be too low.", MEASURE,
    quantity="height of the rim",
)  # fmt: skip
TOTE_BEARING = Law(
    Code.TOTE_BEARING, "error", "The rim bears on a runner even when pushed aside",
    "The rim slips off a runner when pushed aside", "Choose a smaller runner gap.",
    "A full tote falls on the one below when you pull it out crooked.", _runner_gap, "tip",
    quantity="width of rim on the runner, worst case",
)  # fmt: skip
TOTE_RIM = Law(
    Code.TOTE_RIM, "error", "The rim passes between the posts", "The rim does not pass between the posts",
    "Widen the bay.", "The tote does not go in.", wider_bay,
    quantity="play of the rim, both sides together",
)  # fmt: skip
TOTE_GAP_LOW = Law(
    Code.TOTE_GAP_LOW, "error", "The body passes between the runners", "The body does not pass between the runners",
    "Choose a larger runner gap.", "The tote does not go in.", _runner_gap,
    quantity="distance between the runners",
)  # fmt: skip
TOTE_GAP_HIGH = Law(
    Code.TOTE_GAP_HIGH, "error", "The runners carry the rim", "The runners are too far apart to carry the rim",
    "Choose a smaller runner gap.", "The tote falls through.", _runner_gap,
    quantity="distance between the runners",
)  # fmt: skip
TOTE_DEPTH = Law(
    Code.TOTE_DEPTH, "error", "The tote fits the zone's depth", "The tote is deeper than the zone",
    "Make the zone deeper.", "It reaches out at the front, where shins are.", deeper_zone,
    quantity="depth left behind the tote",
)  # fmt: skip
LAWS = (TOTE_BODY, TOTE_RIM_HEIGHT, TOTE_BEARING, TOTE_RIM, TOTE_GAP_LOW, TOTE_GAP_HIGH, TOTE_DEPTH)


def tote_verdicts(bench: Solved) -> Iterator[Verdict]:
    """Rims on their runners, totes in their bays."""
    spec, totes = bench.spec, bench.storage.of(PlacedTote)
    for kind in dict.fromkeys(tote.kind for tote in totes):
        card = spec.totes[kind]
        yield at_most(TOTE_BODY, card.body_width, card.rim_width, kind, ("totes", kind, "body_width"))
        yield at_most(TOTE_RIM_HEIGHT, card.rim_height, card.height / 2, kind, ("totes", kind, "rim_height"))
    for (bay_name, kind), cover in {(tote.bay, tote.kind): tote.cover for tote in totes}.items():
        zone, bay = bay_of(bench.layout, bay_name)
        card = spec.totes[kind]
        gap = card.runner_gap or default_runner_gap(card.rim_width, card.body_width)
        width = bay.clear - cover.sides if cover else bay.clear
        fit = runner_fit(card.rim_width, card.body_width, gap, width)
        where, path = f"bay {bay_name}, {kind}", ("totes", kind, "runner_gap")
        yield at_least(TOTE_BEARING, fit.worst, LEAST_BEARING, where, path)
        yield at_least(TOTE_RIM, fit.rim_play, RIM_PLAY, where, (*bay_path(bay), "stack"))
        yield at_least(TOTE_GAP_LOW, fit.gap, fit.gap_min, where, path)
        yield at_most(TOTE_GAP_HIGH, fit.gap, fit.gap_max, where, path)
        room = bench.layout.section + zone.y.size - card.length
        room = room - cover.depth if cover else room
        yield at_least(TOTE_DEPTH, room, Fraction(0), where, ("zones", zone.index, "depth"))
