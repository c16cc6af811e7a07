"""The stable codes: one list, which the code raises, the laws speak of and the tests provoke."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from generator.codes import Code
from generator.figures.checks.judge import LAWS

TESTS = Path(__file__).parent
PACKAGE = TESTS.parent / "generator"


def codes_in(path: Path) -> set[Code]:
    """The codes that a module names."""
    return {
        Code[node.attr]
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "Code"
    }


def texts_in(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def test_a_code_is_called_by_its_own_name() -> None:
    assert [code for code in Code if code.name != code.upper().replace("-", "_")] == []


def test_every_code_is_raised_and_none_is_left_over() -> None:
    named = {code for path in PACKAGE.rglob("*.py") for code in codes_in(path)}
    assert set(Code) - named == set()


def test_no_finding_has_a_code_of_its_own() -> None:
    """A code in quotes would stand in no list; a calculator knows no codes and says what it finds."""
    quoted = {
        f"{path.relative_to(PACKAGE)}: {text}"
        for path in PACKAGE.rglob("*.py")
        if path.name != "codes.py" and "calculators" not in path.parts
        for text in texts_in(path)
        if "-" in text and text in set(Code)
    }
    assert quoted == set()


def test_every_code_is_known_to_a_test() -> None:
    here = {text for path in TESTS.rglob("*.py") for text in texts_in(path)}
    assert set(Code) - here == set()


def test_no_two_laws_have_one_code() -> None:
    codes = [law.code for law in LAWS]
    assert len(codes) == len(set(codes))


def test_why_a_check_matters_stands_in_its_law_alone() -> None:
    """A code that is a refusal too has its reason there, and its law takes it from there."""
    assert [law.code for law in LAWS if law.code.why not in ("", law.why)] == []


def test_every_code_says_why_it_matters() -> None:
    assert [code for code in set(Code) - {law.code for law in LAWS} if not code.why] == []
