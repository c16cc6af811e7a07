"""Kinds stay at home: how often what stands above the bench floor still knows one by name, as limits that only fall."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.bench.fillings import FILLINGS
from generator.bench.stands import STANDS
from generator.spec.fillings import ITEMS
from tests.test_floors import FLOOR_OF, MODULES, PACKAGE, name_of, room_of

TEMPLATES = sorted((PACKAGE.parent / "site_templates").rglob("*.jinja"))
ABOVE = [path for path in MODULES if FLOOR_OF.get(room_of(path), 0) > FLOOR_OF["bench"]]

#: Comparisons and `isinstance` by which a module above the bench floor asks for one kind. Only fewer: goal 40.
LITERALS = 26
#: Lines above the bench floor, and in templates, with a word that belongs to one kind of filling or stand. Only fewer.
WORDS, WORDS_IN_TEMPLATES = 268, 49

#: Places above the bench floor that ask what the members of the frame are: its profile, its timbers, its slots.
ASKS_OF_MEMBERS, ASKS_IN_TEMPLATES = 29, 36

#: What only one kind of filling or stand has.
OF_A_KIND = re.compile(
    r"(?<![a-z])(casters?|wheels?|drawers?|totes?|shelf|shelves|runners?|cleats?|packing|slides?)(?![a-z])",
    re.I,
)


def goods() -> dict[str, str]:
    """Word -> class of every card that the spec has a kind of."""
    found = {}
    for path in (PACKAGE / "spec").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.ClassDef):
                continue
            for field in node.body:
                if isinstance(field, ast.AnnAssign) and ast.unparse(field.target) == "kind":
                    words = re.findall(r"'([^']+)'", ast.unparse(field.annotation))
                    found |= dict.fromkeys(words, node.name)
    return found


GOODS = goods()
#: Goods by their whole name and by its noun, items of a stack, kinds of rooms.
KIND_WORDS = (
    set(GOODS)
    | {word.split()[-1] for word in GOODS}
    | set(ITEMS)
    | {word for kind in FILLINGS for word in (kind.kind, kind.one)}
    | {kind.kind for kind in STANDS}
)
KIND_CLASSES = set(GOODS.values()) | {"ToteCard"} | {kind.placed.__name__ for kind in FILLINGS}


def literals(tree: ast.AST) -> Iterator[int]:
    """Lines that compare with a word of a kind or with the words of a group, or that ask for a class of goods."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = [each for side in (node.left, *node.comparators) for each in members(side)]
            words = {each.value for each in sides if isinstance(each, ast.Constant)}
            named = [each.id for each in sides if isinstance(each, ast.Name)]
            named += [each.attr for each in sides if isinstance(each, ast.Attribute)]
            fixed = any(isinstance(word, str) for word in words) or any(map(str.isupper, named))
            if words & KIND_WORDS or ("group" in named and fixed):
                yield node.lineno
        elif isinstance(node, ast.MatchValue) and ast.unparse(node.value).strip("'") in KIND_WORDS:
            yield node.lineno
        elif isinstance(node, ast.Call) and ast.unparse(node.func) == "isinstance":
            asked = {each.id for each in ast.walk(node.args[1]) if isinstance(each, ast.Name)}
            if asked & KIND_CLASSES:
                yield node.lineno


def members(side: ast.expr) -> Iterator[ast.expr]:
    """The side of a comparison, or what it lists."""
    if isinstance(side, ast.Tuple | ast.List | ast.Set):
        yield from side.elts
    elif isinstance(side, ast.Constant | ast.Name | ast.Attribute):
        yield side


def held(found: Counter[str], limit: int, name: str) -> None:
    """A limit that falls: what is more must go, and what is less lowers it."""
    count = sum(found.values())
    told = ", ".join(f"{place} {many}" for place, many in found.most_common())
    assert count <= limit, f"{count - limit} more than before: let the kind give a fact instead. {told}"
    assert count == limit, f"{limit - count} fewer than before: lower {name} to {count}"


def test_fewer_modules_ask_for_a_kind() -> None:
    found = Counter(
        name_of(path) for path in ABOVE for _ in literals(ast.parse(path.read_text(encoding="utf-8")))
    )
    held(found, LITERALS, "LITERALS")


def lines_of_a_kind(path: Path) -> int:
    return sum(bool(OF_A_KIND.search(line)) for line in path.read_text(encoding="utf-8").splitlines())


def test_fewer_lines_speak_of_one_kind() -> None:
    held(Counter({name_of(path): lines_of_a_kind(path) for path in ABOVE}), WORDS, "WORDS")


def test_fewer_lines_of_templates_speak_of_one_kind() -> None:
    found = Counter({path.name: lines_of_a_kind(path) for path in TEMPLATES})
    held(found, WORDS_IN_TEMPLATES, "WORDS_IN_TEMPLATES")


def asks_of_members(tree: ast.AST) -> Iterator[int]:
    """Lines that take the profile or the timbers of a bench's goods, or ask for its slotted bar."""
    for node in ast.walk(tree):
        taken = isinstance(node, ast.Attribute) and node.attr in ("profile", "timbers")
        if taken or (isinstance(node, ast.Call) and ast.unparse(node.func) == "slotted"):
            yield node.lineno


def test_fewer_modules_ask_what_the_members_of_a_frame_are() -> None:
    found = Counter(
        name_of(path) for path in ABOVE for _ in asks_of_members(ast.parse(path.read_text(encoding="utf-8")))
    )
    held(found, ASKS_OF_MEMBERS, "ASKS_OF_MEMBERS")


def test_fewer_templates_ask_what_the_members_of_a_frame_are() -> None:
    asked = re.compile(r"slot_opening is (?:not )?none|\bslotted\b")
    found = Counter({path.name: len(asked.findall(path.read_text(encoding="utf-8"))) for path in TEMPLATES})
    held(found, ASKS_IN_TEMPLATES, "ASKS_IN_TEMPLATES")


@pytest.mark.parametrize(
    ("source", "count"),
    [
        ("row.kind == 'end clip'", 1),
        ("body.kind in ('bar', 'clip')", 1),
        ("part.group == 'tray'", 1),
        ("part.group in WAITING", 1),
        ("isinstance(card, Slide | Bracket)", 1),
        ("part.group == other.group", 0),
        ("face == 'top'", 0),
        ("isinstance(size, tuple)", 0),
    ],
)
def test_what_is_counted(source: str, count: int) -> None:
    assert len(list(literals(ast.parse(source)))) == count
