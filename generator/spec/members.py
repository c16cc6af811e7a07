"""What the members of a frame are, whatever system it has: sizes, grooves for panels, stiffness."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant
from generator.spec.frames import Timber
from generator.spec.goods import Profile
from generator.spec.schema import Spec

#: Part of a slotted bar's section that is metal; it takes the place of its area. Common practice, no source.
METAL = constant("0.3", "metal of a bar as a part of its square", "from memory", "")
#: Part of that metal which bears a force across the bar: its webs. Of a rectangle of wood, by any handbook, 5/6.
WEBS = constant("1/2", "part of a bar's metal that bears a force across it", "from memory", "")
RECTANGLE = constant("5/6", "part of a timber that bears a force across it", "bending of elastic beams", "")
#: Modulus over shear modulus: of metal 2 (1 + 0.3) by any handbook, of wood by EN 338 (11,000 over 690 in class C24).
METAL_SHEARS = constant("2.6", "modulus of metal over its shear modulus", "Poisson's ratio of 0.3", "")
WOOD_SHEARS = constant(16, "modulus of wood over its shear modulus", "EN 338, class C24", "")
#: How far a groove differs in depth and width when it is cut at one setting (mm). Common practice, no source.
CUT_GROOVE = constant("0.1", "how far a machined groove may be off")


@dataclass(frozen=True)
class Beam:
    """A member that bends: modulus (MPa), second moment (mm⁴) upright, area (mm²).

    `shear` is the stiffness against a force across it (N): shear modulus times the part of the area that bears it.
    `creep` is how many times its first sag it reaches under a load that stays; None for metal.
    """

    modulus: Fraction
    second_moment: Fraction
    area: Fraction
    shear: Fraction
    creep: Fraction | None = None


@dataclass(frozen=True)
class Members:
    """Posts are `section` wide both ways; members that lie are as thick, and `rail` high (mm).

    `posts` and `rails` name their materials. `groove` is the depth in which panels sit, `opening` its width where that
    is given with the bar, else it is cut to each sheet with `clearance`. `tolerance` is how far both may be off.
    """

    kind: str
    posts: str
    rails: str
    section: Fraction
    rail: Fraction
    upright: Beam
    lying: Beam
    groove: Fraction
    opening: Fraction | None
    clearance: Fraction
    tolerance: Fraction
    measured: str
    density: Fraction = Fraction(0)
    """Of the heavier of both timbers (kg/m³)."""


def members_of(spec: Spec) -> Members:
    """The members that a spec chooses. Raises KeyError for a name of another kind, which reading the spec refuses."""
    frame, clearance = spec.frame, spec.panels.groove_clearance
    posts = timber_of_posts(spec)
    if not posts:
        bar = spec.materials[frame.material]
        assert isinstance(bar, Profile)
        return _of_bars(frame.material, bar, clearance)
    timbers, rails = _timbers(spec.materials), frame.rails or posts
    return _of_timber((posts, rails), timbers[posts], timbers[rails], frame.groove, clearance)


def timber_of_posts(spec: Spec) -> str:
    """The timber of the posts, by its name; empty for a frame of slotted bars, and where none is named yet."""
    return (spec.frame.posts or "") if spec.frame.system == "timber" else ""


def _timbers(materials: Mapping[str, object]) -> dict[str, Timber]:
    return {name: card for name, card in materials.items() if isinstance(card, Timber)}


def _of_bars(name: str, bar: Profile, clearance: Fraction) -> Members:
    """Posts and rails of one slotted bar."""
    metal = bar.section * bar.section * METAL
    beam = Beam(bar.modulus, bar.second_moment, metal, bar.modulus / METAL_SHEARS * metal * WEBS)
    slot = bar.slot
    return Members(
        bar.kind, name, name, bar.section, bar.section, beam, beam, slot.depth, slot.opening, clearance,
        slot.tolerance, bar.measured,
    )  # fmt: skip


def _of_timber(
    names: tuple[str, str], posts: Timber, rails: Timber, groove: Fraction, clearance: Fraction
) -> Members:
    """Posts and rails of timber, each of its own section."""
    return Members(
        posts.kind, *names, posts.section[1], rails.section[1], _beam(posts), _beam(rails), groove, None, clearance,
        CUT_GROOVE, posts.measured if rails.measured else "", max(posts.density, rails.density),
    )  # fmt: skip


def _beam(card: Timber) -> Beam:
    thick, wide = card.section
    shear = card.modulus / WOOD_SHEARS * thick * wide * RECTANGLE
    return Beam(card.modulus, thick * wide**3 / 12, thick * wide, shear, card.creep)
