"""What stands on the pages of a PDF, read by another library than wrote it: strokes and words in millimetres."""

from __future__ import annotations

import io
from dataclasses import dataclass

from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

MM = 25.4 / 72


@dataclass(frozen=True)
class Stroke:
    """A straight stroke, from the page's upper left corner."""

    x: float
    y: float
    to_x: float
    to_y: float

    @property
    def along(self) -> float:
        return abs(self.to_x - self.x)

    @property
    def across(self) -> float:
        return abs(self.to_y - self.y)


@dataclass(frozen=True)
class Word:
    """A run of letters, where its base line begins, and the size of the letters in points."""

    text: str
    x: float
    y: float
    points: float


def pages(pdf: bytes) -> list[PageObject]:
    return list(PdfReader(io.BytesIO(pdf)).pages)


def size(page: PageObject) -> tuple[float, float]:
    return float(page.mediabox.width) * MM, float(page.mediabox.height) * MM


def strokes(page: PageObject) -> list[Stroke]:
    """Every stroke that is one `m` and one `l`; nothing that is turned or in a longer path."""
    high = float(page.mediabox.height)
    found: list[Stroke] = []
    path: list[tuple[float, float]] = []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        if operator == b"m":
            path = [(float(operands[0]), float(operands[1]))]
        elif operator == b"l":
            path.append((float(operands[0]), float(operands[1])))
        elif operator == b"S" and len(path) == 2:
            (x, y), (to_x, to_y) = path
            found.append(Stroke(x * MM, (high - y) * MM, to_x * MM, (high - to_y) * MM))
    return found


def words(page: PageObject) -> list[Word]:
    """Every run of letters, level or upright, at its place on the page."""
    high = float(page.mediabox.height)
    found: list[Word] = []

    def visit(text: str, user: list[float], matrix: list[float], font: object, size: float) -> None:
        if text.strip():
            x = matrix[4] * user[0] + matrix[5] * user[2] + user[4]
            y = matrix[4] * user[1] + matrix[5] * user[3] + user[5]
            found.append(Word(text.strip(), x * MM, (high - y) * MM, float(size)))

    page.extract_text(visitor_text=visit)
    return found
