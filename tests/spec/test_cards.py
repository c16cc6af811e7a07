"""The shipped cards are read as a spec is."""

from __future__ import annotations

from generator.resources import bundled
from generator.spec.cards import typical_cards
from generator.spec.reader import read_document


def test_the_cards_are_what_the_reader_of_specs_finds_in_their_file() -> None:
    text = (bundled("specs") / "cards.yml").read_text(encoding="utf-8")
    assert typical_cards() == read_document(text, "cards.yml").data
