"""Rows for a spreadsheet: RFC 4180, lengths in millimetres with a decimal point.

A spreadsheet guesses what a text means: `1e3` would become 1000, `DEC1` a day in December, `=2+2` a sum. Such a text
is written as the formula of a constant, `="1e3"`, which every spreadsheet shows as it was. A file with letters beyond
ASCII begins with the mark of UTF-8 (Unicode Standard, 23.8): without it a spreadsheet reads `m²` as `mÂ²`.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

#: Texts that a spreadsheet takes as they are begin with a letter and are neither a month's day nor a truth.
_PLAIN = re.compile(r"[^\W\d_]")
_MONTH = (
    "jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|"
    "oct(ober)?|nov(ember)?|dec(ember)?"
)
_GUESSED = re.compile(rf"({_MONTH})[ ./-]*\d+|true|false|inf|infinity|nan", re.IGNORECASE)


MARK = "\ufeff"
"""U+FEFF at the start of a file says that it is Unicode, and in which order its bytes are."""


def csv_text(headings: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A heading line, then the rows; None is an empty cell."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(headings)
    writer.writerows([_cell(value) for value in row] for row in rows)
    written = text.getvalue()
    return written if written.isascii() else MARK + written


def _cell(value: object) -> object:
    """A number as it is; a text so that it stays one."""
    if not isinstance(value, str) or not value or (_PLAIN.match(value) and not _GUESSED.fullmatch(value)):
        return value
    doubled = value.replace('"', '""')
    return f'="{doubled}"'
