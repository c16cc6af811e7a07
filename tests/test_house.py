"""The house stays readable: short rooms and functions, classes with names of their own, and no knots of imports."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

from tests.test_floors import MODULES, PACKAGE, name_of

MOST_LINES = 400
MOST_LINES_OF_A_FUNCTION = 60


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_and_its_functions_are_short(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") <= MOST_LINES, f"{name_of(path)}: which is the second noun in it?"
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert node.end_lineno is not None
            lines = node.end_lineno - node.lineno + 1
            assert lines <= MOST_LINES_OF_A_FUNCTION, (
                f"{name_of(path)}:{node.lineno}: {node.name}, {lines} lines"
            )


def test_no_two_classes_have_one_name() -> None:
    places: dict[str, list[str]] = defaultdict(list)
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef):
                places[node.name].append(f"{name_of(path)}:{node.lineno}")
    assert {name: each for name, each in places.items() if len(each) > 1} == {}


def module_of(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts).removesuffix(".__init__")


def statements(body: list[ast.stmt]) -> Iterator[ast.stmt]:
    """Those that run when a module is imported."""
    for each in body:
        yield each
        if isinstance(each, ast.If) and not (
            isinstance(each.test, ast.Name) and each.test.id == "TYPE_CHECKING"
        ):
            yield from statements([*each.body, *each.orelse])


def imported(tree: ast.Module, known: set[str]) -> Iterator[str]:
    """Modules that must be there before this one, with the packages in which they lie."""
    for node in statements(tree.body):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [each.name for each in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module, *(f"{node.module}.{each.name}" for each in node.names)]
        for name in names:
            steps = name.split(".")
            yield from (each for n in range(1, len(steps) + 1) if (each := ".".join(steps[:n])) in known)


def knots(trees: dict[str, ast.Module]) -> list[str]:
    """The first circle of modules that need each other at import; empty when there is none."""
    graph = {
        name: {each for each in imported(tree, set(trees)) if not f"{name}.".startswith(f"{each}.")}
        for name, tree in trees.items()
    }
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        return list(error.args[1])
    return []


def test_any_module_can_be_imported_first() -> None:
    """Rooms that need each other only work as long as the right one happens to come first."""
    assert knots({module_of(path): ast.parse(path.read_text(encoding="utf-8")) for path in MODULES}) == []


def test_a_planted_knot_is_found() -> None:
    """Whoever wants a module of a package takes all that its `__init__` takes."""
    sources = {
        "a": "from a.one import x",
        "a.one": "from b.two import y",
        "b": "from b.three import z",
        "b.two": "",
        "b.three": "from a.four import w",
        "a.four": "",
    }
    assert knots({name: ast.parse(text) for name, text in sources.items()}) != []
    sources["b.three"] = "if TYPE_CHECKING:\n    from a.four import w"
    assert knots({name: ast.parse(text) for name, text in sources.items()}) == []
