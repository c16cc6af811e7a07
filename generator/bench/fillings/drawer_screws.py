"""Screws of a drawer: its slides, its box, its face."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.driven import EDGE_SIZES, Driven, chosen
from generator.bench.fillings.drawer_boards import PlacedDrawer
from generator.bench.fillings.facts import Solved
from generator.bench.fillings.on_slides import OnSlides, packing_of, slide_of
from generator.bench.role import Role
from generator.calculators.fasteners import box_corner_screws
from generator.calculators.wood_screws import WoodScrew, fitting, into_edge, stock
from generator.provenance import constant
from generator.spec.load import LoadedSpec

#: Screws of one drawer front. Common practice, no source.
PER_DRAWER_FRONT = 4
#: The steps in which the inner members of slides are screwed on: to drawers, and to the lips of pull-outs.
BOXES, LIPS = "drawers", "pull-outs"
#: Usual length of a screw through thin metal (mm): longer ones hold no better. Common practice, no source.
SLIDE_SCREW = constant(16, "usual length of a slide's screw")


def drawer_screws(bench: Solved) -> Iterator[Driven]:
    """Slides to packing and boxes, corners, faces."""
    spec = bench.spec
    hung, drawers, rules = bench.storage.of(OnSlides), bench.storage.of(PlacedDrawer), spec.drawers
    if not hung:
        return
    panel, box, front = (
        bench.goods.sheets[name].thickness for name in (spec.panels.material, rules.box, rules.front)
    )
    # each of the two slides of a pair has one screw a hole in its cabinet and in its drawer member
    each = len(slide_of(bench.loaded).holes) * 2
    none, screws = Fraction(0), stock("4", spec.units)
    wall = packing_of(bench.loaded) + panel
    uses = (
        (len(hung), wall, "slide to packing", "packing", "into the packing", "panels.material", ""),
        (len(drawers), box, "slide to drawer box", "box", "into the boxes", "drawers.box", BOXES),
        (len(hung) - len(drawers), box, "slide to lip", "box", "into the lips", "drawers.box", LIPS),
    )
    for pairs, into, place, key, told, holds, step in uses:
        if pairs:
            yield Driven(
                "slide screw", fitting(screws, none, into, SLIDE_SCREW), pairs * each, none, into, place,
                ("drawers", key), told=told, holds=holds, step=step,
            )  # fmt: skip
    if not drawers:
        return
    corners = sum(4 * box_corner_screws(drawer.sizes.box_height) for drawer in drawers)
    ends = min(drawer.sizes.ends_length for drawer in drawers)
    usual, path = default_box_screw(bench.loaded), ("drawers", "box_screw")
    yield Driven(
        "drawer box screw", chosen(rules.box_screw, usual), corners, box, ends, "drawer box's corners", path,
        box, holds="drawers.box", usual=usual, in_end=_in_end_grain(bench),
    )  # fmt: skip
    faces = bench.of(Role.DRAWER_FACE)
    if not faces:
        return
    usual, path = default_face_screw(bench.loaded), ("drawers", "face_screw")
    yield Driven(
        "drawer front screw", chosen(rules.face_screw, usual), len(faces) * PER_DRAWER_FRONT, box, front,
        "drawer face", path, holds="drawers.front", usual=usual, shows=True,
    )  # fmt: skip


def _in_end_grain(bench: Solved) -> bool:
    """Whether the screws through the sides go along the grain of solid wood."""
    solid = bench.goods.sheets[bench.spec.drawers.box].species is not None
    return solid and any(part.grain == "length" for part in bench.of(Role.DRAWER_END))


def default_face_screw(loaded: LoadedSpec) -> WoodScrew:
    """Through the box's front into the face: as long as it may be without coming out."""
    box, front = (
        loaded.goods.sheets[name].thickness for name in (loaded.spec.drawers.box, loaded.spec.drawers.front)
    )
    return fitting(stock("4", loaded.spec.units), box, front)


def default_box_screw(loaded: LoadedSpec) -> WoodScrew:
    """Through a side into the end of the box's front or back."""
    box = loaded.goods.sheets[loaded.spec.drawers.box].thickness
    return into_edge(EDGE_SIZES, loaded.spec.units, box, box)
