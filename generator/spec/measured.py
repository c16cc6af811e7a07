"""Measured values over a spec: which quantity a path names, and the spec as it then reads.

A path is the spec's own (`materials.ply-12.thickness`, `hardware.slide.holes[0]`), or `bays.F1.width`: the clear width
of a bay where its slides sit, the least of three points.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any, get_args, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError

from generator.codes import Code
from generator.findings import Finding, Severity, Where, nearest, one_of
from generator.provenance import GivenValue, given
from generator.spec.document import Document, KeyPath
from generator.spec.record import MeasuredText, Record
from generator.spec.schema import Spec
from generator.units.parse import parse_length
from generator.units.sizes import UnitError

__all__ = ["Laid", "Measured", "lay_over"]


FIRST_MEASURED = (("thickness",), ("slot", "opening"))
"""By these a board or a bar counts as measured: what is cut to fit follows from them."""


@dataclass(frozen=True)
class Measured:
    """A measured value in the unit of the spec's models (mm, kg …). `key` is empty for a bay.

    `nominal` is the spec's own value, None for a bay: the layout knows it. `where` is the line of the record.
    """

    path: str
    key: KeyPath
    nominal: Fraction | None
    value: Fraction
    date: str
    by: str
    where: Where
    text: str
    """As it was written."""
    bay: str = ""


@dataclass(frozen=True)
class Laid:
    """The spec's data with all measured values over it, newest last; `document` places them in the record."""

    data: Mapping[str, Any]
    document: Document
    measured: tuple[Measured, ...]

    @property
    def by_path(self) -> Mapping[KeyPath, Measured]:
        """The newest value of each quantity of the spec."""
        return {each.key: each for each in self.measured if each.key}

    @property
    def bays(self) -> Mapping[str, Measured]:
        """The newest width of each measured bay."""
        return {each.bay: each for each in self.measured if each.bay}


@dataclass(frozen=True)
class _Laid(Document):
    """The spec's document, except that a measured value has its place in the record."""

    above: Mapping[KeyPath, Where] | None = None

    def where(self, path: KeyPath, of_key: bool = False) -> Where:
        """The record's line for a measured value, else the spec's."""
        found = (self.above or {}).get(path)
        return found or super().where(path, of_key)


class _NoSuchError(Exception):
    def __init__(self, message: str, found: str, allowed: str = "", near: str = "") -> None:
        super().__init__(message)
        self.message, self.found, self.allowed, self.near = message, found, allowed, near


def lay_over(
    spec: Spec, data: Mapping[str, Any], document: Document, record: Record
) -> tuple[Laid, tuple[Finding, ...]]:
    """Lay the record's measured values over the spec's data. Returns a finding for each path that names nothing."""
    laid: Any = data
    measured: list[Measured] = []
    faults: list[Finding] = []
    for entry in record.entries:
        text = entry.measured
        if text is None:
            continue
        where = record.where((*text.at, "value"))
        assert where is not None
        try:
            if text.path.startswith("bays."):
                bay, width = _bay(text, spec.units)
                source = "Clear width of the bay, least of three points at its slides"
                path = ("bays", bay, "width")
                origin = GivenValue(
                    text.path, "mm", "record", entry.date, text.text, where.file, where.line, source, path
                )
                width = given(width, origin)
                measured.append(
                    Measured(text.path, (), None, width, entry.date, entry.by, where, text.text, bay)
                )
                continue
            key, nominal, kind = _quantity(spec, text.path)
            value = _value(kind, text.text, spec.units)
        except _NoSuchError as error:
            faults.append(_fault(record, text, error))
            continue
        laid = _with(laid, key, value, spec)
        if key[0] == "materials" and key[2:] in FIRST_MEASURED:
            laid = _with(laid, (*key[:2], "measured"), entry.date, spec)
        measured.append(Measured(text.path, key, nominal, value, entry.date, entry.by, where, text.text))
    above = {each.key: each.where for each in measured if each.key}
    over = _Laid(document.file, document.lines, document.data, document.places, above)
    return Laid(laid, over, tuple(measured)), tuple(faults)


def _quantity(spec: Spec, path: str) -> tuple[KeyPath, Fraction, Any]:
    """Key path, value and kind of the quantity that a path names. Raises _NoSuchError."""
    if path.startswith("zones"):
        message = "the size of a bay or zone is calculated; measure the clear width of the bay instead"
        raise _NoSuchError(message, path, "bays.NAME.width")
    here: Any = spec
    kind: Any = None
    key: list[str | int] = []
    rest = path
    while rest:
        step, rest = _step(here, rest, path)
        kind = _kind(here, step, kind)
        key.append(step)
        here = getattr(here, str(step)) if isinstance(here, BaseModel) else here[step]
    if not isinstance(here, Fraction):
        what = "the plan has no value here" if here is None else "this is not a quantity"
        raise _NoSuchError(f"{what}, so it cannot be measured", path, _keys_text(here))
    return tuple(key), here, kind


def _kind(here: Any, step: str | int, kind: Any) -> Any:
    """The annotation of what is one step down, by which its text is read."""
    if isinstance(here, BaseModel):
        info = type(here).model_fields[str(step)]
        return Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation
    if isinstance(step, int):
        while (
            get_origin(kind) is not tuple
        ):  # behind its bounds, or beside the None of a list that may be left out
            kind = get_args(kind)[0]
        members = get_args(kind)
        return members[0] if Ellipsis in members else members[step]
    return kind


def _value(kind: Any, text: str, units: str) -> Fraction:
    try:
        value = TypeAdapter(kind).validate_python(text, context={"units": units})
    except ValidationError as error:
        context = error.errors(include_url=False)[0].get("ctx", {})
        message = str(context.get("message", "this value does not fit here"))
        raise _NoSuchError(message, text, str(context.get("allowed", ""))) from None
    assert isinstance(value, Fraction)
    return value


def _step(here: Any, rest: str, path: str) -> tuple[str | int, str]:
    """One step down: the longest key that the rest begins with, as names may hold dots."""
    if isinstance(here, tuple):
        match = re.match(r"\[(\d{1,3})\](?:\.(?!$)|(?=\[)|$)", rest)
        if match and int(match[1]) < len(here):
            return int(match[1]), rest[match.end() :]
        raise _NoSuchError("the list has no such place", path, f"from [0] to [{len(here) - 1}]")
    keys = _keys(here)
    for key in sorted(keys, key=len, reverse=True):
        if rest == key:
            return key, ""
        if rest.startswith(f"{key}.") and len(rest) > len(key) + 1:
            return key, rest[len(key) + 1 :]
        if rest.startswith(f"{key}["):
            return key, rest[len(key) :]
    word = re.split(r"[.\[]", rest)[0]
    raise _NoSuchError("the spec has no such quantity", path, _keys_text(here), nearest(word, keys))


def _keys(here: Any) -> list[str]:
    if isinstance(here, BaseModel):
        return list(type(here).model_fields)
    return list(here) if isinstance(here, dict) else []


def _keys_text(here: Any) -> str:
    keys = _keys(here)
    return one_of(keys) if keys else "a length, mass or other quantity of the spec"


def _bay(text: MeasuredText, units: str) -> tuple[str, Fraction]:
    name, _, what = text.path.removeprefix("bays.").rpartition(".")
    if what != "width" or not name:
        raise _NoSuchError(
            "only the clear width of a bay can be measured", text.path, "bays.NAME.width", "width"
        )
    try:
        width = parse_length(text.text, units)
    except UnitError as error:
        raise _NoSuchError(error.reason, text.text, "a length") from None
    if width <= 0:
        raise _NoSuchError("this length is too small", text.text, "above 0")
    return name, width


def _fault(record: Record, text: MeasuredText, error: _NoSuchError) -> Finding:
    key = "value" if error.found == text.text else "path"
    where = record.where((*text.at, key))
    return Finding(
        Code.NOT_MEASURABLE, Severity.ERROR, error.message, where, error.found, error.allowed, error.near
    )


def _with(data: Any, key: KeyPath, value: Fraction | str, model: Any) -> Any:
    """A copy of the data with one value set; what the spec leaves out is written as the model has it."""
    if not key:
        return value
    step, rest = key[0], key[1:]
    below = getattr(model, str(step)) if isinstance(model, BaseModel) else model[step]
    if isinstance(step, int):
        items = list(data) if isinstance(data, list) else list(model)
        items[step] = _with(items[step], rest, value, below)
        return items
    given = dict(data) if isinstance(data, dict) else {}
    given[step] = _with(given.get(step), rest, value, below)
    return given
