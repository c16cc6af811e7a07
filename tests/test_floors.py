"""The house has floors: a module imports its own room and lower floors, never a neighbour, never upwards."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "generator"

#: From the ground up. Rooms of one floor do not know each other.
FLOORS: tuple[tuple[str, ...], ...] = (
    ("harms",),
    ("codes",),
    ("units", "readings", "provenance", "findings", "geometry", "resources", "watch", "disk", "names"),
    ("calculators",),
    ("spec",),
    ("bench",),
    ("figures",),
    ("drawings",),
    ("pages", "prints", "writers"),
    ("publish", "templating", "papers"),
    ("manual", "output", "logbook", "earlier", "offcut_file", "unchanged", "quick_markdown"),
    ("site", "booklet", "web_folder", "sharing", "second", "in_sight"),
    ("live", "gallery"),
    ("verbs",),
    ("cli", "hook"),
)
FLOOR_OF = {room: number for number, rooms in enumerate(FLOORS, 1) for room in rooms}

#: What a calculator may use of the house: numbers in, numbers out, and boxes.
CALCULATORS_KNOW = {"calculators", "geometry", "provenance"}
#: Files, clocks, chance and foreign formats have no place in a formula.
FOREIGN = {"os", "io", "sys", "pathlib", "logging", "random", "time", "datetime", "subprocess"}
FOREIGN |= {"yaml", "json", "pint", "pydantic", "jinja2", "mkdocs"}
ACTS = {"open", "print", "input", "exec", "eval"}

MODULES = sorted(path for path in PACKAGE.rglob("*.py") if "_bundled" not in path.parts)


def name_of(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).with_suffix("").parts[0]


def imports(path: Path) -> Sequence[tuple[str, int]]:
    """Every imported module with its line; imports inside functions and for type checkers count as well."""
    return imported(name_of(path), path.read_text(encoding="utf-8"))


@cache
def imported(name: str, text: str) -> Sequence[tuple[str, int]]:
    return tuple(_imported(name, text))


def _imported(name: str, text: str) -> Iterator[tuple[str, int]]:
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, f"{name}:{node.lineno}: write the whole name of the module"
            package = node.module or ""
            names = (
                [f"{package}.{alias.name}" for alias in node.names] if package == "generator" else [package]
            )
            yield from ((name, node.lineno) for name in names)


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_module_imports_its_own_room_and_those_below(path: Path) -> None:
    if path == PACKAGE / "__init__.py":
        assert not imports(path)
        return
    room = room_of(path)
    assert room in FLOOR_OF, f"{name_of(path)}: which floor does {room!r} belong to?"
    for module, line in imports(path):
        top, _, rest = module.partition(".")
        if top != "generator":
            continue
        other = rest.split(".")[0]
        assert other in FLOOR_OF, f"{name_of(path)}:{line}: there is no room {other!r}"
        below = other == room or FLOOR_OF[other] < FLOOR_OF[room]
        assert below, (
            f"{name_of(path)}:{line}: {room} (floor {FLOOR_OF[room]}) imports {other} ({FLOOR_OF[other]})"
        )


def test_which_rooms_are_there(record_property: Callable[[str, object], None]) -> None:
    """Rooms may still be missing; what is there must stand on a floor, and its lower floors must be there."""
    there = {room_of(path) for path in MODULES} - {"__init__"}
    missing = [room for room in FLOOR_OF if room not in there]
    record_property("rooms not yet there", ", ".join(missing) or "none")
    assert there <= set(FLOOR_OF)
    assert {"units", "findings", "geometry", "calculators", "spec", "bench", "figures"} <= there


CALCULATORS = [path for path in MODULES if room_of(path) == "calculators"]


@pytest.mark.parametrize("path", CALCULATORS, ids=name_of)
def test_a_calculator_only_calculates(path: Path) -> None:
    for module, line in imports(path):
        top, _, rest = module.partition(".")
        assert top not in FOREIGN, f"{name_of(path)}:{line}: a calculator imports {module}"
        if top == "generator":
            known = rest.split(".")[0] in CALCULATORS_KNOW
            assert known, f"{name_of(path)}:{line}: a calculator imports {module}"
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in ACTS, (
                f"{name_of(path)}:{node.lineno}: a calculator calls {node.func.id}()"
            )
        assert not isinstance(node, ast.Global | ast.Nonlocal), (
            f"{name_of(path)}:{node.lineno}: state in a calculator"
        )


#: The house of the cutting plans: its rooms, what each may use of the others, and what all others may use of it.
HOUSE = "generator.calculators.cutting"
CUTTING = {"core": {"core"}, "bars": {"core", "bars"}, "sheets": {"core", "sheets"}}


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_the_cutting_plans_are_a_house_of_their_own(path: Path) -> None:
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    inside = parts[:2] == ("calculators", "cutting")
    for module, line in imports(path):
        if not module.startswith(f"{HOUSE}."):
            continue
        room, *within = module.removeprefix(f"{HOUSE}.").split(".")
        assert room in CUTTING, f"{name_of(path)}:{line}: there is no room {room!r}"
        if inside and len(parts) > 3:
            assert room in CUTTING[parts[2]], f"{name_of(path)}:{line}: {parts[2]} imports {room}"
        else:
            assert not within, f"{name_of(path)}:{line}: {module} is no door of the house"


def importers(library: str) -> set[str]:
    return {
        room_of(path) for path in MODULES for module, _ in imports(path) if module.split(".")[0] == library
    }


@pytest.mark.parametrize(
    ("library", "rooms"),
    [
        ("pint", {"units"}),
        ("yaml", {"spec", "cli", "site", "manual", "hook"}),
        ("pydantic", {"spec", "figures"}),
        ("xml", {"writers", "quick_markdown"}),
        ("jinja2", {"templating", "manual", "pages", "site", "web_folder"}),
        ("mkdocs", {"site", "cli", "hook"}),
        ("click", {"cli", "verbs"}),
    ],
)
def test_a_library_is_known_in_few_rooms(library: str, rooms: set[str]) -> None:
    assert importers(library) <= rooms


@pytest.mark.parametrize(
    ("source", "message"),
    [
        ("from generator.figures.model import Part", "imports figures"),
        ("def f():\n    import generator.site", "imports site"),
        ("from generator import cli", "imports cli"),
        ("from generator.attic import x", "no room 'attic'"),
        ("from . import y", "whole name"),
    ],
)
def test_a_planted_breach_is_found(
    source: str, message: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    room = tmp_path / "bench"
    room.mkdir()
    module = room / "breach.py"
    module.write_text(source, encoding="utf-8")
    monkeypatch.setitem(globals(), "PACKAGE", tmp_path)
    with pytest.raises(AssertionError, match=message):
        test_a_module_imports_its_own_room_and_those_below(module)


#: Comparisons with the words of a group that are left, all on rows of the figures, which have no role. Only fewer.
MOST_GROUP_TESTS = 13


def test_a_piece_is_found_by_its_role_and_not_by_the_words_of_its_group() -> None:
    """Roles are compared on the bench floor; above it only rows of the figures have nothing else than words."""
    found = [
        f"{name_of(path)}:{node.lineno}"
        for path in MODULES
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Compare)
        and any(
            isinstance(each, ast.Attribute) and each.attr == "group"
            for each in (node.left, *node.comparators)
        )
    ]
    assert [place for place in found if place.startswith("bench/")] == []
    assert len(found) <= MOST_GROUP_TESTS, found


#: The words of a kind, the beginnings of the modules that are its home, and how many lines of others say them: keys of
#: figures.json, codes, the starter's own text. Only fewer.
SPOKEN_OF = (
    (
        "caster|wheel",
        ("bench/stands/", "spec/stands/", "calculators/casters"),
        28,
    ),
)


@pytest.mark.parametrize(("words", "home", "most"), SPOKEN_OF)
def test_few_modules_speak_of_a_kind_that_is_not_theirs(words: str, home: tuple[str, ...], most: int) -> None:
    said = re.compile(words, re.IGNORECASE)
    found = [
        f"{name_of(path)}:{number}: {line.strip()}"
        for path in MODULES
        if not name_of(path).startswith(home) and path.name != "resources.py"
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if said.search(line)
    ]
    assert len(found) <= most, "\n".join(found)


def test_no_template_speaks_of_a_stand() -> None:
    """Its pages print the kind's own words."""
    templates = (PACKAGE.parent / "site_templates").rglob("*.jinja")
    assert [
        path.name for path in templates if re.search("caster|wheel", path.read_text(encoding="utf-8"))
    ] == []
