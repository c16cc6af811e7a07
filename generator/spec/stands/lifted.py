"""Casters and feet together: the bench rolls on its casters, and works on its feet, which lift it."""

from __future__ import annotations

from typing import Self

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Length
from generator.spec.stands.casters import CasterKeys
from generator.spec.stands.feet import FootKeys


class LiftKeys(FootKeys, CasterKeys):
    """What chooses casters, feet, or both."""

    lift: Length | None = None
    """With `casters` and `feet`: how high the wheels are above the floor while the bench works on its feet."""

    @model_validator(mode="after")
    def _fixed_casters(self) -> Self:
        if self.fixed is None or self.feet is None or self.lift is not None:
            return self
        raise PydanticCustomError(
            Code.STAND_TWO, "{message}",
            {
                "message": "a bench on feet alone has no casters that could be fixed",
                "found": "`feet` and `fixed`",
                "allowed": "`fixed` for a bench with casters",
            },
        )  # fmt: skip

    @model_validator(mode="after")
    def _both_or_one(self) -> Self:
        both = self.feet is not None and "casters" in self.model_fields_set
        if both == (self.lift is not None):
            return self
        message = "the bench has casters and feet, and no `lift` says how high the feet lift the wheels"
        if not both:
            message = "`lift` is for a bench that has both casters and feet"
        raise PydanticCustomError(
            Code.STAND_LIFT, "{message}",
            {
                "message": message,
                "found": "`casters` and `feet` without `lift`" if both else "`lift` without both",
                "allowed": "`casters` with `feet` and `lift`, such as 6 mm, or one of the two alone",
            },
        )  # fmt: skip
