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
break_down: {max_length: 1300, allowance: 5, kerf: 2.2}     # sheets only: what is longer is cut by track saw first
clear: 5                      # sheets only: what stays free around each defect of a board (the default is 5 mm)
least_offcut: [300, 150]      # the smallest off-cut that is kept; for bars one length
material: {name: ply-12, thickness: 12}         # needed to plan it with other files; bars have `section: 40`,
                                                # strips `thickness` and `width`, angles `leg` and `thickness`
pieces: [[725, 4], {length: 1920, count: 4, group: rails, name: long rail}]     # [length, count, group, name]
                                                # sheets: [width, height, count, turns 0/1, name]
                              # a board with knots: sheets: [{width: 2400, height: 210, defects: [[600, 40, 80, 60]]}],
                              # each [along, across, length, width] from the lower left corner; no piece has any of it
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
from generator.findings import SpecError, Where
from generator.spec.cut_defects import read_defects
from generator.spec.cut_form import ENTRIES, EXAMPLES, KEYS, NEEDS, PASSED_OVER
from generator.spec.cut_material import CutMaterial, read_material
from generator.spec.cut_rows import least_sides, longest_row
from generator.spec.document import Document, KeyPath
from generator.spec.field_reader import MOST_OF_ONE, Entry, FieldReader
from generator.spec.plausible import WIDEST_KERF
from generator.spec.reader import read_document
from generator.units.parse import parse_number
from generator.units.sizes import UnitError

__all__ = ["CutProblem", "read_cut_problem"]

MOST_PIECES = 20_000
"""The most pieces of a problem in all."""

LONGEST_ROW = 300
"""The most pieces of a sheet that are cut off one after the other."""

MOST_SECTIONS = 20
"""The most parts that a sheet is broken down into along a side."""

USUAL_STAGES, FREE = 3, "free"
"""Rip, cross and trim; and the word for any number of stages."""

LEAST_LEFT, LEAST_FEED = Fraction(1), Fraction(300)
"""What a cut leaves beside the blade at least, and the shortest part that is fed (common practice, no source)."""

LEAST_OFFCUT = (Fraction(300), Fraction(150))
"""The smallest off-cut that is kept: a bar by its length, a sheet by both sides (common practice, no source)."""


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
    material: CutMaterial | None = None
    keep: tuple[Fraction, ...] = ()
    """The smallest off-cut that is kept: one length for bars, two sides for sheets."""
    priced: tuple[bool, ...] = ()
    """Whether each entry of the stock has a price of its own."""
    places: tuple[Where | None, ...] = ()
    """Where each entry of `pieces` is written."""

    @property
    def of_sheets(self) -> bool:
        """Whether sheets are cut, not bars."""
        return bool(self.sheets)


def read_cut_problem(text: str, file: str) -> CutProblem:
    """Read a problem. Raises SpecError with all faults; `file` is only named in them."""
    document = read_document(text, file, start=NEEDS)
    return _ProblemReader(document).problem()


class _ProblemReader(FieldReader):
    passed_over = PASSED_OVER

    def problem(self) -> CutProblem:
        self.check_keys((), self.data, KEYS)
        self.check_units()
        of_sheets = self.data.get("sheets") is not None
        if of_sheets == (self.data.get("stock") is not None):
            both = "this file has both `stock` (for bars) and `sheets`; keep one of them"
            neither = "this file has neither `stock` nor `sheets`"
            code, message = (Code.TWO_KINDS, both) if of_sheets else (Code.MISSING_KEY, neither)
            either = f"{EXAMPLES['stock']} for bars, or {EXAMPLES['sheets']}"
            self.fault(code, ("stock",), message, allowed="" if of_sheets else either)
            raise SpecError(self.findings)
        kerf = self._kerf(("kerf",), self.data.get("kerf")) or Fraction(0)
        trim = self.length(("trim",), self.data.get("trim", "0"), zero=True)
        stages, rules = self._stages(), self._rules()
        breaking = self._break_down()
        if not of_sheets:
            for key in ("stages", "least_feed", "shop_rules", "break_down", "clear"):
                if self.data.get(key) is not None:
                    self.fault(Code.NOT_FOR_BARS, (key,), "this key is for sheets only")
        material = read_material(self, ("material",), self.data.get("material"), of_sheets)
        keep = self._least_offcut(of_sheets)
        kind = "sheets" if of_sheets else "stock"
        listed = "sheet pieces" if of_sheets else "bar pieces"
        stock = self.entries(kind, *ENTRIES[kind], EXAMPLES[kind])
        pieces = self.entries("pieces", *ENTRIES[listed], EXAMPLES[listed])
        self._clear = self.length(("clear",), self.data.get("clear", "5 mm"), zero=True)
        made = [self._sheet(*entry) if of_sheets else self._bar(*entry) for entry in stock]
        cut = [self._sheet_piece(*entry) if of_sheets else self._bar_piece(*entry) for entry in pieces]
        if sum(piece.count for piece in cut) > MOST_PIECES:
            self.fault(Code.TOO_MANY, ("pieces",), "too many pieces in total", "", f"{MOST_PIECES} or fewer")
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
            rules,
            breaking,
            self.document,
            tuple(self.word(entry, "name") for _, entry in pieces),
            material,
            keep,
            tuple(entry.get("price", ((), None))[1] is not None for _, entry in stock),
            tuple(self.document.where(path) for path, _ in pieces),
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
            least = f"{self.say(longest / MOST_SECTIONS)} or more, a twentieth of the longest sheet"
            found = str(self.data["break_down"]["max_length"])
            message = "this breaks a sheet down into too many parts"
            self.fault(Code.BAD_LENGTH, ("break_down", "max_length"), message, found, least)
        if breaking is not None and 2 * breaking.allowance > breaking.longest:
            most = f"from 0 to {self.say(breaking.longest / 2)}, half of max_length"
            found = str(self.data["break_down"].get("allowance"))
            message = "this allowance is too large for the parts"
            self.fault(Code.BAD_LENGTH, ("break_down", "allowance"), message, found, most)
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
            self.fault(Code.TOO_LARGE_A_PROBLEM, ("pieces", smallest), message, str(across + up), most)

    def _stages(self) -> int | None:
        """The most runs of cuts in one direction; None is any number."""
        text = self.data.get("stages")
        if text is not None and str(text).casefold() == FREE:
            return None
        return self.number(("stages",), text, 2, 20, USUAL_STAGES)

    def _rules(self) -> ShopRules | None:
        """What the operator asks of a cut; None when nothing."""
        feed = self.data.get("least_feed")
        least = LEAST_FEED if feed is None else self.length(("least_feed",), feed, zero=True)
        asked = self.flag(("shop_rules",), self.data.get("shop_rules"), "yes")
        return ShopRules(LEAST_LEFT, least) if asked else None

    def _kerf(self, path: KeyPath, text: Any) -> Fraction | None:
        """The width of a saw's cut; None where none is written."""
        if text is None:
            return None
        kerf = self.length(path, text, zero=True)
        if kerf > WIDEST_KERF:
            most = f"from 0 to {self.say(WIDEST_KERF)}"
            self.fault(Code.BAD_LENGTH, path, "no saw blade is this wide", str(text), most)
        return kerf

    def _least_offcut(self, of_sheets: bool) -> tuple[Fraction, ...]:
        """The smallest off-cut that is kept."""
        usual, entry = LEAST_OFFCUT[: 2 if of_sheets else 1], self.data.get("least_offcut")
        if entry is None:
            return usual
        sides = entry if isinstance(entry, list) else [entry]
        if len(sides) != len(usual):
            form = "[length, width]" if of_sheets else "one length"
            self.fault(Code.BAD_LENGTH, ("least_offcut",), "this is not the size of an off-cut", "", form)
            return usual
        return tuple(self.length(("least_offcut",), side, zero=False) for side in sides)

    def _break_down(self) -> BreakDown | None:
        """The longest part for the fence, and the allowance of what is broken down."""
        rule = self.data.get("break_down")
        if rule is None:
            return None
        if isinstance(rule, dict):
            self.check_keys(("break_down",), rule, ("max_length", "allowance", "kerf"))
        if not isinstance(rule, dict) or rule.get("max_length") is None:
            message = "`max_length`, the longest part for the fence, is missing"
            self.fault(Code.MISSING_KEY, ("break_down",), message)
            return None
        longest = self.length(("break_down", "max_length"), rule["max_length"], zero=False)
        allowance = self.length(("break_down", "allowance"), rule.get("allowance", "0"), zero=True)
        return BreakDown(longest, allowance, self._kerf(("break_down", "kerf"), rule.get("kerf")))

    def _bar(self, path: KeyPath, entry: Entry) -> BarStock:
        price, limit = self._price(entry)
        return BarStock(self.size(path, entry, "length"), price, limit, self.word(entry, "lot"))

    def _sheet(self, path: KeyPath, entry: Entry) -> SheetStock:
        width, height = (self.size(path, entry, side) for side in ("width", "height"))
        defects = read_defects(self, entry, (width, height), self._clear)
        price, limit = self._price(entry)
        if defects and limit not in (None, 1):
            self.fault(Code.TOO_MANY, path, "each board has its own defects", str(limit), "one entry a board")
        return SheetStock(width, height, price, 1 if defects else limit, defects)

    def _bar_piece(self, path: KeyPath, entry: Entry) -> BarPiece:
        return BarPiece(self.size(path, entry, "length"), self.count(path, entry), self.word(entry, "group"))

    def _sheet_piece(self, path: KeyPath, entry: Entry) -> SheetPiece:
        sides = [self.size(path, entry, side) for side in ("width", "height")]
        turns = self.flag(*entry.get("turns", (path, None)), "no")
        return SheetPiece(sides[0], sides[1], self.count(path, entry), turns)

    def _price(self, entry: Entry) -> tuple[Fraction, int | None]:
        place, text = entry.get("limit", ((), None))
        limit = self.number(place, text, 0, MOST_OF_ONE, None)
        place, text = entry.get("price", ((), None))
        price = Fraction(1)
        if text is not None:
            try:
                price = parse_number(str(text))
            except UnitError as error:
                self.fault(Code.BAD_NUMBER, place, error.reason, str(text), "a number of 0 or more")
        if price < 0 or (price == 0 and limit is None):
            self.fault(Code.BAD_NUMBER, place, "stock without a price needs a limit", str(text), "above 0")
        return price, limit
