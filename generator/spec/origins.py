"""Every number of a spec with where it comes from: a line of the spec, a measurement, a typical card, a default."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any, TypeVar, get_args

from pydantic import BaseModel

from generator.calculators.spacing import Share
from generator.provenance import GivenValue, given
from generator.spec.document import Document, KeyPath, path_text
from generator.spec.fields import InUnit, Screw
from generator.spec.measured import Measured

Model = TypeVar("Model", bound=BaseModel)


def with_origins(
    spec: Model,
    document: Document,
    typical: Mapping[tuple[str, str], str],
    measured: Mapping[KeyPath, Measured] | None = None,
) -> Model:
    """The same spec, equal in every value; its numbers know their key path, unit, origin and line.

    `typical` names the card under an entry of a section, `measured` are the values that the record of the build has.
    """
    return _Origins(document, typical, measured or {}).of_model(spec, ())


class _Origins:
    def __init__(
        self,
        document: Document,
        typical: Mapping[tuple[str, str], str],
        measured: Mapping[KeyPath, Measured],
    ) -> None:
        self._document, self._typical, self._measured = document, typical, measured

    def of_model(self, node: Model, path: KeyPath) -> Model:
        values = {}
        alone = self._written(path)  # one value is used for all keys of a group
        for name, field in type(node).model_fields.items():
            unit = _unit(field.annotation, field.metadata)
            values[name] = self._of(
                getattr(node, name), path if alone else (*path, name), unit, field.description or ""
            )
        return type(node).model_construct(_fields_set=set(node.model_fields_set), **values)

    def _of(self, value: Any, path: KeyPath, unit: str | None, what: str) -> Any:
        if isinstance(value, BaseModel):
            return self.of_model(value, path)
        if isinstance(value, dict):
            return {key: self._of(item, (*path, key), unit, what) for key, item in value.items()}
        if isinstance(value, tuple):
            alone = self._written(path)  # one value is used for both ends of a range
            return tuple(
                self._of(item, path if alone else (*path, i), unit, what) for i, item in enumerate(value)
            )
        if isinstance(value, Share):
            return replace(value, weight=self._given(value.weight, path, "", what))
        if isinstance(value, Screw):
            return replace(value, length=self._given(value.length, path, "mm", what))
        if isinstance(value, Fraction) and unit is not None:
            return self._given(value, path, unit, what)
        return value

    def _given(self, value: Fraction, path: KeyPath, unit: str, what: str) -> Fraction:
        name = path_text(path)
        if found := self._measured.get(path):
            place = found.where
            return given(
                value,
                GivenValue(name, unit, "record", found.date, found.text, place.file, place.line, what, path),
            )
        origin, detail = self._origin(path)
        text = self._written(path)
        if path not in self._document.places:
            return given(value, GivenValue(name, unit, origin, detail, text, why=what, path=path))
        where = self._document.where(path)
        return given(value, GivenValue(name, unit, origin, detail, text, where.file, where.line, what, path))

    def _origin(self, path: KeyPath) -> tuple[str, str]:
        """What a number comes from, and the date or the card."""
        entry = (str(path[0]), str(path[1])) if len(path) > 1 else ("", "")
        date = self._written((*entry, "measured"))
        if date and "stock" not in path:
            return "measured", date  # the user measured, and wrote what differs from the card
        if path in self._document.places:
            return "spec", ""
        return ("card", self._typical[entry]) if entry in self._typical else ("default", "")

    def _written(self, path: KeyPath) -> str:
        here = self._document.data
        for step in path:
            if isinstance(here, dict):
                here = here.get(step)
            elif isinstance(here, list) and isinstance(step, int) and step < len(here):
                here = here[step]
            else:
                return ""
        return here if isinstance(here, str) else ""


def _unit(annotation: Any, metadata: list[Any]) -> str | None:
    """The unit that is given beside a kind of value, however deep in lists and alternatives."""
    for mark in (*metadata, *getattr(annotation, "__metadata__", ())):
        if isinstance(mark, InUnit):
            return mark.name
    found = (_unit(inner, []) for inner in get_args(annotation))
    return next((unit for unit in found if unit is not None), None)
