"""A cutting problem alone: stock or sheets, kerf, trim and pieces, from YAML or JSON; every fault with its place.

```yaml
name: shelf rails
units: mm                     # mm | in; bare numbers are in it, any length may carry its own unit
stock: [[6000, 54], {length: 1480, price: 0, limit: 2, lot: surplus}]   # or sheets: [[2440, 1220, 75, null]]
kerf: 4
trim: 10
stages: 3                     # sheets only: runs of cuts in one direction, at most (this is the default), or free
least_feed: 300               # sheets only: the shortest part that goes through the saw (the default is 300 mm)
shop_rules: yes               # sheets only: no slivers, no small parts, a fence cut for each edge (the default)
break_down: {max_length: 1300, allowance: 5}    # sheets only: what is longer is cut by track saw first
pieces: [[725, 4], {length: 1920, count: 4, group: rails, name: long rail}]     # [length, count, group, name]
                                                # sheets: [width, height, count, turns 0/1, name]
```
JSON is read as well, for it is YAML. Keys that published problem sets carry beside these are passed over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.calculators.cutting.bars import BarPiece, BarStock
from generator.calculators.cutting.sheets import BreakDown, SheetPiece, SheetStock, ShopRules
from generator.codes import Code
from generator.findings import Finding, Severity, SpecError, Where, nearest, one_of
from generator.spec.cut_rows import least_sides, longest_row
from generator.spec.document import Document, KeyPath
from generator.spec.reader import read_document
from generator.units.format import format_inch, format_mm
from generator.units.parse import parse_length, parse_number
from generator.units.sizes import INCH, UnitError

__all__ = ["CutProblem", "read_cut_problem"]

KEYS = (
    "name",
    "units",
    "stock",
    "sheets",
    "kerf",
    "trim",
    "stages",
    "least_feed",
    "shop_rules",
    "break_down",
    "pieces",
)

#: What published problem sets say beside the problem itself.
PASSED_OVER = ("source", "optimum", "bound", "best", "published_best")

#: The entries of each list: names in the order of the short form, and how many of them are required.
ENTRIES: dict[str, tuple[tuple[str, ...], int]] = {
    "stock": (("length", "price", "limit", "lot"), 1),
    "sheets": (("width", "height", "price", "limit"), 2),
    "bar pieces": (("length", "count", "group", "name"), 1),
    "sheet pieces": (("width", "height", "count", "turns", "name"), 2),
}

MOST_OF_ONE = 10_000
"""The largest count or limit of one entry."""

MOST_PIECES = 20_000
"""The most pieces of a problem in all."""

MOST_ENTRIES = 1_000
"""The most entries of `stock`, `sheets` or `pieces`."""

WIDEST_KERF = INCH
"""What no saw's cut reaches (common practice, no source): a wider one is a slip of the decimal point."""

LONGEST_ROW = 300
"""The most pieces of a sheet that are cut off one after the other."""

MOST_SECTIONS = 20
"""The most parts that a sheet is broken down into along a side."""

USUAL_STAGES, FREE = 3, "free"
"""Rip, cross and trim; and the word for any number of stages."""

LEAST_LEFT, LEAST_FEED = Fraction(1), Fraction(300)
"""What a cut leaves beside the blade at least, and the shortest part that is fed (common practice, no source)."""

NOTHING = ("", "null", "~")


@dataclass(frozen=True)
class CutProblem:
    """A read problem: bars (`stock`, `bar_pieces`) or sheets (`sheets`, `sheet_pieces`); lengths in mm."""

    name: str
    units: str
    kerf: Fraction
    trim: Fraction
    stock: tuple[BarStock, ...] = ()
    bar_pieces: tuple[BarPiece, ...] = ()
    sheets: tuple[SheetStock, ...] = ()
    sheet_pieces: tuple[SheetPiece, ...] = ()
    stages: int | None = None
    rules: ShopRules | None = None
    breaking: BreakDown | None = None
    document: Document | None = None
    names: tuple[str, ...] = ()
    """What each entry of `pieces` is called; empty where it has no name."""

    @property
    def of_sheets(self) -> bool:
        """Whether sheets are cut, not bars."""
        return bool(self.sheets)

    def where(self, *path: str | int) -> Where | None:
        """The place of a key path in the file."""
        return self.document.where(path) if self.document else None


def read_cut_problem(text: str, file: str) -> CutProblem:
    """Read a problem. Raises SpecError with all faults; `file` is only named in them."""
    document = read_document(text, file)
    return _ProblemReader(document).problem()


class _ProblemReader:
    def __init__(self, document: Document) -> None:
        self.document = document
        self.data: dict[str, Any] = document.data
        self.units = str(self.data.get("units") or "mm")
        self.findings: list[Finding] = []

    def problem(self) -> CutProblem:
        self._check_keys((), self.data, KEYS)
        if self.units not in ("mm", "in"):
            self._fault(
                Code.NOT_A_CHOICE, ("units",), "this is not one of the choices", self.units, "mm or in"
            )
            self.units = "mm"
        of_sheets = self.data.get("sheets") is not None
        if of_sheets == (self.data.get("stock") is not None):
            message = "this file needs either `stock` (for bars) or `sheets`"
            self._fault(Code.MISSING_KEY if not of_sheets else Code.TWO_KINDS, ("stock",), message)
            raise SpecError(self.findings)
        kerf = self._length(("kerf",), self.data.get("kerf", "0"), zero=True)
        if kerf > WIDEST_KERF:
            most = f"from 0 to {self._say(WIDEST_KERF)}"
            self._fault(Code.BAD_LENGTH, ("kerf",), "no saw blade is this wide", str(self.data["kerf"]), most)
        trim = self._length(("trim",), self.data.get("trim", "0"), zero=True)
        stages, rules = self._stages(), self._rules()
        breaking = self._break_down()
        if not of_sheets:
            for key in ("stages", "least_feed", "shop_rules", "break_down"):
                if self.data.get(key) is not None:
                    self._fault(Code.NOT_FOR_BARS, (key,), "this key is for sheets only")
        stock = self._entries("sheets" if of_sheets else "stock", "sheets" if of_sheets else "stock")
        pieces = self._entries("pieces", "sheet pieces" if of_sheets else "bar pieces")
        made = [self._sheet(*entry) if of_sheets else self._bar(*entry) for entry in stock]
        cut = [self._sheet_piece(*entry) if of_sheets else self._bar_piece(*entry) for entry in pieces]
        if sum(piece.count for piece in cut) > MOST_PIECES:
            self._fault(Code.TOO_MANY, ("pieces",), "too many pieces in total", "", f"{MOST_PIECES} or fewer")
        if of_sheets and not self.findings:
            self._check_sheets(made, cut, kerf, breaking)
        if self.findings:
            raise SpecError(self.findings)
        return CutProblem(
            str(self.data.get("name") or ""),
            self.units,
            kerf,
            trim,
            tuple(item for item in made if isinstance(item, BarStock)),
            tuple(item for item in cut if isinstance(item, BarPiece)),
            tuple(item for item in made if isinstance(item, SheetStock)),
            tuple(item for item in cut if isinstance(item, SheetPiece)),
            stages,
            None if breaking else rules,
            breaking,
            self.document,
            tuple(self._word(entry, "name") for _, entry in pieces),
        )

    def _check_sheets(
        self,
        sheets: Sequence[BarStock | SheetStock],
        pieces: Sequence[BarPiece | SheetPiece],
        kerf: Fraction,
        breaking: BreakDown | None,
    ) -> None:
        """What can be laid on a sheet and broken down: neither in too many parts."""
        sides = [(each.width, each.height) for each in sheets if isinstance(each, SheetStock)]
        longest = max(max(each) for each in sides)
        if breaking is not None and breaking.longest * MOST_SECTIONS < longest:
            least = f"{self._say(longest / MOST_SECTIONS)} or more, a twentieth of the longest sheet"
            found = str(self.data["break_down"]["max_length"])
            message = "this breaks a sheet down into too many parts"
            self._fault(Code.BAD_LENGTH, ("break_down", "max_length"), message, found, least)
        if breaking is not None and 2 * breaking.allowance > breaking.longest:
            most = f"from 0 to {self._say(breaking.longest / 2)}, half of max_length"
            found = str(self.data["break_down"].get("allowance"))
            message = "this allowance is too large for the parts"
            self._fault(Code.BAD_LENGTH, ("break_down", "allowance"), message, found, most)
        laid = [each for each in pieces if isinstance(each, SheetPiece)]
        across = longest_row(
            [(least_sides(each)[0] + kerf, each.count) for each in laid], max(x for x, _ in sides)
        )
        up = longest_row(
            [(least_sides(each)[1] + kerf, each.count) for each in laid], max(y for _, y in sides)
        )
        if across + up > LONGEST_ROW:
            smallest = min(range(len(laid)), key=lambda place: min(laid[place].width, laid[place].height))
            message = "these pieces are too small: too many fit in one row on a sheet"
            most = f"{LONGEST_ROW} or fewer; plan strips first, then the pieces from the strips"
            self._fault(Code.TOO_LARGE_A_PROBLEM, ("pieces", smallest), message, str(across + up), most)

    def _say(self, length: Fraction) -> str:
        return f"{format_inch(length)} in" if self.units == "in" else f"{format_mm(length)} mm"

    def _stages(self) -> int | None:
        """At most so many runs of cuts in one direction; None is any number."""
        text = self.data.get("stages")
        if text is not None and str(text).casefold() == FREE:
            return None
        return self._number(("stages",), text, 2, 20, USUAL_STAGES)

    def _rules(self) -> ShopRules | None:
        """What the operator asks of a cut; None when nothing."""
        feed = self.data.get("least_feed")
        least = LEAST_FEED if feed is None else self._length(("least_feed",), feed, zero=True)
        asked = self._flag(("shop_rules",), self.data.get("shop_rules"), "yes")
        return ShopRules(LEAST_LEFT, least) if asked else None

    def _break_down(self) -> BreakDown | None:
        """The longest part for the fence, and the allowance of what is broken down."""
        rule = self.data.get("break_down")
        if rule is None:
            return None
        if isinstance(rule, dict):
            self._check_keys(("break_down",), rule, ("max_length", "allowance"))
        if not isinstance(rule, dict) or rule.get("max_length") is None:
            message = "`max_length`, the longest part for the fence, is missing"
            self._fault(Code.MISSING_KEY, ("break_down",), message)
            return None
        longest = self._length(("break_down", "max_length"), rule["max_length"], zero=False)
        allowance = self._length(("break_down", "allowance"), rule.get("allowance", "0"), zero=True)
        return BreakDown(longest, allowance)

    def _entries(self, key: str, kind: str) -> list[tuple[KeyPath, dict[str, tuple[KeyPath, Any]]]]:
        """Each entry of a list as a mapping from name to its place and text, from the short or the long form."""
        names, required = ENTRIES[kind]
        listed = self.data.get(key)
        if not isinstance(listed, list) or not listed:
            self._fault(Code.TOO_FEW, (key,), f"`{key}` has no entries")
            return []
        if len(listed) > MOST_ENTRIES:
            self._fault(
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
                self._check_keys(path, item, names)
                found = {name: ((*path, name), item[name]) for name in names if name in item}
            elif isinstance(item, list) and required <= len(item) <= len(names):
                found = {
                    name: ((*path, at), text)
                    for at, (name, text) in enumerate(zip(names, item, strict=False))
                }
            else:
                form = "[" + ", ".join(names) + "]"
                self._fault(
                    Code.NOT_AN_ENTRY,
                    path,
                    "this entry cannot be understood",
                    "",
                    f"{form}, or a group with these keys",
                )
                continue
            missing = [name for name in names[:required] if found.get(name, ((), None))[1] is None]
            for name in missing:
                self._fault(Code.MISSING_KEY, path, f"`{name}` is missing")
            if not missing:
                entries.append((path, found))
        return entries

    def _bar(self, path: KeyPath, entry: dict[str, tuple[KeyPath, Any]]) -> BarStock:
        price, limit = self._price(entry)
        return BarStock(self._size(path, entry, "length"), price, limit, self._word(entry, "lot"))

    def _sheet(self, path: KeyPath, entry: dict[str, tuple[KeyPath, Any]]) -> SheetStock:
        width, height = (self._size(path, entry, side) for side in ("width", "height"))
        return SheetStock(width, height, *self._price(entry))

    def _bar_piece(self, path: KeyPath, entry: dict[str, tuple[KeyPath, Any]]) -> BarPiece:
        return BarPiece(
            self._size(path, entry, "length"), self._count(path, entry), self._word(entry, "group")
        )

    def _sheet_piece(self, path: KeyPath, entry: dict[str, tuple[KeyPath, Any]]) -> SheetPiece:
        sides = [self._size(path, entry, side) for side in ("width", "height")]
        turns = self._flag(*entry.get("turns", (path, None)), "no")
        return SheetPiece(sides[0], sides[1], self._count(path, entry), turns)

    def _flag(self, path: KeyPath, text: Any, default: str) -> bool:
        word = default if text is None else str(text).casefold()
        if word not in ("0", "1", "no", "yes", "false", "true", "off", "on"):
            self._fault(
                Code.NOT_A_CHOICE, path, "this is not one of the choices", str(text), "one of 0, 1, no, yes"
            )
        return word in ("1", "yes", "true", "on")

    def _size(self, path: KeyPath, entry: dict[str, tuple[KeyPath, Any]], name: str) -> Fraction:
        place, text = entry.get(name, (path, None))
        return self._length(place, text, zero=False)

    def _count(self, path: KeyPath, entry: dict[str, tuple[KeyPath, Any]]) -> int:
        place, text = entry.get("count", (path, "1"))
        return self._number(place, "1" if text is None else text, 1, MOST_OF_ONE, 1) or 1

    def _price(self, entry: dict[str, tuple[KeyPath, Any]]) -> tuple[Fraction, int | None]:
        place, text = entry.get("limit", ((), None))
        limit = self._number(place, text, 0, MOST_OF_ONE, None)
        place, text = entry.get("price", ((), None))
        price = Fraction(1)
        if text is not None:
            try:
                price = parse_number(str(text))
            except UnitError as error:
                self._fault(Code.BAD_NUMBER, place, error.reason, str(text), "a number of 0 or more")
        if price < 0 or (price == 0 and limit is None):
            self._fault(Code.BAD_NUMBER, place, "stock without a price needs a limit", str(text), "above 0")
        return price, limit

    def _word(self, entry: dict[str, tuple[KeyPath, Any]], name: str) -> str:
        _, text = entry.get(name, ((), None))
        return "" if text is None else str(text)

    def _length(self, path: KeyPath, text: Any, zero: bool) -> Fraction:
        try:
            value = parse_length(str(text), self.units)
        except UnitError as error:
            self._fault(Code.BAD_LENGTH, path, error.reason, str(text), "a length")
            return Fraction(1)
        if value < 0 or (value == 0 and not zero):
            self._fault(
                Code.BAD_LENGTH,
                path,
                "this length is too small",
                str(text),
                "0 or more" if zero else "above 0",
            )
            return Fraction(1)
        return value

    def _number(self, path: KeyPath, text: Any, least: int, most: int, default: int | None) -> int | None:
        if text is None or str(text) in NOTHING:
            return default
        word = str(text)
        if not word.isascii() or not word.isdigit() or not least <= int(word[:9]) <= most or len(word) > 9:
            self._fault(
                Code.BAD_NUMBER, path, "this is not a whole number in range", word, f"from {least} to {most}"
            )
            return default if default is not None else least
        return int(word)

    def _check_keys(self, path: KeyPath, mapping: dict[str, Any], known: Sequence[str]) -> None:
        for key in mapping:
            if key not in known and not (path == () and key in PASSED_OVER):
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

    def _fault(self, code: Code, path: KeyPath, message: str, found: str = "", allowed: str = "") -> None:
        self.findings.append(
            Finding(code, Severity.ERROR, message, self.document.where(path), found=found, allowed=allowed)
        )
