"""The goods that a spec chooses: each card found by its name once, and of the kind that its place asks for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from generator.spec.bracing import CornerBracket, PanelBracket
from generator.spec.edge_bands import EdgeBanding
from generator.spec.fillings.doors import Catch, Hinge
from generator.spec.fillings.pulls import EdgeGrip, Pull
from generator.spec.frames import Timber
from generator.spec.goods import Angle, Bracket, Profile, Sheet, Slide, SlotNut, Strip
from generator.spec.item import Node
from generator.spec.joining import JoiningBolt
from generator.spec.joints import JointCard
from generator.spec.members import Members, members_of, timber_of_posts
from generator.spec.schema import Spec
from generator.spec.services import HosePort, SocketStrip

Card = TypeVar("Card", bound=Node)


@dataclass(frozen=True)
class ChosenGoods:
    """Cards by what they are for; the mappings have every card of a kind by its name in the spec.

    `lengths` are cut from bars, `joints` join two of them. `trim` and `bracket` are None where the spec names none.
    """

    members: Members
    profile: Profile | None
    """The frame's slotted bar; None where its members are of timber."""
    wall: Sheet
    tray: Sheet
    trim: Angle | None
    top: Sheet
    """The sheet of the top, as thick as all its layers."""
    bracket: Bracket | None
    bracket_thickness: Fraction
    """Thickness of the brackets that hold the top (mm), with a card or without."""
    slot_nut: SlotNut
    sheets: Mapping[str, Sheet]
    strips: Mapping[str, Strip]
    angles: Mapping[str, Angle]
    lengths: Mapping[str, Profile | Timber | Strip | Angle]
    timbers: Mapping[str, Timber]
    joints: Mapping[str, JointCard]
    brackets: Mapping[str, Bracket]
    slides: Mapping[str, Slide]
    pull: Pull | EdgeGrip | None
    hinge: Hinge
    door_pull: Pull | EdgeGrip | None
    catch: Catch | None
    banding: EdgeBanding | None
    """What covers the edges of boards; None where they stay bare."""
    services: Mapping[str, SocketStrip | HosePort]
    gussets: Mapping[str, CornerBracket]
    panel_brackets: Mapping[str, PanelBracket]
    joining_bolts: Mapping[str, JoiningBolt]


def chosen_goods(spec: Spec) -> ChosenGoods:
    """The goods of a valid spec. Raises KeyError for a name of another kind, which reading the spec refuses."""
    sheets, angles = _of(spec.materials, Sheet), _of(spec.materials, Angle)
    brackets = _of(spec.hardware, Bracket)
    bracket = brackets[spec.top.bracket] if spec.top.bracket else None
    pulls = _of(spec.hardware, Pull) | _of(spec.hardware, EdgeGrip)
    return ChosenGoods(
        members=members_of(spec),
        profile=None if timber_of_posts(spec) else _of(spec.materials, Profile)[spec.frame.material],
        wall=sheets[spec.panels.material],
        tray=sheets[spec.tray.material],
        trim=angles[spec.tray.trim] if spec.tray.trim else None,
        top=_layered(sheets[spec.top.material], spec.top.layers),
        bracket=bracket,
        bracket_thickness=bracket.size[2] if bracket else spec.top.bracket_thickness,
        slot_nut=_of(spec.hardware, SlotNut)[spec.frame.slot_nut],
        sheets=sheets,
        strips=_of(spec.materials, Strip),
        angles=angles,
        lengths={
            name: entry
            for name, entry in spec.materials.items()
            if isinstance(entry, Profile | Timber | Strip | Angle)
        },
        timbers=_of(spec.materials, Timber),
        joints={name: entry for name, entry in spec.hardware.items() if isinstance(entry, JointCard)},
        brackets=brackets,
        slides=_of(spec.hardware, Slide),
        pull=pulls[spec.drawers.pull] if spec.drawers.pull else None,
        hinge=_of(spec.hardware, Hinge)[spec.doors.hinge],
        door_pull=pulls[spec.doors.pull] if spec.doors.pull else None,
        catch=_of(spec.hardware, Catch)[spec.doors.catch] if spec.doors.catch else None,
        banding=_of(spec.hardware, EdgeBanding)[spec.edges.banding] if spec.edges.banding else None,
        services={**_of(spec.hardware, SocketStrip), **_of(spec.hardware, HosePort)},
        gussets=_of(spec.hardware, CornerBracket),
        panel_brackets=_of(spec.hardware, PanelBracket),
        joining_bolts=_of(spec.hardware, JoiningBolt),
    )


def _layered(sheet: Sheet, layers: int) -> Sheet:
    """The sheet as thick as all its layers together."""
    return sheet if layers == 1 else sheet.model_copy(update={"thickness": sheet.thickness * layers})


def _of(section: Mapping[str, object], kind: type[Card]) -> dict[str, Card]:
    return {name: entry for name, entry in section.items() if isinstance(entry, kind)}
