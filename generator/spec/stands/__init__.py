"""What a spec can say of the stand; one line a kind in each list."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import Tag, model_validator

from generator.spec.stands import casters, feet, plinth
from generator.spec.stands.casters import Caster
from generator.spec.stands.feet import Foot
from generator.spec.stands.plates import Plate, PlateKeys
from generator.spec.stands.plinth import PlinthKeys

AnyStandGood = Annotated[Caster, Tag("caster")] | Annotated[Foot, Tag("levelling foot")]
REFERENCES = (*casters.REFERENCES, *feet.REFERENCES, *plinth.REFERENCES)
STANDARD = {**casters.STANDARD, **feet.STANDARD}


class Base(PlateKeys, PlinthKeys):
    """What the bench stands on: a caster or foot at each corner; with six, also in the middle of each long side."""

    @model_validator(mode="before")
    @classmethod
    def _counts_are_written_as_text(cls, value: Any) -> Any:
        if not isinstance(value, dict):
            return value
        counts = {key: int(value[key]) for key in ("count", "brakes") if value.get(key) in ("2", "4", "6")}
        return {**value, **counts}


__all__ = ["REFERENCES", "STANDARD", "AnyStandGood", "Base", "Caster", "Foot", "Plate"]
