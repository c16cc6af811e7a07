"""Drawings that are named after things of the spec, each under an id and a file of its own."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.drawings.canvas import Drawing
from generator.names import slugs


def distinct(drawings: Iterable[Drawing]) -> list[Drawing]:
    """The drawings in their order, each with an id that no other of them has, in whatever case."""
    found = list(drawings)
    ids = slugs(drawing.id for drawing in found)
    return [replace(drawing, id=id) for drawing, id in zip(found, ids, strict=True)]
