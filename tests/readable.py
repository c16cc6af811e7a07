"""How readable the texts for a user are; run as a module, it prints sentence length and reading ease of each group.

A list of places or marks is no sentence. Marks, numbers and units are one word each: their letters say nothing of how
hard a text is. Reading ease is Flesch's: 60 is plain English, 100 is very easy; syllables are those of a dictionary.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields

import syllapy

from generator.codes import Code
from generator.figures.checks.judge import LAWS
from generator.figures.model import Figures
from generator.manual import Manual
from generator.pages import PAGES
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.prints.bench import figures_of
from tests.test_wording import FOR_CHECKING, NAMES, is_a_list, sentences

#: A piece's mark, a run of marks; a thread or a size; a number with its fraction; a unit.
_ONE_WORD = (
    (re.compile(r"\b(?:[A-Z]{1,3}\d+(?:[–/]\w+)?|PAN|TOP|M\d+(?:x\d+)?)\b"), "mark"),
    (re.compile(r"[±Ø]?-?\d[\d.,/x×–-]*(?: \d+/\d+)?%?"), "number"),
    (re.compile(r"\b(?:mm|in|ft|m|kg|lb|N|kN|N·m|lbf|rpm|GPa|°C|sq)\b(?=[\s.,;:)]|$)(?<!\bin(?= ))"), "unit"),
)
#: Whole lines of a page that stand on every page, or that belong to paper: they would count 27 times.
_ON_EVERY_PAGE = re.compile(
    r"· spec |^Measure every part from its left|General tolerance|^Lengths of the frame"
)


@dataclass(frozen=True)
class Reading:
    """Mean words in a sentence, Flesch reading ease, sentences."""

    words: float
    ease: float
    count: int


def one_word_each(sentence: str) -> str:
    """The sentence with marks, numbers and units as one word each, without signs."""
    for pattern, word in _ONE_WORD:
        sentence = pattern.sub(word, sentence)
    return " ".join(re.findall(r"[A-Za-z][\w'’-]*", sentence))


def reading(texts: Iterable[str]) -> Reading:
    """Of all sentences of some texts, each once."""
    found = dict.fromkeys(
        plain
        for text in texts
        for sentence in sentences(text, ".!?")
        if not is_a_list(sentence) and len((plain := one_word_each(sentence)).split()) > 2
    )
    words = [word for plain in found for word in plain.split()]
    per_sentence = len(words) / len(found)
    per_word = sum(map(syllables, words)) / len(words)
    # R. Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948)
    return Reading(per_sentence, 206.835 - 1.015 * per_sentence - 84.6 * per_word, len(found))


def syllables(word: str) -> int:
    """Of a word as it is said; parts of a word with hyphens one by one."""
    return sum(max(1, syllapy.count(part)) for part in word.lower().split("-") if part)


def step_texts(figures: Figures) -> list[str]:
    """What a maker does: notes and checks of the steps, set-up cards."""
    steps = [line for step in figures.assembly.steps for line in (*step.notes, *step.hold, *step.final)]
    return [*steps, *(line for card in figures.setups for line in (*card.steps, card.gauge))]


def finding_texts() -> list[str]:
    """What a check says when it fails, what to do and why; why a fault of a spec matters."""
    said = [getattr(law, field.name) for law in LAWS for field in fields(law) if field.name in _SAID]
    return [
        text if text.endswith((".", "?")) else f"{text}." for text in (*said, *(c.why for c in Code)) if text
    ]


_SAID = ("fails", "advice", "why")


def page_texts(pages: Mapping[str, str]) -> list[str]:
    """All lines of pages, but for the workings and what each page repeats."""
    return [
        line
        for path, page in pages.items()
        if not path.endswith(FOR_CHECKING)
        for line in page.split("\n")
        if not _ON_EVERY_PAGE.search(line) and not line.startswith("#")
    ]


def main() -> None:
    """Print the three groups."""
    steps: list[str] = []
    pages: dict[str, str] = {}
    for name in NAMES:
        loaded = read_spec_file(bundled("specs") / f"{name}.yml")
        figures = figures_of(name)
        steps += step_texts(figures)
        manual = Manual(loaded, figures, f"{name}.yml")
        pages |= {f"{name}/{page.file}": manual.page(page) for page in PAGES}
    for group, texts in (("steps", steps), ("findings", finding_texts()), ("pages", page_texts(pages))):
        read = reading(texts)
        print(f"{group:9} {read.count:5} sentences, {read.words:5.2f} words each, ease {read.ease:5.1f}")  # noqa: T201


if __name__ == "__main__":
    main()
