"""Writing a store of off-cuts: only if it is what the plan was made with, whole or not at all, one writer at a time."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from generator.disk import locked, put
from generator.spec.offcut_store import OffcutStore, read_store, store_text
from generator.spec.text_file import read_text


class StoreChangedError(Exception):
    """The store is not what it was when the plan was made."""


def stored_text(path: Path) -> str:
    """The text of a store; empty where there is none yet. Raises SpecError when it cannot be read."""
    return read_text(path) if path.exists() or path.is_symlink() else ""


def write_back(path: Path, before: str, store: OffcutStore, on_wait: Callable[[], None]) -> None:
    """Put the new store in the place of the one with the text `before`.

    Raises StoreChangedError, with nothing written, when another has written in between; SpecError when the new store
    could not be read again; OSError when it cannot be written.
    """
    target = path.resolve()
    text = store_text(store)
    read_store(text, path.name)
    with locked(target, on_wait):
        if stored_text(target) != before:
            raise StoreChangedError(str(path))
        put(target, text.encode(), durable=True)
