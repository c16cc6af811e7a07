"""The words below each key of the language, read from the text of its module.

The validator's own reader looks for the text of every class anew, which is half of what it takes to start.
"""

from __future__ import annotations

import re
import sys
from ast import literal_eval
from collections.abc import Iterator, Mapping
from functools import cache
from inspect import cleandoc

_CLASS = re.compile(r"^class (\w+)\b.*?(?=^\S|\Z)", re.MULTILINE | re.DOTALL)
"""A class of a module, up to the next line that is not indented."""
_PART = re.compile(r'^    (?:(\w+): |(""".*?""")$|[^\s)\]}#])', re.MULTILINE | re.DOTALL)
"""What begins in a class: a key, words, or anything else."""


def words_below(group: type) -> Mapping[str, str]:
    """The keys that a class itself has -> the words below each of them, where there are some."""
    return _of_module(group.__module__).get(group.__name__, {})


@cache
def _of_module(name: str) -> Mapping[str, Mapping[str, str]]:
    """Class -> key -> words."""
    spec = sys.modules[name].__spec__
    source = getattr(spec and spec.loader, "get_source", None)
    text = (source(name) if source else None) or ""
    return {each[1]: dict(_of_class(each[0])) for each in _CLASS.finditer(text)}


def _of_class(text: str) -> Iterator[tuple[str, str]]:
    key = ""
    for part in _PART.finditer(text):
        if key and part[2]:
            yield key, cleandoc(literal_eval(part[2]))
        key = part[1] or ""
