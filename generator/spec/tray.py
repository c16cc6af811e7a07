"""The board over the bays in a spec: whole, in pieces, or none."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import GetJsonSchemaHandler, model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Length, Name
from generator.spec.item import Node

NO_TRAY = "none"


class Tray(Node):
    """The board over the bays, held in both end frames. Between tray and top there is space for clamps.

    `tray: none` is a bench without it.
    """

    material: Name = "ply-12"
    """Material of the tray: the name of a sheet under `materials`."""
    boards: Literal["one", "share", "none"] = "one"
    """`one` board, `none`, or `share`: as few pieces as sheets and `longest` allow, joined over dividers."""
    longest: Length | None = None
    """Longest piece of a tray that is `share`, such as what you can carry in. Default: what a sheet holds."""
    end_rail_bottom: Length | None = None
    """Height of the tray's end rail above the underside of the frame. Default: leaves a clamp gap of 130 mm or more."""
    trim: Name | None = None
    """Angle for both long edges: a name under `materials`. Leave it out for plain edges."""

    @property
    def there(self) -> bool:
        """Whether the bench has a tray."""
        return self.boards != NO_TRAY

    @model_validator(mode="before")
    @classmethod
    def _none_alone(cls, value: Any) -> Any:
        if isinstance(value, str | int) and value != NO_TRAY:
            raise _fault(
                "this is neither `none` nor a group of keys", str(value),
                "`none`, or lines of `key: value` with the keys material, boards, longest, end_rail_bottom, trim",
                Code.NOT_A_MAPPING,
            )  # fmt: skip
        return {"boards": NO_TRAY} if value == NO_TRAY else value

    @model_validator(mode="after")
    def _no_key_of_another(self) -> Tray:
        if not self.there and self.trim is not None:
            raise _fault("a bench without a tray has no trim", "`boards: none` and `trim`", "one of the two")
        if self.longest is not None and self.boards != "share":
            allowed = "`boards: share` with `longest`, or no `longest`"
            raise _fault("only a tray in pieces has a longest piece", f"`boards: {self.boards}`", allowed)
        return self


def _fault(message: str, found: str, allowed: str, code: Code = Code.TRAY_KEYS) -> PydanticCustomError:
    context = {"message": message, "found": found, "allowed": allowed}
    return PydanticCustomError(code, "{message}", context)


class OrNone:
    """Beside the key: `none` may be written instead of its keys."""

    def __get_pydantic_json_schema__(self, core: Any, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Either of both, for editors."""
        return {"anyOf": [{"const": NO_TRAY}, handler(core)]}
