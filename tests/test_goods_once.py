"""Goods are found by their names once, where the spec is loaded; what follows from them asks for no card's class."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.spec import goods, joints, stands
from generator.spec.item import Node
from tests.test_floors import FLOOR_OF, MODULES, name_of, room_of

#: Rooms and modules whose kinds may tell their own card from another's.
KINDS = ("bench/joints/", "bench/stands/", "bench/fillings/pulls.py")
CARDS = {
    name
    for module in (goods, joints, stands)
    for name, each in vars(module).items()
    if isinstance(each, type) and issubclass(each, Node)
}
AFTER = [
    path
    for path in MODULES
    if room_of(path) in FLOOR_OF
    and FLOOR_OF[room_of(path)] >= FLOOR_OF["bench"]
    and not name_of(path).startswith(KINDS)
]


def asked(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Every card whose class is asked for, by `isinstance` or in a pattern, with its line."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "isinstance":
            names = {each.id for each in ast.walk(node.args[1]) if isinstance(each, ast.Name)}
        elif isinstance(node, ast.MatchClass) and isinstance(node.cls, ast.Name):
            names = {node.cls.id}
        else:
            continue
        yield from ((node.lineno, name) for name in names & CARDS)


def test_the_cards_are_known() -> None:
    assert {
        "Profile",
        "Sheet",
        "Strip",
        "Slide",
        "SlotNut",
        "Bracket",
        "EndClip",
        "ThroughScrew",
        "Caster",
    } <= CARDS


@pytest.mark.parametrize("path", AFTER, ids=name_of)
def test_no_card_is_asked_for_its_class(path: Path) -> None:
    found = list(asked(ast.parse(path.read_text(encoding="utf-8"))))
    assert not found, f"{name_of(path)}: {found}: take it from `goods`, which has it by what it is for"


@pytest.mark.parametrize("path", AFTER, ids=name_of)
def test_goods_are_resolved_by_the_spec_alone(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    called = {
        node.func.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert "chosen_goods" not in called, f"{name_of(path)}: the loaded spec carries its goods"
