"""Every text of a spec and of its record, key or value, with its place."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from generator.findings import Where
from generator.spec.document import Document, KeyPath
from generator.spec.load import LoadedSpec


def texts_of(loaded: LoadedSpec) -> Iterator[tuple[str, Where]]:
    """The texts in the order of the files, the spec's first."""
    for document in (loaded.document, loaded.record.document):
        if document is not None:
            yield from _inside(document, document.data, ())


def _inside(document: Document, value: Any, path: KeyPath) -> Iterator[tuple[str, Where]]:
    if isinstance(value, str):
        yield value, document.where(path)
    elif isinstance(value, dict):
        for key, item in value.items():
            yield key, document.where((*path, key), of_key=True)
            yield from _inside(document, item, (*path, key))
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _inside(document, item, (*path, index))
