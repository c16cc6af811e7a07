"""What a cutting problem or an off-cut is made of: its name, and the sides by which a shop knows goods."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.codes import Code
from generator.findings import one_of
from generator.spec.document import KeyPath
from generator.spec.field_reader import FieldReader
from generator.spec.frames import Timber
from generator.spec.goods import Angle, Profile, Sheet, Strip
from generator.units.format import format_inch, format_mm

#: Sides of each kind of goods, by the keys of its card.
SIDES: dict[str, tuple[str, ...]] = {
    "profile": ("section",),
    "timber": ("thickness", "width"),
    "sheet": ("thickness",),
    "strip": ("thickness", "width"),
    "angle": ("leg", "thickness"),
}

MATERIAL_KEYS = ("name", "section", "thickness", "width", "leg")

_FORMS = one_of(f"{{name, {', '.join(sides)}}}" for sides in SIDES.values())


@dataclass(frozen=True)
class CutMaterial:
    """A material by name, kind and sides (mm), the sides as `SIDES` lists them."""

    name: str
    kind: str
    sides: tuple[Fraction, ...]

    def is_cut_like(self, other: CutMaterial) -> bool:
        """Whether both have one kind and the same sides, to a thousandth of a millimetre; names do not count."""
        return self.kind == other.kind and all(
            abs(one - two) < Fraction(1, 1000) for one, two in zip(self.sides, other.sides, strict=True)
        )

    def words(self, units: str) -> str:
        """Sides and kind: `12 mm sheet`, `40 mm profile`."""
        write = (lambda side: format_inch(side, 64)) if units == "in" else (lambda side: format_mm(side, 3))
        return f"{' x '.join(map(write, self.sides))} {units} {self.kind}"


def material_of_card(name: str, card: Profile | Timber | Sheet | Strip | Angle) -> CutMaterial:
    """The material of a card of the spec."""
    return CutMaterial(name, card.kind, tuple(Fraction(getattr(card, side)) for side in SIDES[card.kind]))


def read_material(reader: FieldReader, path: KeyPath, entry: Any, of_sheets: bool) -> CutMaterial | None:
    """A material as a list file has it, `{name: ply-12, thickness: 12}`; None where none is written or it is faulty."""
    if entry is None:
        return None
    if not isinstance(entry, Mapping):
        reader.fault(Code.NOT_A_MAPPING, path, "this is not a material", str(entry), _FORMS)
        return None
    reader.check_keys(path, dict(entry), MATERIAL_KEYS)
    written = {key for key in MATERIAL_KEYS[1:] if entry.get(key) is not None}
    # a timber is written by the sides of a strip
    kind = next((kind for kind, sides in SIDES.items() if set(sides) == written and kind != "timber"), None)
    if kind is None or (kind == "sheet") is not of_sheets or not entry.get("name"):
        message = "a material has a name and the sides of its kind"
        reader.fault(Code.MISSING_KEY, path, message, "", _FORMS)
        return None
    sides = tuple(reader.length((*path, side), entry[side], zero=False) for side in SIDES[kind])
    return CutMaterial(str(entry["name"]), kind, sides)
