"""Entries of a valid spec by name and kind. The names were checked when the spec was read."""

from __future__ import annotations

from typing import TypeVar

from generator.spec.goods import (
    Angle,
    Bracket,
    Profile,
    Sheet,
    Slide,
    SlotNut,
    Strip,
)
from generator.spec.item import Node
from generator.spec.joints import EndClip, ThroughScrew
from generator.spec.schema import Spec

Entry = TypeVar("Entry", bound=Node)


def _entry(section: dict[str, object], name: str, kind: type[Entry]) -> Entry:
    entry = section[name]
    if not isinstance(entry, kind):
        raise TypeError(f"{name} is no {kind.__name__}")
    return entry


def profile(spec: Spec) -> Profile:
    """The frame's bar."""
    return _entry(dict(spec.materials), spec.frame.material, Profile)


def sheet(spec: Spec, name: str) -> Sheet:
    """A sheet by its name under `materials`. Raises TypeError for another kind."""
    return _entry(dict(spec.materials), name, Sheet)


def strip(spec: Spec, name: str) -> Strip:
    """A strip by its name under `materials`. Raises TypeError for another kind."""
    return _entry(dict(spec.materials), name, Strip)


def trim(spec: Spec) -> Angle | None:
    """The tray's edge trim, if it has one."""
    return _entry(dict(spec.materials), spec.tray.trim, Angle) if spec.tray.trim else None


def fastener(spec: Spec, name: str) -> EndClip | ThroughScrew:
    """What joins two bars, by its name under `hardware`. Raises TypeError for hardware that joins none."""
    entry = spec.hardware[name]
    if not isinstance(entry, EndClip | ThroughScrew):
        raise TypeError(f"{name} joins no bars")
    return entry


def slide(spec: Spec) -> Slide:
    """The slide of all drawers; there is one even on a bench without drawers."""
    return _entry(dict(spec.hardware), spec.drawers.slide, Slide)


def slot_nut(spec: Spec) -> SlotNut:
    """The nut in the frame's slots, for caster plates and top brackets."""
    return _entry(dict(spec.hardware), spec.frame.slot_nut, SlotNut)


def bracket(spec: Spec) -> Bracket | None:
    """The bracket that holds the top, where the spec names one."""
    return _entry(dict(spec.hardware), spec.top.bracket, Bracket) if spec.top.bracket else None
