"""What fills the bays, by the sections of the figures, which are older than this room."""

from __future__ import annotations

from generator.bench.fillings.door_places import PlacedDoor
from generator.bench.fillings.drawer_boards import PlacedDrawer
from generator.bench.fillings.facts import Filled
from generator.bench.fillings.open_spaces import OpenSpace
from generator.bench.fillings.pull_out_boards import PlacedPullOut
from generator.bench.fillings.shelf_boards import PlacedShelf
from generator.bench.fillings.tote_runners import PlacedTote


class Storage(Filled):
    """The items of each section in the order of bays, from below."""

    @property
    def drawers(self) -> tuple[PlacedDrawer, ...]:
        """Section `drawers`."""
        return self.of(PlacedDrawer)

    @property
    def totes(self) -> tuple[PlacedTote, ...]:
        """Section `totes`."""
        return self.of(PlacedTote)

    @property
    def shelves(self) -> tuple[PlacedShelf, ...]:
        """Section `shelves`."""
        return self.of(PlacedShelf)

    @property
    def open(self) -> tuple[OpenSpace, ...]:
        """Open spaces, of section `openings`."""
        return self.of(OpenSpace)

    @property
    def pull_outs(self) -> tuple[PlacedPullOut, ...]:
        """Section `pull_outs`."""
        return self.of(PlacedPullOut)

    @property
    def doors(self) -> tuple[PlacedDoor, ...]:
        """Section `doors`."""
        return self.of(PlacedDoor)
