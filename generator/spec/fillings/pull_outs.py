"""A pull-out in a stack: a board on slides."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from generator.spec.fields import Length
from generator.spec.item import Node


class PullOutKeys(Node):
    """A pull-out in a stack."""

    # no field of Python has a hyphen
    __annotations__ = {
        "pull-out": Annotated[
            Length | None,
            Field(
                default=None,
                description="Height from the top of the base rail to the top of a board on slides, such as 60 mm.",
            ),
        ]
    }


#: The key of the item, and how a message says it.
ITEM = ("pull-out", "pull-out")
