"""The off-cuts of a shop: a list file that one job takes from and the next adds to.

```yaml
units: mm
offcuts:
- {material: {name: ply-12, thickness: 12}, length: 1220, width: 492, count: 1, origin: "demo 2026-11-28"}
- {material: {name: bar, section: 40}, length: 1706, count: 1, lot: "delivery of May", origin: "demo 2026-11-28"}
```
The grain of a sheet runs along its `length`. Comments at the head of the file are kept.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.findings import SpecError
from generator.spec.cut_material import SIDES, CutMaterial, read_material
from generator.spec.document import KeyPath
from generator.spec.field_reader import Entry, FieldReader
from generator.spec.reader import read_document
from generator.units.sizes import INCH

_FIELDS = ("material", "length", "width", "count", "lot", "origin")

_HEAD = "# Off-cuts of the shop. The grain of a sheet runs along its length."

_START = "A new store is an empty file, or the line `offcuts: []`: `bench-manual cuts … --cut` fills it."

_FINEST = 64
"""Inches that are no multiple of 1/64 are written as decimals."""


@dataclass(frozen=True)
class StoredOffcut:
    """`count` off-cuts of one size (mm); `width` None for bars. `origin` is the job that they are left from."""

    material: CutMaterial
    length: Fraction
    width: Fraction | None
    count: int
    lot: str = ""
    origin: str = ""


@dataclass(frozen=True)
class OffcutStore:
    """All off-cuts in the order of the file, and the comments at its head."""

    units: str = "mm"
    offcuts: tuple[StoredOffcut, ...] = ()
    head: tuple[str, ...] = (_HEAD,)

    def after(self, taken: Sequence[int], added: Iterable[StoredOffcut]) -> OffcutStore:
        """The store without `taken` of its entries (a count for each), and with what is `added`."""
        left = [
            replace(each, count=each.count - number)
            for each, number in zip(self.offcuts, taken, strict=True)
            if each.count > number
        ]
        return replace(self, offcuts=(*left, *added))


def read_store(text: str, file: str) -> OffcutStore:
    """Read a store; an empty text is an empty store. Raises SpecError with all faults."""
    head = []
    for line in text.removeprefix("\ufeff").splitlines():
        if not line.startswith("#"):
            break
        head.append(line)
    if all(line.strip() == "" or line.lstrip().startswith("#") for line in text.splitlines()):
        return OffcutStore(head=tuple(head)) if head else OffcutStore()
    return replace(_StoreReader(read_document(text, file, start=_START)).store(), head=tuple(head))


class _StoreReader(FieldReader):
    def store(self) -> OffcutStore:
        self.check_keys((), self.data, ("units", "offcuts"))
        self.check_units()
        listed = [] if self.data.get("offcuts") == [] else self.entries("offcuts", _FIELDS, 2)
        offcuts = [self._offcut(path, entry) for path, entry in listed]
        if self.findings:
            raise SpecError(self.findings)
        return OffcutStore(self.units, tuple(each for each in offcuts if each))

    def _offcut(self, path: KeyPath, entry: Entry) -> StoredOffcut | None:
        has_width = entry.get("width", ((), None))[1] is not None
        material = read_material(self, *entry["material"], of_sheets=has_width)
        sides = [self.size(path, entry, side) for side in ("length", "width")[: 1 + has_width]]
        count = self.count(path, entry)
        if material is None:
            return None
        width = sides[1] if has_width else None
        return StoredOffcut(
            material, sides[0], width, count, self.word(entry, "lot"), self.word(entry, "origin")
        )


def store_text(store: OffcutStore) -> str:
    """The store as its file: one line an entry, every length exact."""
    lines = [*store.head, f"units: {store.units}", "offcuts:" if store.offcuts else "offcuts: []"]
    return (
        "\n".join([*lines, *(f"- {{{', '.join(_fields(store.units, each))}}}" for each in store.offcuts)])
        + "\n"
    )


def _fields(units: str, offcut: StoredOffcut) -> list[str]:
    made = offcut.material
    sides = zip(SIDES[made.kind], made.sides, strict=True)
    goods = [f"name: {_text(made.name)}", *(f"{side}: {exact_length(size, units)}" for side, size in sides)]
    fields = [f"material: {{{', '.join(goods)}}}", f"length: {exact_length(offcut.length, units)}"]
    if offcut.width is not None:
        fields.append(f"width: {exact_length(offcut.width, units)}")
    fields.append(f"count: {offcut.count}")
    fields += [
        f"{key}: {_text(word)}" for key, word in (("lot", offcut.lot), ("origin", offcut.origin)) if word
    ]
    return fields


def exact_length(length: Fraction, units: str) -> str:
    """A length in `units`, to the last bit: decimals where they end, else a fraction."""
    number = Fraction(length / INCH if units == "in" else length)
    steps = number * 10**9
    if steps.denominator == 1 and (units == "mm" or number.denominator > _FINEST):
        whole, part = divmod(steps.numerator, 10**9)
        return f"{whole}.{part:09d}".rstrip("0").rstrip(".")
    whole, part = divmod(number.numerator, number.denominator)
    return f"{whole} {part}/{number.denominator}" if part else str(whole)


def _text(word: str) -> str:
    """Any text as a scalar in double quotes."""
    return json.dumps(word, ensure_ascii=False)
