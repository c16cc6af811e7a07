"""Sizes that rest on typical values: what is to be measured before anything is cut by them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction

from generator.figures.number_names import given_name
from generator.figures.rows.checks import Unmeasured
from generator.figures.rows.setting_out import Setup
from generator.figures.rows.storage import Drawer
from generator.provenance import GivenValue, givens
from generator.spec.labels import with_name

#: Values of a data card that no size is cut by: they weigh, cost or bend.
#: A foot that is set by its screw takes up what its range is off.
_NOT_CUT_BY = ("stock", "mass", "density", "modulus", "second_moment", "rating", "range")


def unmeasured(values: Iterable[Fraction], labels: Mapping[str, str]) -> tuple[Unmeasured, ...]:
    """The values of typical cards that some sizes rest on, each once; `labels` say what a material is."""
    found: dict[str, Unmeasured] = {}
    for value in values:
        for given, number in givens(value):
            if (
                given.origin == "card"
                and not set(given.path) & set(_NOT_CUT_BY)
                and isinstance(number, Fraction)
            ):
                named = Unmeasured(given.name, _name(given, labels), number, given.unit)
                found.setdefault(given.name, named)
    return tuple(found.values())


def _name(given: GivenValue, labels: Mapping[str, str]) -> str:
    """`thickness of 6 mm plywood (ply-6)`: what to measure, and where to write it."""
    name, goods = given_name(given), str(given.path[1])
    label = labels.get(goods) if given.path[0] == "materials" else None
    return name.removesuffix(goods) + with_name(label, goods) if label else name


def drawer_released(row: Drawer, labels: Mapping[str, str]) -> Drawer:
    """The drawer with what the sizes of its box and face rest on."""
    box = (row.box_width, row.box_depth, row.box_height, *row.bottom_panel)
    face = (row.front_width, row.front_height)
    return replace(row, unmeasured=unmeasured((*box, *face), labels))


def card_released(card: Setup, labels: Mapping[str, str]) -> Setup:
    """The set-up card with what its settings rest on."""
    values = [value for each in card.settings for value in each.values]
    return replace(card, unmeasured=unmeasured(values, labels))
