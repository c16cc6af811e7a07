"""What a spec can put into a stack; one line a kind in each list."""

from __future__ import annotations

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fillings import drawers, open_spaces, pull_outs, racks, shelves, totes
from generator.spec.fillings.drawers import DrawerKeys
from generator.spec.fillings.open_spaces import OpenKeys
from generator.spec.fillings.pull_outs import PullOutKeys
from generator.spec.fillings.racks import RackKeys
from generator.spec.fillings.shelves import ShelfKeys
from generator.spec.fillings.totes import ToteKeys

ITEMS = dict((drawers.ITEM, totes.ITEM, shelves.ITEM, racks.ITEM, pull_outs.ITEM, open_spaces.ITEM))
#: Keys that go with one item alone.
WITH = {"count": "totes", "slots": "rack"}


# the last base is the first of the reference page
class StackItem(OpenKeys, PullOutKeys, RackKeys, ShelfKeys, ToteKeys, DrawerKeys):
    """One item in the stack of a bay: exactly one of drawer, totes, shelf, rack, pull-out or open."""

    @model_validator(mode="after")
    def _exactly_one(self) -> StackItem:
        given = [key for key in ITEMS if getattr(self, key) is not None]
        alone = all(given == [WITH[key]] for key in WITH if key in self.model_fields_set)
        if len(given) != 1 or not alone:
            raise PydanticCustomError(
                Code.STACK_ITEM,
                "{message}",
                {
                    "message": "each item of a stack is exactly one thing",
                    "found": ", ".join(sorted(self.model_fields_set)) or "nothing",
                    "allowed": f"one of {', '.join(ITEMS.values())}",
                },
            )
        return self


__all__ = ["StackItem"]
