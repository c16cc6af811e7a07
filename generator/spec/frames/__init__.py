"""What a spec can say of its frame's system, beside what all frames have; one line a kind in each list."""

from __future__ import annotations

from typing import Annotated

from pydantic import Tag

from generator.spec.frames import timber
from generator.spec.frames.timber import Timber, TimberKeys

AnyFrameMaterial = Annotated[Timber, Tag("timber")]
REFERENCES = timber.REFERENCES


class FrameKeys(TimberKeys):
    """What chooses the system of a frame, and its members where they are no slotted bars."""


__all__ = ["REFERENCES", "AnyFrameMaterial", "FrameKeys", "Timber"]
