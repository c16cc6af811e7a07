"""Messages, help, schema and README: the same plain workshop English as the pages, in every text that a user reads.

A text is a string of two words or more in the code that is no docstring, the reason behind a code, the help of a
command or of its option, the description of a key, a line of the README, and what `new` writes.
"""

from __future__ import annotations

import ast
import gc
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import click
import pytest

from generator.cli import commands
from generator.codes import Code
from generator.spec.editor_schema import schema_json
from generator.spec.json_schema import schema_data
from generator.writers.starter import starter_text
from tests.test_wording import AVOIDED, MOST_WORDS, is_a_list, sentences

ROOT = Path(__file__).resolve().parents[1]
HOUSE = ROOT / "generator"

#: Turns of messages that must be taken apart to be understood, with the plain ones beside them.
TURNS = {
    r"(?<!there )is no(?! longer| more)": "is not a",
    "is none": "is not one",
    "to be had": "there is",
    "are to be": "must",
    "may not be": "cannot be",
    "in one go": "at once",
    "all the same": "anyway",
    "whatever": "any",
    "of its own": "own",
    "thought through": "worked out",
    "maybe": "say true or false",
    "this cannot be": "is not possible",
    "measures and": "has",
    "lie(?! flat)": "are",
    "what is asked": "what you need",
    "who wants": "to",
    "so much": "this many",
    "for it is": "because it is",
    "by the piece": "singly",
    "those that": "the ones that",
    "one's own": "your own",
}
WORDS = re.compile(rf"\b(?:{'|'.join(AVOIDED | TURNS)})\b", re.IGNORECASE)

#: A string of one word is a name or a key.
LEAST_WORDS = 2

#: Texts that a word of the lists fits, each with its reason.
ALLOWED: dict[str, str] = {}


def _text(node: ast.AST) -> str:
    """A string as a user meets it: each value that is filled in is one word."""
    if isinstance(node, ast.JoinedStr):
        return "".join(_text(piece) if isinstance(piece, ast.Constant) else "it" for piece in node.values)
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def strings_of_the_code() -> Iterator[tuple[str, str]]:
    """Where it is, and what it says: no docstring, no formula, no piece of a longer string."""
    for path in sorted(HOUSE.rglob("*.py")):
        place = path.relative_to(HOUSE).as_posix()
        quiet: set[int] = set()
        for node in ast.walk(
            ast.parse(path.read_text(encoding="utf-8"))
        ):  # what holds a string comes before it
            if isinstance(node, ast.Expr):
                quiet.add(id(node.value))
            elif isinstance(node, ast.JoinedStr):
                quiet |= {id(piece) for piece in node.values}
            elif not isinstance(node, ast.Constant):
                continue
            if (
                id(node) not in quiet
                and len((text := _text(node)).split()) >= LEAST_WORDS
                and "**" not in text
            ):
                yield f"{place}:{node.lineno}", text


def helps() -> Iterator[tuple[str, str]]:
    """The help of every command and of every option."""
    waiting: list[tuple[str, click.Command]] = [("bench-manual", commands)]
    while waiting:
        name, command = waiting.pop()
        yield name, command.help or ""
        for option in command.params:
            yield f"{name} {option.name}", getattr(option, "help", None) or ""
        if isinstance(command, click.Group):
            waiting += [(f"{name} {each}", below) for each, below in command.commands.items()]


def descriptions(node: Any, place: str = "schema") -> Iterator[tuple[str, str]]:
    """The description of every key and of every group of keys."""
    if isinstance(node, dict):
        if isinstance(node.get("description"), str):
            yield place, node["description"]
        for key, below in node.items():
            yield from descriptions(below, f"{place}.{key}")
    elif isinstance(node, list):
        for below in node:
            yield from descriptions(below, place)


def texts() -> dict[str, list[tuple[str, str]]]:
    return {
        "code": list(strings_of_the_code()),
        "reasons": [(code.value, code.why) for code in Code],
        "help": list(helps()),
        "schema": list(descriptions(schema_data())),
        "README": [
            ("README", line) for line in (ROOT / "README.md").read_text(encoding="utf-8").splitlines()
        ],
        "CHANGELOG": [
            ("CHANGELOG", re.sub(r"`[^`]*`", "code", line))
            for line in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8").splitlines()
        ],
        "starter": [("starter", line.partition("#")[2]) for line in starter_text("in", 3, ()).splitlines()],
    }


@pytest.fixture(scope="module")
def read() -> dict[str, list[tuple[str, str]]]:
    gc.disable()  # a tree is many small nodes: a search for garbage among them takes longer than to read them
    try:
        return texts()
    finally:
        gc.enable()


def test_every_kind_of_text_is_read(read: dict[str, list[tuple[str, str]]]) -> None:
    least = {
        "code": 1500,
        "reasons": 150,
        "help": 40,
        "schema": 150,
        "README": 50,
        "CHANGELOG": 80,
        "starter": 20,
    }
    assert {kind for kind, found in read.items() if len(found) < least[kind]} == set()


def test_no_text_has_a_word_that_must_be_read_twice(read: dict[str, list[tuple[str, str]]]) -> None:
    found = [
        f"{place}: {word}: {text}"
        for kind in read.values()
        for place, text in kind
        if text not in ALLOWED
        for word in WORDS.findall(text)
    ]
    assert found == []


def test_no_sentence_of_a_text_is_long(read: dict[str, list[tuple[str, str]]]) -> None:
    found = [
        f"{place}: {len(one.split())} words: {one}"
        for kind in read.values()
        for place, text in kind
        for one in sentences(" ".join(text.split()))
        if len(one.split()) > MOST_WORDS and not is_a_list(one)
    ]
    assert found == []


def test_the_schema_of_an_editor_names_default_or_typical_value_of_each_key() -> None:
    data = json.loads(schema_json())
    keys = {
        f"{group}.{key}": entry
        for group, model in {"Spec": data, **data["$defs"]}.items()
        for key, entry in model.get("properties", {}).items()
    }
    assert keys["Panels.groove_clearance"]["description"].endswith("Default: 0.2 mm.")
    assert keys["Display.inch_fraction"]["description"].endswith("Default: 1/32.")
    assert keys["Slot.opening"]["description"].endswith("Typical: 8.2 mm.")
    assert keys["ToteCard.rim_width"]["description"].endswith("Typical: 386 mm.")
    assert {
        name for name, entry in keys.items() if "$ref" not in entry and not entry.get("description")
    } == set()
    defaults = {name: entry for name, entry in keys.items() if entry.get("default") not in (None, "", [], {})}
    assert len(defaults) > 60
    assert {name for name, entry in defaults.items() if "Default: " not in entry["description"]} == set()


def test_what_is_allowed_is_still_there(read: dict[str, list[tuple[str, str]]]) -> None:
    assert set(ALLOWED) - {text for kind in read.values() for _, text in kind} == set()
