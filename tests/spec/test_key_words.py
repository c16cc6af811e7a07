"""The words of each key, as Python's own parser finds them in the source."""

from __future__ import annotations

import ast
import inspect
import sys
from collections.abc import Iterator
from itertools import pairwise

import generator.spec.load  # noqa: F401  # all groups of the language
from generator.spec.item import Node
from generator.spec.key_words import words_below


def _groups(above: type = Node) -> Iterator[type[Node]]:
    for group in above.__subclasses__():
        yield group
        yield from _groups(group)


def _parsed(group: type) -> dict[str, str]:
    tree = ast.parse(inspect.getsource(sys.modules[group.__module__]))
    [body] = [
        node.body for node in tree.body if isinstance(node, ast.ClassDef) and node.name == group.__name__
    ]
    found = {}
    for key, below in pairwise(body):
        words = below.value if isinstance(below, ast.Expr) else None
        if (
            isinstance(key, ast.AnnAssign)
            and isinstance(key.target, ast.Name)
            and isinstance(words, ast.Constant)
        ):
            found[key.target.id] = inspect.cleandoc(str(words.value))
    return found


def test_each_key_of_the_language_has_the_words_below_it() -> None:
    groups = [group for group in _groups() if group.__module__.startswith("generator.")]
    assert len(groups) > 60
    for group in groups:
        assert words_below(group) == _parsed(group), group
        for key, words in words_below(group).items():
            assert group.model_fields[key].description == words
