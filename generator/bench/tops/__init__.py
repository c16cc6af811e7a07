"""What can lie on a bench. Each kind is a module of its own; this tuple is the only list of them."""

from __future__ import annotations

from generator.bench.tops.board import Board
from generator.bench.tops.facts import TopKind
from generator.spec.schema import Spec

#: The first that a spec chooses counts; the last is what it takes when it names none.
TOPS: tuple[TopKind, ...] = (Board(),)


def top_kind(spec: Spec) -> TopKind:
    """The kind of top that a spec chooses."""
    return next(kind for kind in TOPS if kind.chosen(spec))
