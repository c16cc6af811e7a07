"""What a bench can stand on. Each kind is a module of its own; this tuple is the only list of them."""

from __future__ import annotations

from generator.bench.stands.casters import Casters
from generator.bench.stands.facts import StandKind
from generator.bench.stands.feet import Feet
from generator.bench.stands.lifted import Lifted
from generator.bench.stands.plinth import OnPlinth
from generator.spec.schema import Spec

#: The first that a spec chooses counts; the last is what it takes when it names none.
STANDS: tuple[StandKind, ...] = (OnPlinth(), Lifted(), Feet(), Casters())


def stand_kind(spec: Spec) -> StandKind:
    """The kind of stand that a spec chooses."""
    return next(kind for kind in STANDS if kind.chosen(spec))
