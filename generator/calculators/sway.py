"""How far a frame sways when someone pushes it, from the stiffness of its joints and of the members that meet there.

The rule was compared with plane frames whose joints are springs: at joints of 1 to 3 kN·m/rad it gives 1.05 to 1.21
times their sway, at 5 to 15 kN·m/rad 0.95 to 1.16 times. It takes the whole height of the frame, where the members'
axes are half a bar further in at both ends, so that soft joints come out on the safe side.
"""

from __future__ import annotations

from generator.calculators.quantities import (
    Count,
    ExactMillimetres,
    ExactNewtons,
    Megapascals,
    Millimetres,
    NewtonMillimetres,
    NewtonMillimetresPerRadian,
    Newtons,
    SecondMoment,
)
from generator.provenance import constant, formula

BENDING = "bending of elastic beams, any handbook of engineering"
FRAMES = "compared with plane frames whose joints are springs"
GEOMETRY = "geometry: a rectangle in an opening that leans"
OWN_LIMIT = "common practice, no source"

#: The push for which the limits below are usual (N). Common practice, no source.
USUAL_PUSH = constant(300, "push for which the usual limits of sway hold", unit="N")
#: How far a bench may sway under it: one for planing, any other (mm). Common practice, no source.
PLANING = constant(3, "usual limit of sway of a bench for planing")
OTHER_WORK = constant(6, "usual limit of sway of a bench for assembly")


@formula("6 * modulus * second_moment / length", "N*mm/rad", BENDING)
def half_member_stiffness(
    *, modulus: Megapascals, second_moment: SecondMoment, length: Millimetres
) -> NewtonMillimetresPerRadian:
    """How hard one end of a member that bends into an S is to turn: 6 E I / l."""
    return 6 * modulus * second_moment / length


@formula("1 / (1 / first + 1 / second)", "N*mm/rad", "springs in series")
def joints_in_series(
    *, first: NewtonMillimetresPerRadian, second: NewtonMillimetresPerRadian
) -> NewtonMillimetresPerRadian:
    """Two joints that turn one after the other are softer than either: 1 / (1/k₁ + 1/k₂)."""
    return 1 / (1 / first + 1 / second)


@formula("1 / (1 / joint + 1 / upright + 1 / lying)", "N*mm/rad", FRAMES)
def joint_with_members(
    *,
    joint: NewtonMillimetresPerRadian,
    upright: NewtonMillimetresPerRadian,
    lying: NewtonMillimetresPerRadian,
) -> NewtonMillimetresPerRadian:
    """What a joint adds to the frame: it turns, and half of each member that meets there bends with it.

    `upright` is the half post, `lying` the sum of the half bays beside the joint: 1 / (1/k + h/(6EI) + 1/Σ(6EI/l)).
    """
    return 1 / (1 / joint + 1 / upright + 1 / lying)


@formula("push * height**2 / stiffness", "mm", FRAMES)
def sway(*, push: Newtons, height: Millimetres, stiffness: NewtonMillimetresPerRadian) -> Millimetres:
    """How far the frame's top moves: the push times the height squared, over the stiffness of all joints: F h² / Σc."""
    return push * height**2 / stiffness


@formula("1 / (count * limit / (push * height**2) - 1 / upright - 1 / lying)", "N*mm/rad", FRAMES)
def needed_stiffness(
    *,
    count: Count,
    limit: Millimetres,
    push: Newtons,
    height: Millimetres,
    upright: NewtonMillimetresPerRadian,
    lying: NewtonMillimetresPerRadian,
) -> NewtonMillimetresPerRadian:
    """How hard each of so many joints must be to turn for a sway within its limit: 1 / (n s / (F h²) - 1/u - 1/l).

    Not above 0: the members alone sway too far.
    """
    return 1 / (count * limit / (push * height**2) - 1 / upright - 1 / lying)


@formula("part * push * height / stiffness", "N*mm", FRAMES)
def joint_moment(
    *,
    part: NewtonMillimetresPerRadian,
    push: Newtons,
    height: Millimetres,
    stiffness: NewtonMillimetresPerRadian,
) -> NewtonMillimetres:
    """What one joint bears of the push: its part of the stiffness of all, c F h / Σc."""
    return part * push * height / stiffness


@formula("clamping_force * section / 6", "N*mm", "statics of a square face that a screw presses on another")
def gap_moment(*, clamping_force: Newtons, section: Millimetres) -> NewtonMillimetres:
    """At this moment a joint opens at one edge, and then turns more easily: P S / 6."""
    return clamping_force * section / 6


@formula("(2 * gap / panel_height + 2 * gap / panel_width) * height", "mm", GEOMETRY)
def free_travel(
    *, gap: Millimetres, panel_height: Millimetres, panel_width: Millimetres, height: Millimetres
) -> Millimetres:
    """How far the top moves before a loose panel touches all around and locks: (2 g / h + 2 g / b) H."""
    return (2 * gap / panel_height + 2 * gap / panel_width) * height


@formula("limit * push / usual_push", "mm", OWN_LIMIT)
def sway_limit(
    *, limit: ExactMillimetres, push: ExactNewtons, usual_push: ExactNewtons = USUAL_PUSH
) -> ExactMillimetres:
    """How far a bench may sway under this push: the usual limit, in proportion to the push."""
    return limit * push / usual_push


def usual_limit(work: str) -> ExactMillimetres:
    """The limit under the usual push, by the main work at the bench."""
    return PLANING if work == "planing" else OTHER_WORK
