"""Cut paths as DXF, release 12: lines, circles and polylines that every CAM program reads. Millimetres.

Group codes after Autodesk's DXF Reference. Release 12 knows no unit of drawing; `$INSUNITS` is read by later
programs and passed over by older ones, and the words in the file say it too.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.drawings.cut_paths import CutPaths, Path
from generator.drawings.shapes import Circle, Line

Tag = tuple[int, str | int | float]

MILLIMETRES = 4
"""The value of $INSUNITS."""
NOTES = "NOTES"
"""The layer of what is read, not cut."""
WORD_HEIGHT, WORD_STEP = 6.0, 10.0
"""Height of the words below the part and the way from line to line, in mm."""
COLOURS = 7
"""Layers take the seven named colours in turn."""


def to_dxf(paths: CutPaths) -> str:
    """The file as text, the same for the same paths."""
    return "".join(f"{code:>3}\n{_text(value)}\n" for code, value in _tags(paths))


def _tags(paths: CutPaths) -> Iterator[Tag]:
    yield from ((0, "SECTION"), (2, "HEADER"))
    yield from ((9, "$ACADVER"), (1, "AC1009"), (9, "$INSUNITS"), (70, MILLIMETRES))
    yield from ((0, "ENDSEC"), (0, "SECTION"), (2, "TABLES"))
    yield from ((0, "TABLE"), (2, "LTYPE"), (70, 1))
    yield from ((0, "LTYPE"), (2, "CONTINUOUS"), (70, 0), (3, "Solid line"), (72, 65), (73, 0))
    yield (40, 0.0)
    yield from ((0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, len(paths.layers) + 1))
    for number, name in enumerate([*(layer.name for layer in paths.layers), NOTES]):
        colour: Tag = (62, COLOURS - number % COLOURS)
        yield from ((0, "LAYER"), (2, name), (70, 0), colour, (6, "CONTINUOUS"))
    yield from ((0, "ENDTAB"), (0, "ENDSEC"), (0, "SECTION"), (2, "ENTITIES"))
    for tool in paths.layers:
        for path in tool.paths:
            yield from _entity(path, tool.name)
    for number, words in enumerate(paths.words, 1):
        yield from ((0, "TEXT"), (8, NOTES), (10, 0.0), (20, -number * WORD_STEP), (30, 0.0))
        yield from ((40, WORD_HEIGHT), (1, words))
    yield from ((0, "ENDSEC"), (0, "EOF"))


def _entity(path: Path, layer: str) -> Iterator[Tag]:
    on: Tag = (8, layer)
    if isinstance(path, Circle):
        radius: Tag = (40, path.radius)
        yield from ((0, "CIRCLE"), on, *_point(path.centre, 10), radius)
    elif isinstance(path, Line):
        yield from ((0, "LINE"), on, *_point(path.start, 10), *_point(path.end, 11))
    else:
        closed: Tag = (70, int(path.closed))
        yield from ((0, "POLYLINE"), on, (66, 1), *_point((0.0, 0.0), 10), closed)
        for point in path.points:
            yield from ((0, "VERTEX"), on, *_point(point, 10))
        yield from ((0, "SEQEND"), on)


def _point(point: tuple[float, float], code: int) -> tuple[Tag, ...]:
    return ((code, point[0]), (code + 10, point[1]), (code + 20, 0.0))


def _text(value: str | int | float) -> str:
    """A value of a tag. Letters beyond ASCII are written as the format has them: `\\U+0421`, four digits and no more.

    What would be read as a code of its own is written as the code for itself: `%%` as twice `%%%`, `^` with a space.
    """
    if isinstance(value, float):
        return f"{value + 0.0:.6f}"
    return "".join(map(_letter, str(value).replace("%%", "%%%%%%").replace("^", "^ ")))


def _letter(letter: str) -> str:
    """One letter of a text; a line break would end the value."""
    if letter.isascii():
        return " " if letter in "\r\n" else "\\U+005C" if letter == "\\" else letter
    return f"\\U+{ord(letter):04X}" if ord(letter) <= 0xFFFF else "?"
