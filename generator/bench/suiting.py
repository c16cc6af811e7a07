"""The spec that suits one bar which was cut to another length: which key changes, and to what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: The outside size that a bar along each axis follows from.
_SIZES = {"x": "length", "y": "depth", "z": "height"}


class Wish(NamedTuple):
    """A key path with the value as planned and as it would suit the bar (mm), and the spec that has it."""

    path: str
    planned: Fraction
    value: Fraction
    loaded: LoadedSpec


def suiting(bench: Bench) -> Iterator[tuple[str, Wish]]:
    """Mark of each bar of the frame whose newest cut is off its length, with the wish that suits it."""
    newest = {entry.cut.mark: entry.cut for entry in bench.loaded.record.entries if entry.cut}
    for part in bench.parts:
        if part.is_bar and part.mark in newest:
            off = newest[part.mark].size[0] - part.length
            if off:
                yield part.mark, _wish(bench, part, off)


def _wish(bench: Bench, bar: Part, off: Fraction) -> Wish:
    loaded = bench.loaded
    if bar.role is Role.END_SPINE_POST:
        path, planned = "tray.end_rail_bottom", bench.layout.levels.end_rail_bottom
    else:
        key = _SIZES[bar.along]
        path, planned = f"bench.{key}", getattr(loaded.spec.bench, key)
    value = planned + off
    return Wish(path, planned, value, replace(loaded, spec=_with(loaded.spec, path, value)))


def _with(spec: Spec, path: str, value: Fraction) -> Spec:
    section, key = path.split(".")
    node = getattr(spec, section).model_copy(update={key: value})
    return spec.model_copy(update={section: node})
