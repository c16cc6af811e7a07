"""What is coated: the parts of each key of `finish`, their areas without glue faces and tongues, and what to mask."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.piece import Part
from generator.bench.role import DRAWER, STRIPS, Role
from generator.calculators.finish import SMALL_OPENING, coated_area
from generator.geometry import FACES
from generator.spec.finish import KEYS, Coat
from generator.spec.schema import Spec

_KEYS: Mapping[Role, str] = {
    Role.TOP: "top",
    Role.TOP_EDGING: "top",
    **dict.fromkeys(
        (Role.DIVIDER, Role.END_PANEL, Role.SPINE_PANEL, Role.BACK_PANEL, Role.TRAY, Role.EXTRA_PANEL), "panels"
    ),
    Role.SHELF: "shelves",
    **dict.fromkeys(DRAWER, "drawers"),
    Role.PACKING_STRIP: "packing",
    Role.TOTE_RUNNER: "cleats",
    Role.SHELF_CLEAT: "cleats",
}  # fmt: skip
#: What is never coated, in words for the step.
_TONGUES, _GROOVES, _BACKS, _GLUED, _HOLES = (
    "tongues and their rabbets",
    "grooves",
    "the backs of the strips",
    "the ends that are glued, and the edges in grooves",
    "holes for screws, pulls and dogs",
)


@dataclass(frozen=True)
class Coated:
    """One key of `finish`: its coat, its parts, what they have to coat (mm²), and what is masked on them."""

    key: str
    coat: Coat
    parts: tuple[Part, ...]
    area: Fraction
    masks: tuple[str, ...]
    both_faces: bool
    """No face of its parts is glued to another part."""
    late: bool
    """Its parts are cut when the frame stands."""


def finish_key(part: Part) -> str:
    """The key of `finish` that a part belongs to; empty for what is never coated."""
    if part.role is Role.FILLING:
        groups = {group: key for kind in FILLINGS for group, key in kind.coated.items()}
        return groups.get(part.own_group, "")
    return _KEYS.get(part.role, "")


def coated(spec: Spec, all_: Sequence[Part]) -> Iterator[Coated]:
    """Every key that the spec gives a coat and that has parts."""
    for key in KEYS:
        coat = getattr(spec.finish, key)
        parts = tuple(part for part in all_ if finish_key(part) == key)
        if coat is None or not parts:
            continue
        areas = [_area(spec, part) for part in parts]
        masks = dict.fromkeys(mask for part in parts for mask in _masks(part))
        yield Coated(
            key, coat, parts, sum(areas[1:], areas[0]), tuple(masks),
            both_faces=not any(part.role in STRIPS for part in parts),
            late=all(part.waits for part in parts),
        )  # fmt: skip


def _area(spec: Spec, part: Part) -> Fraction:
    """What is coated of one part (mm²)."""
    length, width, faces, ends, edges = part.length, part.width, 2, 2, 2
    for side, tongue in part.tongues.items():
        if part.floating:
            break  # coated whole: in a dry season more of it shows
        if side in FACES[part.along]:
            length, ends = length - tongue, ends - 1
        else:
            width, edges = width - tongue, edges - 1
    if part.role in STRIPS:
        faces = 1
    elif part.role is Role.TOP_EDGING:  # its back is glued, and the ends of a strip between two others
        faces, ends = 1, 2 - len(part.mitres) if part.along == "x" else 0
    elif part.role is Role.TOP and spec.top.edging:
        edges -= len({"front", "back"} & set(spec.top.edging.sides))
        ends -= len({"left", "right"} & set(spec.top.edging.sides))
    elif part.role is Role.DRAWER_END:
        ends = 0
    elif part.role is Role.DRAWER_BOTTOM:
        groove = 2 * spec.drawers.groove
        length, width, ends, edges = length - groove, width - groove, 0, 0
    return coated_area(
        length, width, part.thickness, faces=faces, ends=ends, edges=edges, off=tuple(_taken_off(part))
    )


def _taken_off(part: Part) -> Iterator[Fraction]:
    """Grooves, large openings on both faces, and what notches take beyond the tongues (mm²)."""
    for op in part.operations:
        if isinstance(op.size, tuple):
            size = op.size[0] * op.size[1]
            if op.op == "groove":
                yield size
            elif op.depth is None and size >= SMALL_OPENING:
                yield 2 * size
    for notch in part.notches:
        sides = notch.corner.split()
        along = max(
            (part.tongues.get(side, Fraction(0)) for side in sides if side in FACES[part.along]), default=0
        )
        across = max(
            (part.tongues.get(side, Fraction(0)) for side in sides if side not in FACES[part.along]),
            default=0,
        )
        beyond = (notch.along - along, notch.across - across)
        if min(beyond) > 0 and 2 * beyond[0] * beyond[1] >= SMALL_OPENING:
            yield 2 * beyond[0] * beyond[1]


def _masks(part: Part) -> Iterator[str]:
    if part.tongues and not part.floating:
        yield _TONGUES
    if part.role in STRIPS:
        yield _BACKS
    if part.role in (Role.DRAWER_END, Role.DRAWER_BOTTOM):
        yield _GLUED
    acts = {op.op for op in part.operations}
    if "groove" in acts:
        yield _GROOVES
    if any("hole" in act for act in acts):
        yield _HOLES
