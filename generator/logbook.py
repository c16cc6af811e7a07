"""Adding an entry to the record of a build: checked first, then written whole or not at all, one writer at a time.

The new text is written beside the record, forced to the disk and then put in its place in one step: whenever the power
goes, the record is the old one or the new one. Writers wait for each other on the record's lock.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

from generator.bench.solve import solve
from generator.codes import Code
from generator.disk import locked, put, readable
from generator.findings import Finding, Severity, SpecError
from generator.spec.load import RecordText, read_spec
from generator.spec.neighbours import texts_in, with_neighbours
from generator.spec.record import has_record, record_path
from generator.spec.text_file import read_text

Value = str | tuple[str, ...] | Mapping[str, str]

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.+/-]*(?: [A-Za-z0-9_.+/-]+)*")
_SPECIAL = {"~", "null"}


def entry_text(entry: Mapping[str, Value]) -> str:
    """An entry as it is written in the record, in YAML: a line a key."""
    lines = [f"{key}: {_written(value)}" for key, value in entry.items()]
    return "- " + "\n  ".join(lines) + "\n"


def add_entry(spec: Path, entry: Mapping[str, Value]) -> Path:
    """Append an entry to the record of a spec and return the record's path.

    Raises SpecError, with nothing written, when spec, record or entry are faulty or name what the bench does not have;
    OSError when the record cannot be written.
    """
    record = record_path(spec).resolve()
    with locked(record):
        old = (
            read_text(record)
            if has_record(spec)
            else f"# Build record of {' '.join(readable(spec.name).split())}. The newest entry is the last.\n"
        )
        new = old + ("" if not old or old.endswith("\n") else "\n") + entry_text(entry)
        _require_sound(spec, old, new, record)
        put(record, new.encode(), durable=True)
    return record


def _require_sound(spec: Path, old: str, new: str, record: Path) -> None:
    """Read spec and record as the build will."""
    text = read_text(spec)
    try:
        new.encode()
    except UnicodeEncodeError:
        message = "this entry has characters that are not Unicode text"
        raise SpecError([Finding(Code.NOT_UTF8, Severity.ERROR, message)]) from None
    before = read_spec(text, spec.name, RecordText(old, record.name, spec.parent))
    try:
        loaded = with_neighbours(
            read_spec(text, spec.name, RecordText(new, record.name, spec.parent)),
            texts_in(spec.parent),
            read_spec,
        )
    except SpecError as error:
        if any(finding.code == Code.YAML_SYNTAX for finding in error.findings):
            advice = "Begin each entry of the record on a new line with '- '."
            message = "no entry can be added after the last line of this record"
            raise SpecError([Finding(Code.NOT_APPENDABLE, Severity.ERROR, message, advice=advice)]) from None
        raise
    assert len(loaded.record.entries) == len(before.record.entries) + 1
    solve(loaded)


def _written(value: Value) -> str:
    if isinstance(value, str):
        return (
            value
            if _PLAIN.fullmatch(value) and value not in _SPECIAL
            else json.dumps(value, ensure_ascii=False)
        )
    if isinstance(value, tuple):
        return f"[{', '.join(_written(item) for item in value)}]"
    return "{" + ", ".join(f"{key}: {_written(item)}" for key, item in value.items()) + "}"
