"""How much a run of the tests looks at: a sample that ends soon, or everything, before a release.

`BENCH_MANUAL_THOROUGH=1` asks for everything: all manuals on all papers and in every browser window, all cards, and
many random benches for each law. Without it, each test still runs, on fewer things of one kind; laws of random benches
meet the same few each time.
"""

from __future__ import annotations

from collections.abc import Sequence
from os import environ
from typing import TypeVar

T = TypeVar("T")

THOROUGH = bool(environ.get("BENCH_MANUAL_THOROUGH"))


def examples(quick: int, thorough: int) -> int:
    """How many random examples a law is tried on."""
    return thorough if THOROUGH else quick


def sample(things: Sequence[T], every: int) -> list[T]:
    """All things, or each `every`-th and the last one: things of one kind lie beside each other."""
    return list(things) if THOROUGH else [*things[:-1:every], *things[-1:]]


def quick_or(quick: Sequence[T], more: Sequence[T]) -> list[T]:
    """The quick things, and in a thorough run `more` as well."""
    return [*quick, *more] if THOROUGH else list(quick)
