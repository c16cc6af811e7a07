"""Fields of a list file (a cutting problem, a store of off-cuts), each read once; every fault with its place."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from generator.codes import Code
from generator.findings import Finding, Severity, nearest, one_of
from generator.spec.document import Document, KeyPath
from generator.units.format import format_inch, format_mm
from generator.units.parse import parse_length
from generator.units.sizes import UnitError

MOST_OF_ONE = 10_000
"""The largest count or limit of one entry."""

MOST_ENTRIES = 1_000
"""The most entries of a list."""

NOTHING = ("", "null", "~")

Entry = dict[str, tuple[KeyPath, Any]]
"""Name of a field -> its place and its text."""


class FieldReader:
    """Reads the fields of a document. Lengths without a unit are in `units`; faults are gathered in `findings`."""

    #: Keys that may be beside those that are read, and are passed over.
    passed_over: Sequence[str] = ()

    def __init__(self, document: Document) -> None:
        self.document = document
        self.data: dict[str, Any] = document.data
        self.findings: list[Finding] = []
        self.units = str(self.data.get("units") or "mm")

    def check_units(self) -> None:
        """Units are mm or in."""
        if self.units not in ("mm", "in"):
            self.fault(
                Code.NOT_A_CHOICE, ("units",), "this is not one of the choices", self.units, "mm or in"
            )
            self.units = "mm"

    def say(self, length: Fraction) -> str:
        """A length for a message, in the document's unit."""
        return f"{format_inch(length)} in" if self.units == "in" else f"{format_mm(length)} mm"

    def entries(
        self, key: str, names: Sequence[str], required: int, example: str = ""
    ) -> list[tuple[KeyPath, Entry]]:
        """Each entry of a list as a mapping from name to its place and text, from the short or the long form.

        `example` is the shortest list, for the message where there is none.
        """
        listed = self.data.get(key)
        if not isinstance(listed, list) or not listed:
            code, message = Code.TOO_FEW, "this list has no entries"
            if listed is None:
                code, message = Code.MISSING_KEY, "this key is missing"
            elif not isinstance(listed, list):
                code, message = Code.NOT_AN_ENTRY, "this is not a list"
            self.fault(code, (key,), message, allowed=f"a list, such as {example}" if example else "a list")
            return []
        if len(listed) > MOST_ENTRIES:
            self.fault(
                Code.TOO_LARGE_A_PROBLEM,
                (key,),
                f"too many entries in `{key}`; write equal sizes as one entry with a count",
                str(len(listed)),
                f"{MOST_ENTRIES} or fewer",
            )
            return []
        entries = []
        for index, item in enumerate(listed):
            path: KeyPath = (key, index)
            if isinstance(item, dict):
                self.check_keys(path, item, names)
                found = {name: ((*path, name), item[name]) for name in names if name in item}
            elif isinstance(item, list) and required <= len(item) <= len(names):
                found = {
                    name: ((*path, at), text)
                    for at, (name, text) in enumerate(zip(names, item, strict=False))
                }
            else:
                form = "[" + ", ".join(names) + "]"
                self.fault(
                    Code.NOT_AN_ENTRY,
                    path,
                    "this entry cannot be understood",
                    "",
                    f"{form}, or a group with these keys",
                )
                continue
            missing = [name for name in names[:required] if found.get(name, ((), None))[1] is None]
            for name in missing:
                self.fault(Code.MISSING_KEY, path, f"`{name}` is missing")
            if not missing:
                entries.append((path, found))
        return entries

    def flag(self, path: KeyPath, text: Any, default: str) -> bool:
        """Yes or no."""
        word = default if text is None else str(text).casefold()
        if word not in ("0", "1", "no", "yes", "false", "true", "off", "on"):
            self.fault(
                Code.NOT_A_CHOICE, path, "this is not one of the choices", str(text), "one of 0, 1, no, yes"
            )
        return word in ("1", "yes", "true", "on")

    def size(self, path: KeyPath, entry: Entry, name: str) -> Fraction:
        """A length above 0 of an entry."""
        place, text = entry.get(name, (path, None))
        return self.length(place, text, zero=False)

    def count(self, path: KeyPath, entry: Entry) -> int:
        """How many an entry asks for; 1 where it does not say."""
        place, text = entry.get("count", (path, "1"))
        return self.number(place, "1" if text is None else text, 1, MOST_OF_ONE, 1) or 1

    def word(self, entry: Entry, name: str) -> str:
        """A text of an entry; empty where there is none."""
        _, text = entry.get(name, ((), None))
        return "" if text is None else str(text)

    def length(self, path: KeyPath, text: Any, zero: bool) -> Fraction:
        """A length in mm; 1 mm where it is faulty."""
        try:
            value = parse_length(str(text), self.units)
        except UnitError as error:
            self.fault(Code.BAD_LENGTH, path, error.reason, str(text), "a length")
            return Fraction(1)
        if value < 0 or (value == 0 and not zero):
            self.fault(
                Code.BAD_LENGTH,
                path,
                "this length is too small",
                str(text),
                "0 or more" if zero else "above 0",
            )
            return Fraction(1)
        return value

    def number(self, path: KeyPath, text: Any, least: int, most: int, default: int | None) -> int | None:
        """A whole number in a range."""
        if text is None or str(text) in NOTHING:
            return default
        word = str(text)
        if not word.isascii() or not word.isdigit() or not least <= int(word[:9]) <= most or len(word) > 9:
            self.fault(
                Code.BAD_NUMBER, path, "this is not a whole number in range", word, f"from {least} to {most}"
            )
            return default if default is not None else least
        return int(word)

    def check_keys(self, path: KeyPath, mapping: dict[str, Any], known: Sequence[str]) -> None:
        """Find keys that nothing reads."""
        for key in mapping:
            if key not in known and not (path == () and key in self.passed_over):
                self.findings.append(
                    Finding(
                        Code.UNKNOWN_KEY,
                        Severity.ERROR,
                        "no such key",
                        self.document.where((*path, key), of_key=True),
                        found=key,
                        allowed=one_of(known),
                        nearest=nearest(key, known),
                    )
                )

    def fault(self, code: Code, path: KeyPath, message: str, found: str = "", allowed: str = "") -> None:
        """Note a fault at a key path."""
        self.findings.append(
            Finding(code, Severity.ERROR, message, self.document.where(path), found=found, allowed=allowed)
        )
