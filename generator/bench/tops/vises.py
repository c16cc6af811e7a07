"""Vises at the edge of a top, as things that are let into it: what they take below, and where."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.layout import Layout
from generator.bench.place import SIDE_WORDS
from generator.bench.regions import Region
from generator.bench.tops.features import Feature, finished_size
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.tops.vises import Vise

VISE = "vise"
#: A hand's room beside the jaw: 25 on either side (mm). Common practice, no source.
BESIDE_JAW = Fraction(50)
#: How high screw and bars are (mm). Common practice, no source.
BARS_HIGH = Fraction(40)


def vises(loaded: LoadedSpec, layout: Layout) -> tuple[Feature, ...]:
    """Each vise with its keep-out: jaw and hands wide, from the edge as far in as its bars reach."""
    size = finished_size(loaded.spec, layout)
    return tuple(_vise(loaded, layout, each, index, size) for index, each in enumerate(loaded.spec.top.vise))


def side_of(card: Vise) -> str:
    """The long side at which it is: front or back."""
    return card.at.split()[1]


def end_of(card: Vise) -> str:
    """The end beside which it is: left or right."""
    return card.at.split()[0]


def _vise(
    loaded: LoadedSpec, layout: Layout, card: Vise, index: int, top: tuple[Fraction, Fraction]
) -> Feature:
    over, wide = loaded.spec.top.overhang, card.jaw[0] + BESIDE_JAW
    post = (over.left if end_of(card) == "left" else over.right) + layout.section
    x = Span(post, post + wide) if end_of(card) == "left" else Span(top[0] - post - wide, top[0] - post)
    y = Span(Fraction(0), card.reach) if side_of(card) == "front" else Span(top[1] - card.reach, top[1])
    name = f"{end_of(card)} {SIDE_WORDS[side_of(card)]} vise"
    return Feature(
        name, VISE, (x.middle, y.middle), (x.size, y.size), ("top", "vise", index), Region(x, y), ()
    )


def volume(loaded: LoadedSpec, layout: Layout, card: Vise, each: Feature) -> Box:
    """What a vise takes below the top, in the frame: down to the foot of its jaw or of its bars."""
    over, under = loaded.spec.top.overhang, layout.levels.frame_height
    face = under + loaded.goods.top.thickness
    region = each.region.moved(-over.left, -over.front)
    return Box(region.x, region.y, Span(face - max(card.jaw[1], card.drop + BARS_HIGH), under))


def no_two_at_a_corner(loaded: LoadedSpec) -> Iterator[Finding]:
    """Two vises at one corner."""
    seen: set[str] = set()
    for index, card in enumerate(loaded.spec.top.vise):
        if card.at in seen:
            yield loaded.fault(
                Code.NAME_TWICE, "two vises are at the same corner", "top", "vise", index, "at",
                found=card.at, allowed="a corner without a vise",
            )  # fmt: skip
        seen.add(card.at)
