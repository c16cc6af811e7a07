"""Sizes that rest on typical values: what is to be measured before anything is cut by them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from generator.figures.number_names import given_name
from generator.figures.rows.checks import Unmeasured
from generator.figures.rows.setting_out import Setup
from generator.figures.rows.storage import Drawer
from generator.provenance import givens

#: Values of a data card that no size is cut by: they weigh, cost or bend.
_NOT_CUT_BY = ("stock", "mass", "density", "modulus", "second_moment", "rating")


def unmeasured(values: Iterable[Fraction]) -> tuple[Unmeasured, ...]:
    """The values of typical cards that some sizes rest on, each once."""
    found: dict[str, Unmeasured] = {}
    for value in values:
        for given, number in givens(value):
            if (
                given.origin == "card"
                and not set(given.path) & set(_NOT_CUT_BY)
                and isinstance(number, Fraction)
            ):
                found.setdefault(given.name, Unmeasured(given.name, given_name(given), number, given.unit))
    return tuple(found.values())


def drawer_released(drawer: Drawer) -> Drawer:
    """The drawer with what the sizes of its box and face rest on."""
    sizes = (drawer.box_width, drawer.box_depth, drawer.box_height, *drawer.bottom_panel)
    return replace(drawer, unmeasured=unmeasured((*sizes, drawer.front_width, drawer.front_height)))


def card_released(card: Setup) -> Setup:
    """The set-up card with what its settings rest on."""
    return replace(card, unmeasured=unmeasured(value for each in card.settings for value in each.values))
