"""What can fill a bay. Each kind is a module of its own; this tuple is the only list of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from generator.bench.driven import Path
from generator.bench.fillings.doors import DoorFilling
from generator.bench.fillings.drawers import DrawerFilling
from generator.bench.fillings.gussets import GussetFilling
from generator.bench.fillings.joins import JoinFilling
from generator.bench.fillings.kind import FillingKind
from generator.bench.fillings.knee import KneeSpace
from generator.bench.fillings.open_spaces import OpenSpaces
from generator.bench.fillings.panel_brackets import PanelBracketFilling
from generator.bench.fillings.pull_outs import PullOutFilling
from generator.bench.fillings.racks import RackFilling
from generator.bench.fillings.services import ServiceFilling
from generator.bench.fillings.shelves import ShelfFilling
from generator.bench.fillings.totes import ToteFilling
from generator.bench.role import Role

#: In the order in which their facts are listed; boards and strips are listed in the reverse order.
FILLINGS: tuple[FillingKind[Any], ...] = (
    DrawerFilling(),
    ToteFilling(),
    OpenSpaces(),
    PullOutFilling(),
    RackFilling(),
    ShelfFilling(),
    DoorFilling(),
    KneeSpace(),
    GussetFilling(),
    PanelBracketFilling(),
    ServiceFilling(),
    JoinFilling(),
)


def strip_paths() -> Mapping[Role, Path]:
    """Roles of what is fixed to a wall, with the key that chooses each."""
    return {role: path for kind in FILLINGS for role, path in kind.strips.items()}
