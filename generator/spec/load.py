"""`read_spec`: text in, validated and located spec out, or every fault at once."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property
from pathlib import Path as FilePath
from typing import Any

from generator.codes import Code
from generator.disk import readable
from generator.findings import Finding, Severity, SpecError, Where, one_of
from generator.spec.cards import Completed, complete
from generator.spec.check import check_names
from generator.spec.chosen import ChosenGoods, chosen_goods
from generator.spec.document import Document, KeyPath
from generator.spec.faults import validate
from generator.spec.measured import Measured, lay_over
from generator.spec.neighbours import texts_in, with_neighbours
from generator.spec.origins import with_origins
from generator.spec.photo import Photo, PhotoError, read_photo
from generator.spec.reader import read_document
from generator.spec.record import Record, has_record, read_record, record_path
from generator.spec.schema import Spec
from generator.spec.text_file import read_text
from generator.units.format import format_mm
from generator.units.sizes import INCH, KG_PER_LB


@dataclass(frozen=True)
class RecordText:
    """The record of a build as text; `file` is named in findings, photos are below `folder`."""

    text: str
    file: str
    folder: FilePath | None = None


@dataclass(frozen=True)
class LoadedSpec:
    """A valid spec with the places of its keys. `typical` names the card under an entry of a section.

    `spec` holds the effective values: the measured ones of the record where there are any. `nominal` is the spec as
    it is written, and `measured` has both for each, with date and place.
    """

    spec: Spec
    document: Document
    text: str
    checksum: str
    typical: Mapping[tuple[str, str], str]
    nominal: Spec
    record: Record = field(default_factory=Record)
    measured: tuple[Measured, ...] = ()
    """Every measured value, oldest first; the newest of a path is the effective one."""
    picture: Photo | None = None
    """The picture of a published manual that `site.image` names."""
    neighbours: Mapping[str, LoadedSpec] = field(default_factory=dict)
    """The spec of each bench that this one joins, by its file; without those that were not looked for."""

    @cached_property
    def goods(self) -> ChosenGoods:
        """The cards that the spec chooses, with the values that were measured."""
        return chosen_goods(self.spec)

    def where(self, *path: str | int) -> Where:
        """The place of a key path, or of its nearest ancestor that the spec writes; the record's for a measured one."""
        return self.document.where(path)

    def measured_at(self, *path: str | int) -> Measured | None:
        """The newest measured value of a key path, if there is one."""
        key: KeyPath = path
        return next((each for each in reversed(self.measured) if each.key == key), None)

    def files(self, name: str) -> list[str]:
        """The files that a spec file of this `name` is read with, from its folder; the record may be missing."""
        picture = [self.spec.site.image] if self.spec.site.image else []
        return [name, record_path(FilePath(name)).name, *self.record.photos, *picture, *self.neighbours]

    def bay_widths(self) -> Mapping[str, Measured]:
        """The newest measured width of each bay that was measured, by the bay's name."""
        return {each.bay: each for each in self.measured if each.bay}

    def as_written(self) -> LoadedSpec:
        """The plan alone: nothing measured."""
        return replace(self, spec=self.nominal, measured=())

    def without_bays(self) -> LoadedSpec:
        """The same without the measured bays: as the plan has them."""
        return replace(self, measured=tuple(each for each in self.measured if not each.bay))

    def weight(self, kilograms: float, *, up: bool = False) -> str:
        """A mass for a message in whole units of the spec's system, rounded down, or up."""
        amount, unit = (kilograms / KG_PER_LB, "lb") if self.spec.units == "in" else (kilograms, "kg")
        return f"{math.ceil(amount) if up else math.floor(amount)} {unit}"

    def fault(self, code: Code, message: str, *path: str | int, **more: Any) -> Finding:
        """Why no bench can follow from what is at a key path."""
        return Finding(code, Severity.ERROR, message, self.where(*path), **more)

    def say(self, length: Fraction) -> str:
        """A length for a message, in the spec's own unit and exact to a thousandth."""
        if self.spec.units == "in":
            return f"{format_mm(length / INCH, 3)} in"
        return f"{format_mm(length, 3)} mm"


def read_spec(text: str, file: str, record: RecordText | None = None) -> LoadedSpec:
    """Read a spec and the record of its build. Raises SpecError with all faults; `file` is only named in them."""
    document = read_document(text, file)
    completed = complete(document.data)
    units = completed.data.get("units", "mm")
    context = {"units": units if units in ("mm", "in") else "mm"}
    findings = _unknown_cards(completed, document) + check_names(
        completed.data, document, {card.path[:2] for card in completed.unknown}
    )
    nominal, faults = validate(completed.data, document, context)
    findings = sorted(findings + faults, key=_in_file_order)
    written, faults_of_record = _read_record(record, context["units"])
    if findings or faults_of_record or nominal is None:
        raise SpecError([*findings, *sorted(faults_of_record, key=_in_file_order)])
    laid, unknown = lay_over(nominal, completed.data, document, written)
    spec, faults = validate(laid.data, laid.document, context)
    if unknown or spec is None:
        raise SpecError([*faults, *unknown])
    checksum = checksum_of(text)
    planned = with_origins(nominal, document, completed.typical)
    if laid.measured:
        spec = with_origins(spec, laid.document, completed.typical, laid.by_path)
    return LoadedSpec(
        spec if laid.measured else planned,
        laid.document,
        text,
        checksum,
        completed.typical,
        planned,
        written,
        laid.measured,
    )


def checksum_of(text: str) -> str:
    """What tells this text of a spec from all others: twelve letters and digits."""
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def read_spec_file(path: FilePath, shown: str = "") -> LoadedSpec:
    """Read a spec and the record beside it. Raises SpecError also when one of the files cannot be read.

    Findings call the spec what is `shown`, or by the name of its file.
    """
    text = read_text(path)
    beside = record_path(path)
    name = shown or readable(path.name)
    record = None
    if has_record(path):
        record = RecordText(read_text(beside), readable(beside.name), path.parent)
    loaded = with_neighbours(read_spec(text, name, record), texts_in(path.parent), read_spec)
    return _with_picture(loaded, path.parent)


def _with_picture(loaded: LoadedSpec, folder: FilePath) -> LoadedSpec:
    """With the picture that the spec names for its published manual. Raises SpecError when it cannot be shown."""
    name = loaded.spec.site.image
    if not name:
        return loaded
    try:
        return replace(loaded, picture=read_photo(folder, name))
    except PhotoError as error:
        raise SpecError(
            [loaded.fault(error.code, error.reason, "site", "image", found=name, allowed=error.allowed)]
        ) from None


def _read_record(record: RecordText | None, units: str) -> tuple[Record, tuple[Finding, ...]]:
    if record is None:
        return Record(), ()
    try:
        return read_record(record.text, record.file, units, record.folder)
    except SpecError as error:
        return Record(), error.findings


def _in_file_order(finding: Finding) -> tuple[int, int]:
    return (finding.where.line, finding.where.column) if finding.where else (0, 0)


def _unknown_cards(completed: Completed, document: Document) -> list[Finding]:
    return [
        Finding(
            Code.UNKNOWN_CARD,
            Severity.ERROR,
            "no typical data card has this name",
            document.where(card.path),
            found=card.name,
            allowed=one_of(card.allowed),
            nearest=card.nearest,
        )
        for card in completed.unknown
    ]
