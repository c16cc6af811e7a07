"""Texts are as easy as a workshop needs: short sentences, short words, and in a step no fragment."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

import pytest

from tests.prints.bench import figures_of
from tests.readable import (
    finding_texts,
    one_word_each,
    page_texts,
    reading,
    step_texts,
    syllables,
)
from tests.test_wording import NAMES, sentences

MOST_WORDS, LEAST_EASE = 14, 65

#: What a maker is asked to do; each begins a sentence.
ACTS = frozenset(
    [
        "bolt",
        "break",
        "build",
        "check",
        "clamp",
        "clear",
        "cut",
        "deburr",
        "do",
        "draw",
        "drill",
        "drive",
        "enter",
        "fit",
        "go",
        "guide",
        "hang",
        "have",
        "hold",
        "join",
        "keep",
        "lay",
        "leave",
        "level",
        "load",
        "lower",
        "make",
        "mark",
        "measure",
        "open",
        "plane",
        "push",
        "put",
        "raise",
        "rest",
        "rip",
        "rout",
        "saw",
        "screw",
        "seal",
        "set",
        "slide",
        "square",
        "stand",
        "stay",
        "stop",
        "strap",
        "support",
        "take",
        "tape",
        "tighten",
        "tilt",
        "try",
        "turn",
        "use",
        "work",
        "write",
    ]
)
#: What makes a sentence of one that does not begin with an act.
VERBS = re.compile(
    r"\b(?:is|are|must|can|cannot|will|may|need|needs|close|fit|agree|gets?|differ|differs|goes|passes|slides|turns|"
    r"drops|comes|cracks|says?|tighten|screw|put|use|keep|block|blocks|shows?|moves|lifts)\b"
)


def is_a_fragment(sentence: str) -> bool:
    # an act on a condition: "If not, level it again."
    said = re.sub(r"^If [^,]+, ", "", sentence).removeprefix("Then ")
    first = said.split()[0].lower().strip(",:")
    return first not in ACTS and not VERBS.search(sentence)


def test_ease_is_flesch_s() -> None:
    """Six words of one syllable: 206.835 - 1.015 × 6 - 84.6 = 116.145, as every account of the formula has it."""
    read = reading(["The cat sat on the mat."])
    assert (read.words, read.count) == (6, 1)
    assert read.ease == pytest.approx(116.145)


@pytest.mark.parametrize(
    ("word", "count"), [("the", 1), ("member", 2), ("measured", 2), ("assembly", 3), ("cross-member", 3)]
)
def test_syllables_are_those_of_the_word_as_it_is_said(word: str, count: int) -> None:
    assert syllables(word) == count


def test_marks_numbers_and_units_are_one_word_each() -> None:
    said = one_word_each("Cut C1–C3 to 23 5/8 in, then B12 to 1.2 m (±0.5 mm).")
    assert said == "Cut mark to number unit then mark to number unit number unit"


def test_steps_are_easy_to_read() -> None:
    read = reading([text for name in NAMES for text in step_texts(figures_of(name))])
    assert read.count > 100
    assert read.words < MOST_WORDS and read.ease > LEAST_EASE, read


def test_findings_are_easy_to_read() -> None:
    read = reading(finding_texts())
    assert read.count > 300
    assert read.words < MOST_WORDS and read.ease > LEAST_EASE, read


def test_pages_are_easy_to_read(shipped: Callable[[str], Mapping[str, bytes]]) -> None:
    pages = {
        f"{name}/{path}": data.decode()
        for name in NAMES
        for path, data in shipped(name).items()
        if path.endswith(".md")
    }
    read = reading(page_texts(pages))
    assert read.count > 1000
    assert read.words < MOST_WORDS and read.ease > LEAST_EASE, read


@pytest.mark.parametrize("name", NAMES)
def test_no_step_has_a_fragment(name: str) -> None:
    said = {one for text in step_texts(figures_of(name)) for one in sentences(text, ".!?")}
    assert {one for one in said if is_a_fragment(one)} == set()


ACT = rf"\b(?:{'|'.join(sorted(ACTS))})\b"
#: A second act in a sentence that begins with one.
SECOND_ACT = re.compile(rf"(?:,| and|, and|, then) {ACT}")


def acts_of(note: str) -> int:
    """How many things a line asks for: sentences that begin with an act, and acts behind an act."""
    asked = [
        one for one in sentences(note, ".!?") if re.match(rf"(?:Then |Only then )?{ACT}", one, re.IGNORECASE)
    ]
    return len(asked) + sum(len(SECOND_ACT.findall(one)) for one in asked)


@pytest.mark.parametrize("name", NAMES)
def test_each_line_of_a_step_asks_for_one_act(name: str) -> None:
    notes = [note for step in figures_of(name).assembly.steps for note in step.notes]
    assert sum(acts_of(note) == 1 for note in notes) > 50
    assert [note for note in notes if acts_of(note) > 1] == []


def test_a_second_act_is_found() -> None:
    assert acts_of("Set the post by the Y stick and tighten both screws by hand.") == 2
    assert acts_of("Push the lower clip in. Then set the post.") == 2


@pytest.mark.parametrize(
    "fragment", ["Bottom slots: B1 6, C7 4.", "Heavy or long: not alone.", "40 nuts in total."]
)
def test_a_fragment_is_found(fragment: str) -> None:
    assert is_a_fragment(fragment)
