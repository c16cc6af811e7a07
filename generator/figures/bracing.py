"""What braces a frame beside its joints: brackets in its corners, panels that are fixed, and both rows together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.bench.fillings.panel_brackets import fixed_walls, screw_of
from generator.bench.frames.facts import Direction, LoosePanel
from generator.bench.model import Bench
from generator.calculators import bracing as rules
from generator.provenance import inexact
from generator.spec.schema import Spec

#: The wall that braces in each direction, by the key of the spec.
WALL_OF: Mapping[Direction, str] = {"long": "back", "cross": "ends"}
SOFTEST = 0
EVERY_EDGE = 4


@dataclass(frozen=True)
class Bracing:
    """Which corners have brackets, and the walls that are fixed, with the spacing of their brackets (mm).

    `label` tells the workings of a bracing that is only advised from those of the bench.
    """

    corners: frozenset[str] = frozenset()
    fixed: Mapping[str, Fraction] = field(default_factory=dict)
    label: str = ""


def bracing_of(spec: Spec) -> Bracing:
    """What the spec asks for."""
    return Bracing(frozenset(spec.frame.gussets.at), {wall: how.spacing for wall, how in fixed_walls(spec)})


def fixed_panels(bench: Bench, direction: Direction, bracing: Bracing) -> tuple[LoosePanel, ...]:
    """The panels that brace a direction."""
    if WALL_OF[direction] not in bracing.fixed:
        return ()
    return tuple(each for each in bench.sway.panels if each.direction == direction)


def helping_panels(bench: Bench, direction: Direction, bracing: Bracing) -> tuple[LoosePanel, ...]:
    """The panels that help in a direction: fixed ends also keep the top from turning when a long edge is pushed."""
    own = fixed_panels(bench, direction, bracing)
    return own if direction == "cross" else (*own, *fixed_panels(bench, "cross", bracing))


def corner_stiffness(bench: Bench, end: int) -> float:
    """The stiffness of a joint with the spec's bracket, at one end of its range (kN m/rad)."""
    card = bench.goods.gussets[bench.spec.frame.gussets.bracket]
    return inexact(sorted(card.stiffness)[end])


def panel_part(bench: Bench, panel: LoosePanel, bracing: Bracing, end: int) -> float:
    """What a fixed panel adds to the stiffness of all joints (N mm/rad), at the softer or the stiffer end."""
    wall, sheet = WALL_OF[panel.direction], bench.goods.wall
    width, height = inexact(panel.width), inexact(panel.height)
    slip = rules.screw_slip(shank=inexact(screw_of(bench, wall).shank), density=inexact(sheet.density))
    brackets = rules.fastener_stiffness(
        edges=rules.ALL_EDGES if panel.edges == EVERY_EDGE else rules.THREE_EDGES,
        width=width,
        height=height,
        part=rules.SOFT_BRACKET if end == SOFTEST else rules.STIFF_BRACKET,
        slip=slip,
        spacing=inexact(bracing.fixed[wall]),
    )
    shear = rules.shear_stiffness(
        modulus=rules.SHEAR_MODULUS, thickness=inexact(sheet.thickness), width=width, height=height
    )
    stiffness = rules.panel_stiffness(panel=shear, brackets=brackets)
    return rules.leaning(stiffness=stiffness, height=height)


def at_the_edge(
    push: float, height: float, rows: Mapping[Fraction, float], ends: Mapping[Fraction, float], edge: Fraction
) -> float:
    """How far the top's edge at Y (mm) moves along the bench under a push there.

    `rows` are the stiffnesses against a sway along the length by their Y, `ends` those across by their X (N mm/rad).
    """
    along = {y: rules.at_the_top(stiffness=each, height=height) for y, each in rows.items()}
    cross = {x: rules.at_the_top(stiffness=each, height=height) for x, each in ends.items()}
    stiffness = _sum(along.values())
    y, x = _middle(along), _middle(cross)
    turns = [rules.against_turning(stiffness=k, arm=inexact(at) - y) for at, k in along.items()]
    turns += [rules.against_turning(stiffness=k, arm=inexact(at) - x) for at, k in cross.items()]
    return rules.edge_sway(push=push, stiffness=stiffness, arm=inexact(edge) - y, turning=_sum(turns))


def _middle(stiffnesses: Mapping[Fraction, float]) -> float:
    """The place about which the top turns (mm)."""
    return _sum([k * inexact(at) for at, k in stiffnesses.items()]) / _sum(stiffnesses.values())


def _sum(values: Iterable[float]) -> float:
    first, *rest = values
    return sum(rest, first)
