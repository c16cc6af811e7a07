"""A first spec of timber: a card of a timber, or of a joint between timbers, makes a frame of timber that builds."""

from __future__ import annotations

from functools import cache

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import Severity
from generator.spec.cards import typical_cards
from generator.spec.joints import KINDS
from generator.spec.load import LoadedSpec, read_spec
from generator.writers.starter import starter_text
from generator.writers.starter_goods import UnsuitedCardsError
from tests.effort import sample

IN_SLOTS = ("end clip", "through screw")
OF_TIMBER = [
    name
    for entries in typical_cards().values()
    for name, card in entries.items()
    if card.get("kind") == "timber" or (card.get("kind") in KINDS and card["kind"] not in IN_SLOTS)
]
#: What a first bench may warn of: its drawers and its mass, and what a card of another unit brings with it.
MAY_WARN = {"drawers-open", "lift-weight", "screw-in-end", "pocket-edge"}


@cache
def loaded(units: str, *cards: str) -> LoadedSpec:
    return read_spec(starter_text(units, 2, cards), "starter.yml")


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("card", sample(OF_TIMBER, 4))
def test_each_card_of_timber_makes_a_frame_of_timber_without_an_error(card: str, units: str) -> None:
    spec = loaded(units, card)
    figures, findings = compute(solve(spec))
    assert spec.spec.frame.system == "timber"
    assert {each.code for each in findings if each.severity > Severity.NOTE} <= MAY_WARN
    assert "unused-name" not in {each.code for each in findings}
    assert figures.assembly.proved and figures.joinery


def test_the_card_that_was_asked_for_is_written_out_and_used() -> None:
    text = starter_text("mm", 2, ("beech 70 x 70", "bridle"))
    assert "  leg: {kind: timber, label: planed beech, section: [70 mm, 70 mm]" in text
    assert "  bridle: {kind: bridle, stub: 12 mm, open_time: 20}" in text
    assert {joint.kind for joint in solve(read_spec(text, "starter.yml")).joints} == {"bridle", "barrel bolt"}


def test_posts_and_rails_can_be_of_two_timbers() -> None:
    spec = loaded("in", "Douglas fir 4 x 6 in", "Douglas fir 4 x 4 in")
    assert (spec.spec.frame.posts, spec.spec.frame.rails) == ("leg", "rail")


@pytest.mark.parametrize(
    ("cards", "words"),
    [
        (("half lap", "tenon 23"), "both for `frame.joints.default`"),
        (("beech 70 x 70", "half lap"), "does not suit posts of 'beech 70 x 70'"),
        (("Douglas fir 4 x 4 in", "barrel bolt M8"), "does not suit posts of 'Douglas fir 4 x 4 in'"),
        (("beech 70 x 70", "Douglas fir 4 x 6 in"), "not as thick as posts"),
    ],
)
def test_cards_that_do_not_go_together_are_refused(cards: tuple[str, ...], words: str) -> None:
    with pytest.raises(UnsuitedCardsError, match=words):
        starter_text("mm", 2, cards)


def test_a_card_of_slots_alone_still_makes_a_frame_of_bars() -> None:
    assert loaded("mm", "profile 45").spec.frame.system != "timber"
    assert loaded("mm").spec.frame.system != "timber"
