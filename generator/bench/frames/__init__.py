"""What frames a bench can have. Each kind is a module of its own; this tuple is the only list of them."""

from __future__ import annotations

from generator.bench.frames.facts import FrameKind
from generator.bench.frames.t_slot import TSlot
from generator.bench.frames.timber import TimberFrames
from generator.spec.schema import Spec

#: The first that a spec chooses counts; the last is what it takes when it names none.
FRAMES: tuple[FrameKind, ...] = (TimberFrames(), TSlot())


def frame_kind(spec: Spec) -> FrameKind:
    """The kind of frame that a spec chooses."""
    return next(kind for kind in FRAMES if kind.chosen(spec))
