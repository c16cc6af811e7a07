"""The record of a build, beside its spec: dated entries of what was measured, cut and installed, notes and photos.

```yaml
- date: 2026-11-03
  measured: {path: materials.ply-12.thickness, value: 11.8}   # any quantity of the spec, or bays.F1.width
  by: Mara
- {date: 2026-11-05, cut: {mark: C1, size: 818.5}}             # a board: size: 443 x 520
- {date: 2026-11-06, installed: [A1, C7], note: square within 0.5}
- {date: 2026-11-06, photo: {file: photos/frame.jpg, alt: The left end frame on the floor}}
- {date: 2026-11-30, verified: "load test, 100 kg on the top", by: Mara}
```
The newest entry is last. The spec is never rewritten: what was measured is laid over it when both are read.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

from generator.codes import Code
from generator.findings import Finding, Severity, Where, nearest, one_of
from generator.provenance import GivenValue, given
from generator.spec.document import Document, KeyPath
from generator.spec.photo import Photo, PhotoError, read_photo
from generator.spec.reader import read_document
from generator.units.dates import A_DATE, is_date
from generator.units.parse import parse_length
from generator.units.sizes import UnitError

__all__ = ["CutPiece", "Entry", "MeasuredText", "Record", "has_record", "read_record", "record_path"]

MOST_ENTRIES = 3000
MOST_PHOTOS = 200
LONGEST_NOTE = 2000
LONGEST_TEXT = 200
KEYS = ("date", "measured", "cut", "installed", "note", "photo", "verified", "by")
ACTS = KEYS[1:-1]


@dataclass(frozen=True)
class MeasuredText:
    """A measured value as written, and what it is a value of. `at` is its key path in the record."""

    path: str
    text: str
    at: KeyPath


@dataclass(frozen=True)
class CutPiece:
    """A piece by its mark with its actual size (mm): a length, and a width for a board."""

    mark: str
    size: tuple[Fraction, ...]
    at: KeyPath


@dataclass(frozen=True)
class PhotoEntry:
    """A photo by its path beside the spec, and what it shows, in words."""

    file: str
    alt: str


@dataclass(frozen=True)
class Entry:
    """One entry: a date (ISO 8601, YYYY-MM-DD) and at least one act."""

    date: str
    by: str = ""
    measured: MeasuredText | None = None
    cut: CutPiece | None = None
    installed: tuple[tuple[str, KeyPath], ...] = ()
    note: str = ""
    photo: PhotoEntry | None = None
    verified: str = ""


@dataclass(frozen=True)
class Record:
    """A read record. `entries` are oldest first, those of one day in the order of the file."""

    entries: tuple[Entry, ...] = ()
    text: str = ""
    document: Document | None = field(default=None, repr=False)
    photos: Mapping[str, Photo] = field(default_factory=dict, repr=False)

    def where(self, at: KeyPath) -> Where | None:
        """The place of a key path in the record."""
        return self.document.where(at) if self.document else None


def record_path(spec: Path) -> Path:
    """Where the record of a spec file is: `NAME.record.yml` beside `NAME.yml`."""
    return spec.with_name(f"{spec.stem}.record.yml")


def is_record(path: Path) -> bool:
    """Whether a file is by its name the record of a spec."""
    return path.name.endswith(".record.yml")


def has_record(spec: Path) -> bool:
    """Whether there is a record of a spec file. A name that is too long for one has none."""
    try:
        return record_path(spec).exists()
    except OSError:
        return False


def read_record(
    text: str, file: str, units: str, folder: Path | None = None
) -> tuple[Record, tuple[Finding, ...]]:
    """Read a record; bare lengths are in `units`. Returns every fault instead of raising the first.

    Photos are read from below `folder`; without one they are only named. Raises SpecError for what is no YAML list.
    """
    document = read_document(text, file, top="list")
    reader = _RecordReader(document, units, folder)
    entries = reader.entries()
    record = Record(tuple(sorted(entries, key=lambda each: each.date)), text, document, reader.photos)
    return record, tuple(reader.findings)


class _RecordReader:
    def __init__(self, document: Document, units: str, folder: Path | None) -> None:
        self.document, self.units, self.folder = document, units, folder
        self.findings: list[Finding] = []
        self.photos: dict[str, Photo] = {}

    def entries(self) -> list[Entry]:
        listed: list[Any] = self.document.data
        if len(listed) > MOST_ENTRIES:
            self._fault(
                Code.TOO_MANY, (MOST_ENTRIES,), "too many entries", allowed=f"{MOST_ENTRIES} or fewer"
            )
            listed = listed[:MOST_ENTRIES]
        return [entry for index, item in enumerate(listed) if (entry := self._entry((index,), item))]

    def _entry(self, at: KeyPath, item: Any) -> Entry | None:
        data = self._mapping(at, item, KEYS, "`date:` and what was done")
        if data is None:
            return None
        acts = [key for key in ACTS if key in data]
        if not acts:
            self._fault(
                Code.NOTHING_DONE,
                at,
                "this entry does not say what was done",
                allowed=one_of(ACTS),
            )
        return Entry(
            date=self._date((*at, "date"), data.get("date")),
            by=self._words((*at, "by"), data["by"]) if "by" in data else "",
            measured=self._measured((*at, "measured"), data["measured"]) if "measured" in data else None,
            cut=self._cut((*at, "cut"), data["cut"], str(data.get("date"))) if "cut" in data else None,
            installed=self._marks((*at, "installed"), data["installed"]) if "installed" in data else (),
            note=self._words((*at, "note"), data["note"], LONGEST_NOTE) if "note" in data else "",
            photo=self._photo((*at, "photo"), data["photo"]) if "photo" in data else None,
            verified=self._words((*at, "verified"), data["verified"]) if "verified" in data else "",
        )

    def _date(self, at: KeyPath, value: Any) -> str:
        if value is None:
            self._fault(Code.MISSING_KEY, at, "this entry has no date", "", A_DATE)
            return ""
        if not isinstance(value, str) or not is_date(value):
            self._fault(Code.BAD_DATE, at, "this is not a date", _shown(value), A_DATE)
            return ""
        return value

    def _measured(self, at: KeyPath, value: Any) -> MeasuredText | None:
        data = self._mapping(at, value, ("path", "value"), "{path: materials.ply-12.thickness, value: 11.8}")
        if data is None or not self._required(at, data, ("path", "value")):
            return None
        path = self._words((*at, "path"), data["path"])
        return MeasuredText(path, self._words((*at, "value"), data["value"]), at) if path else None

    def _cut(self, at: KeyPath, value: Any, date: str) -> CutPiece | None:
        data = self._mapping(at, value, ("mark", "size"), "{mark: C1, size: 818.5}")
        if data is None or not self._required(at, data, ("mark", "size")):
            return None
        mark = self._words((*at, "mark"), data["mark"])
        size = self._size((*at, "size"), data["size"])
        place = self.document.where((*at, "size"))
        text, why = str(data["size"]), "Measured on the piece after the cut."
        origins = [
            GivenValue(
                f"cut.{mark}.{key}",
                "mm",
                "record",
                date,
                text,
                place.file,
                place.line,
                why,
                ("cut", mark, key),
            )
            for key in ("length", "width")
        ]
        known = tuple(given(each, origin) for each, origin in zip(size, origins, strict=False))
        return CutPiece(mark, known, at) if mark and size else None

    def _size(self, at: KeyPath, value: Any) -> tuple[Fraction, ...]:
        """One length, or two with an `x` between them."""
        text = value if isinstance(value, str) else ""
        texts = [part.strip() for part in re.split(r"[x×]", text)]
        allowed = "a length such as 818.5; for a board two, such as 443 x 520"
        try:
            sizes = tuple(parse_length(part, self.units) for part in texts)
        except UnitError as error:
            self._fault(Code.BAD_LENGTH, at, error.reason, _shown(value), allowed)
            return ()
        if len(sizes) > 2 or min(sizes) <= 0:
            self._fault(Code.BAD_LENGTH, at, "no part has such a size", text, allowed)
            return ()
        return sizes

    def _marks(self, at: KeyPath, value: Any) -> tuple[tuple[str, KeyPath], ...]:
        if isinstance(value, list) and value:
            marks = [(self._words((*at, index), item), (*at, index)) for index, item in enumerate(value)]
        else:
            marks = [(self._words(at, value), at)]
        return tuple((mark, place) for mark, place in marks if mark)

    def _photo(self, at: KeyPath, value: Any) -> PhotoEntry | None:
        data = self._mapping(at, value, ("file", "alt"), "{file: photos/frame.jpg, alt: what it shows}")
        if data is None or not self._required(at, data, ("file", "alt")):
            return None
        file, alt = self._words((*at, "file"), data["file"]), self._words((*at, "alt"), data["alt"])
        if not file or not alt or self.folder is None or file in self.photos:
            return PhotoEntry(file, alt) if file and alt else None
        if len(self.photos) == MOST_PHOTOS:
            self._fault(Code.TOO_MANY, at, "too many photos", allowed=f"{MOST_PHOTOS} or fewer")
            return None
        try:
            self.photos[file] = read_photo(self.folder, file)
        except PhotoError as error:
            self._fault(error.code, (*at, "file"), error.reason, file, error.allowed)
            return None
        return PhotoEntry(file, alt)

    def _words(self, at: KeyPath, value: Any, longest: int = LONGEST_TEXT) -> str:
        text = " ".join(value.split()) if isinstance(value, str) else ""
        if not text:
            self._fault(Code.WRONG_KIND, at, "this is not a short text", _shown(value), "a text")
        elif len(text) > longest:
            found, allowed = f"{len(text)} characters", f"{longest} characters or fewer"
            self._fault(Code.TOO_LONG, at, "this text is too long", found, allowed)
            return ""
        return text

    def _mapping(
        self, at: KeyPath, value: Any, known: tuple[str, ...], allowed: str
    ) -> dict[str, Any] | None:
        if not isinstance(value, dict):
            self._fault(Code.NOT_A_MAPPING, at, "this entry cannot be understood", _shown(value), allowed)
            return None
        for key in value:
            if key not in known:
                where = self.document.where((*at, key), of_key=True)
                near = nearest(key, known)
                self.findings.append(
                    Finding(
                        Code.UNKNOWN_KEY,
                        Severity.ERROR,
                        "no such key",
                        where,
                        key,
                        one_of(known),
                        near,
                    )
                )
        return value

    def _required(self, at: KeyPath, data: Mapping[str, Any], keys: tuple[str, ...]) -> bool:
        missing = [key for key in keys if key not in data]
        for key in missing:
            self._fault(Code.MISSING_KEY, (*at, key), "this key is missing")
        return not missing

    def _fault(self, code: Code, at: KeyPath, message: str, found: str = "", allowed: str = "") -> None:
        where = self.document.where(at)
        self.findings.append(Finding(code, Severity.ERROR, message, where, found, allowed))


def _shown(value: Any) -> str:
    if value is None:
        return "nothing"
    return value if isinstance(value, str) else f"a {'group of keys' if isinstance(value, dict) else 'list'}"
