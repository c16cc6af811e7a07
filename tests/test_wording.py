"""Plain workshop English: no word that a reader must read twice, no sentence of more than 30 words, on any page.

The rules are those of the contributor's guide: the trade's word or the plain one, verb first in a step, one act a
sentence. A list of marks or places is no sentence.
"""

from __future__ import annotations

import ast
import html
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from pathlib import Path

import pytest

import generator
from generator.figures.checks.judge import LAWS
from generator.pages.glossary import TERMS
from tests.prints.bench import figures_of

NAMES = ("demo", "wall-bench", "starter")

#: Words and turns that stop a reader, with the plain ones beside them.
AVOIDED = {
    "told": "said",
    r"reckon\w*": "allow",
    "so many": "a number",
    "whoever": "who",
    "would do": "is enough",
    "does not do": "is not enough",
    "alike": "the same, equal",
    "persons": "people",
    "at worst": "worst case",
    "turns a minute": "rpm",
    "in the hand": "feel",
    "day by day": "log",
    "anybody": "anyone",
    "somebody": "someone",
    r"stands(?! on\b)": "is",
    "lies": "is",
    "is not to be": "do not",
    "are not to be": "do not",
    "that which": "what",
    "finger tight": "by hand",
    "all in one go": "at one setting",
}
WORDS = re.compile(rf"\b(?:{'|'.join(AVOIDED)})\b", re.IGNORECASE)
MOST_WORDS, MOST_IN_A_STEP = 30, 20

#: The working of every figure is read by those who check a formula, not at the saw.
FOR_CHECKING = "working.md"


def plain(page: str) -> str:
    """The words of a page: no drawing, no link target, no code, each cell and each item on a line of its own."""
    page = re.sub(r"<(svg|pre|style)\b.*?</\1>|```.*?```", "", page, flags=re.DOTALL)
    page = re.sub(r"<code>.*?</code>|`[^`]*`", "code", page)
    page = re.sub(r"\[([^\]]*)\]\([^)]*\)(?:\{[^}]*\})?", r"\1", page)
    page = re.sub(r"<br>|</(?:li|td|dd|dt|th|p|h\d|figcaption|label)>", "\n", page)
    return html.unescape(re.sub(r"<[^>]+>|\{[^}]*\}", "", page)).replace("**", "")


def sentences(page: str, ends: str = ".!?:;") -> Iterator[str]:
    """What ends with one of these signs, or with its line."""
    for line in plain(page).split("\n"):
        cells = line.strip().strip("|").split(" | ") if line.startswith("|") else [line]
        for cell in cells:
            text = cell.strip().lstrip("#>*-!. ")
            yield from (each for each in re.split(rf"(?<=[{ends}])\s+", text) if len(each.split()) > 2)


def is_a_list(sentence: str) -> bool:
    """Marks, items or places one after another."""
    return sentence.count(",") + sentence.count(";") >= 6


@pytest.fixture(scope="module")
def pages(shipped: Callable[[str], Mapping[str, bytes]]) -> dict[str, str]:
    files = {f"{name}/{path}": data for name in NAMES for path, data in shipped(name).items()}
    return {
        path: data.decode()
        for path, data in files.items()
        if path.endswith(".md") and not path.endswith(FOR_CHECKING)
    }


def test_no_page_has_a_word_that_must_be_read_twice(pages: dict[str, str]) -> None:
    found = {
        (word.lower(), sentence)
        for page in pages.values()
        for sentence in sentences(page)
        for word in WORDS.findall(sentence)
    }
    assert found == set()


#: Pages that name keys of the spec as they are written, or the second words themselves.
KEYS_AS_WRITTEN = ("glossary.md", "spec-reference.md", "assumed-values.md")
#: Names of goods that their key in the language fixes, though they have a second word for something.
FIXED = re.compile(r"drawer front (?:screw|and back)")
#: Second words that only the parts of a bench have, beside those that the glossary names.
SECOND = {
    "drawer face": ("drawer fronts?",),
    "centre": ("centers?",),
    "check": ("hold points?",),
    "rear": (r"back (?:left|right|middle|edge|posts?|rails?)", r"(?:base|top|to the|at the) back"),
    "aluminium": ("aluminum",),
    "torque in N m": ("N·m", "Nm"),
}


def test_one_thing_has_one_word_on_all_pages(pages: dict[str, str]) -> None:
    """The glossary names other words for a thing: there a reader finds them, and on no other page."""
    seconds = [re.escape(word) + "s?" for term in TERMS for word in term.elsewhere]
    seconds += [word for words in SECOND.values() for word in words]
    assert len(seconds) > 40
    assert {term.name for term in TERMS} & {word for term in TERMS for word in term.elsewhere} == set()
    second = re.compile(rf"(?<![\w-])(?:{'|'.join(seconds)})(?![\w-])", re.IGNORECASE)
    found = {
        (word, path, line)
        for path, page in pages.items()
        if not path.endswith(KEYS_AS_WRITTEN)
        for line in plain(page).split("\n")
        for word in second.findall(FIXED.sub("", line))
    }
    assert found == set()


def test_no_word_leads_to_two_places_of_the_glossary() -> None:
    forms = [form for term in TERMS for form in (term.name, *term.forms)]
    assert [form for form in forms if forms.count(form) > 1] == []


def test_no_term_is_linked_in_the_reading_in_the_other_unit(pages: dict[str, str]) -> None:
    """A link in an attribute ends it: the rest of it would stand on the page."""
    broken = {path: found for path, page in pages.items() if (found := re.findall(r'data-o="[^"]*\[', page))}
    assert broken == {}
    heads = [page.split("\n")[2] for page in pages.values()]
    assert [head for head in heads if "· spec " not in head or "glossary.md" in head] == []


def test_a_second_word_is_found() -> None:
    (rabbet,) = [term for term in TERMS if term.name == "rabbet"]
    assert "rebate" in rabbet.elsewhere
    assert all(0 < len(re.findall(r"[.]", term.meaning)) <= 2 for term in TERMS)


def test_no_sentence_on_a_page_is_long(pages: dict[str, str]) -> None:
    long = {
        (len(sentence.split()), path, sentence)
        for path, page in pages.items()
        for sentence in sentences(page)
        if len(sentence.split()) > MOST_WORDS and not is_a_list(sentence)
    }
    assert long == set()


def test_no_sentence_of_a_check_must_be_read_twice() -> None:
    texts = [
        str(getattr(law, field.name))
        for law in LAWS
        for field in fields(law)
        if field.name in ("holds", "fails", "advice", "why")
    ]
    assert len(texts) > 400
    assert [text for text in texts if WORDS.search(text)] == []
    assert [text for text in texts for one in sentences(text) if len(one.split()) > MOST_WORDS] == []


def test_a_share_of_a_size_has_no_unit(pages: dict[str, str]) -> None:
    """The pull's place is two shares of the face, of no length."""
    lines = plain(pages["demo/docs/assumed-values.md"]).split("\n")
    (line,) = [line for line in lines if "0.5, 0.5" in line]
    assert "mm" not in line


@pytest.mark.parametrize("name", NAMES)
def test_a_step_says_one_act_in_a_short_sentence(name: str) -> None:
    told = [line for step in figures_of(name).assembly.steps for line in (*step.notes, *step.hold)]
    assert told
    long = [
        one
        for line in told
        for one in sentences(line)
        if len(one.split()) > MOST_IN_A_STEP and not is_a_list(one)
    ]
    assert long == []


def test_what_the_page_of_workings_prints_of_a_rule_is_no_code() -> None:
    """It is the first paragraph of the calculator's text."""
    printed = {}
    for path in sorted((Path(generator.__file__).parent / "calculators").rglob("*.py")):
        for each in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(each, ast.FunctionDef) and {"rule", "formula"} & {
                name.id
                for made in each.decorator_list
                for name in ast.walk(made)
                if isinstance(name, ast.Name)
            }:
                printed[each.name] = (ast.get_docstring(each) or "").split("\n\n")[0]
    assert len(printed) > 100
    assert [name for name, text in printed.items() if re.search(r"`|\bNone\b|\bTrue\b", text)] == []
