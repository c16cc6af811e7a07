"""A Drawing as SVG: one line for use inline in a page, or a file of its own.

All lengths are millimetres of paper; the view box makes bare numbers so. Class names begin with `bm-` and the root
bears the drawing's id, because a page holds many drawings and its style sheet is one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from xml.etree import ElementTree
from xml.sax.saxutils import escape

from svgwrite import Drawing as SvgDrawing
from svgwrite.base import BaseElement
from svgwrite.params import Parameter

from generator.drawings.canvas import Drawing
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import font_size
from generator.drawings.shapes import Again, Arc, Circle, Line, Polyline, Rect, Shape, Text
from generator.readings import has_two, other_reading, own_reading
from generator.writers import svg_path
from generator.writers.looks import DARK_TONES, INK, LOOKS, PAPER_TONES, Look

XML_HEADER = '<?xml version="1.0" encoding="UTF-8"?>\n'

FONTS = '"DejaVu Sans",Verdana,Arial,Helvetica,sans-serif'


LEAST_LETTERS = 10.2
"""No letters of a drawing are smaller on a screen (px); a rounding above 10."""
HALO = "iso-halo"
"""The rim of a line."""
PIXELS_PER_REM = 20
"""What the pages' style sheet counts in."""


def _tones(tones: Mapping[str, str]) -> str:
    """The tones as custom properties of the style sheet."""
    return ";".join(f"--bm-{name}:{tone}" for name, tone in tones.items())


def _css(look: Look) -> str:
    """A look as declarations. Ink is the text colour of the page."""
    found = []
    if look.fill:
        found.append(f"fill:{_colour(look.fill)}")
    if look.line:
        found.append(f"stroke:{_colour(look.stroke)};stroke-width:{look.line:g}")
    if look.dash:
        found.append("stroke-dasharray:" + " ".join(f"{length:g}" for length in look.dash))
    if look.round:
        found.append("stroke-linecap:round")
    if look.bold:
        found.append("font-weight:bold")
    if look.halo:
        found.append("paint-order:stroke")
    return ";".join(found)


def _colour(tone: str) -> str:
    return "currentColor" if tone == INK else f"var(--bm-{tone})"


_LIGHT, _DARK = _tones(PAPER_TONES), _tones(DARK_TONES)

DRAWING_CSS = "\n".join(
    (
        f".bm-drawing{{{_LIGHT};fill:none;stroke:none;stroke-linejoin:round;font-family:{FONTS}}}",
        f"[data-md-color-scheme=slate] .bm-drawing{{{_DARK}}}",
        f"@media print{{.bm-drawing,[data-md-color-scheme=slate] .bm-drawing{{{_LIGHT};--bm-soft:#000;color:#000}}}}",
        # what is shown again has its own group about it, and not the drawing that it is taken from
        *(f":is(.bm-drawing,.bm-again) .bm-{style}{{{_css(look)}}}" for style, look in LOOKS.items()),
        ".bm-drawing a:hover text,.bm-drawing a:focus text{text-decoration:underline}",
    )
)
"""The style sheet of every drawing, for a page to ship once; a file of its own carries it inside."""

#: What a file of its own needs besides: ink on paper, whatever the viewer's colours.
_ALONE = f".bm-drawing{{color:#000;background:#fff;{_LIGHT}}}"
_ESCAPED_CSS = escape(DRAWING_CSS.replace("\n", "") + _ALONE)


def drawing_css() -> str:
    """The style sheet that a page with inline drawings must ship."""
    return DRAWING_CSS + "\n"


@dataclass(frozen=True)
class Svg:
    """A drawing as it is written, in the pieces that a page and a file of its own have in common.

    `start` is the open start tag, `words` title and description, `shapes` all that follows; sizes in mm. `letters` is
    the size of the smallest letters, 0 where there are none.
    """

    start: str
    words: str
    shapes: str
    width: float
    height: float
    letters: float = 0.0

    @property
    def inline(self) -> str:
        """One line for a page, as wide as the page allows, but never so small that its letters cannot be read.

        Large type makes the letters of text larger, and so the drawing.
        """
        least = LEAST_LETTERS * self.width / self.letters / PIXELS_PER_REM if self.letters else 0
        size = f"max-width:calc({self.width}mm*var(--bm-type,1));min-width:{number(least)}rem;width:100%"
        return f'{self.start} style="{size}">{self.words}{self.shapes}'

    @property
    def alone(self) -> str:
        """A file of its own, with its style and its size in mm."""
        size = f'width="{self.width}mm" height="{self.height}mm"'
        return f"{XML_HEADER}{self.start} {size}>{self.words}<style>{_ESCAPED_CSS}</style>{self.shapes}\n"


class Element(BaseElement):  # type: ignore[misc]  # the library has no types
    """Any element. Its attributes are finished text, in the order in which they are written.

    The library sorts the attributes of its own elements and turns each value into text once more.
    """

    _parameter = Parameter(debug=False)

    def __init__(self, name: str, attribs: dict[str, str] | None = None, text: str | None = None) -> None:
        self.elementname, self.attribs, self.text = name, attribs or {}, text
        self.elements: list[Element] = []

    def get_xml(self) -> ElementTree.Element:
        """The element with all that it holds."""
        xml = ElementTree.Element(self.elementname, self.attribs)
        xml.text = self.text
        xml.extend([element.get_xml() for element in self.elements])
        return xml


class SvgRoot(Element, SvgDrawing):  # type: ignore[misc]
    """The root, without the library's marks for old viewers."""


def to_svg(drawing: Drawing) -> Svg:
    """The drawing, written once for both a page and a file of its own.

    What reads differently in the other unit carries that reading as `data-o`, for the page's switch, and what has
    another place beside it that place as `data-t`.
    """
    width, height = number(drawing.width), number(drawing.height)
    attribs = {
        "xmlns": "http://www.w3.org/2000/svg",
        "viewBox": f"0 0 {width} {height}",
        "class": "bm-drawing",
        "id": f"Drawing-{drawing.id}",  # with a capital: no heading of a page, whatever its words, gets such an id
        "role": "group" if drawing.has_links() else "img",
    }
    root = SvgRoot("svg", attribs)
    for kind, words in (("title", drawing.title), ("desc", drawing.description)):
        text = " ".join(words.split())
        root.add(Element(kind, _other(text), own_reading(text)))
    root.add(Element("style"))
    done = 0
    for name, first, after in drawing.groups:
        write(root, drawing.shapes[done:first])
        group = Element("g", {"id": f"Drawing-{drawing.id}-{name}", "class": "bm-again"})
        write(root.add(group), drawing.shapes[first:after])
        done = after
    write(root, drawing.shapes[done:])
    # signs of the texts are escaped: the first > ends the start tag, and no other style is empty
    before, shapes = " ".join(root.tostring().split("\n")).split("<style />", 1)
    start, words = before.split(">", 1)
    letters = [font_size(shape.height) for shape in drawing.shapes if isinstance(shape, Text)]
    return Svg(start, words, shapes, width, height, min(letters, default=0.0))


def _other(text: str) -> dict[str, str]:
    """The attribute that holds a text's reading in the other unit, if it has one."""
    return {"data-o": other_reading(text)} if has_two(text) else {}


def write(parent: Element, shapes: Iterable[Shape]) -> None:
    """Add shapes in their order. A run of one style shares a group that names it; a lone element names it itself.

    Fewer elements make a page lighter for a phone. Lettering keeps its group: a page's own rules for a class must
    not win over the size that a text bears.
    """
    for style, run in groupby(shapes, key=lambda shape: shape.style):
        found = elements(run)
        if len(found) == 1 and found[0].elementname not in ("text", "a"):
            found[0].attribs["class"] = f"bm-{style}"
            parent.add(found[0])
        else:
            styled = parent.add(Element("g", {"class": f"bm-{style}"}))
            styled.elements = found


def elements(run: Iterable[Shape]) -> list[Element]:
    """Shapes of one style as elements; lines that follow each other become one path."""
    found = []
    for are_lines, shapes in groupby(run, key=lambda shape: isinstance(shape, Line)):
        if are_lines:
            found.append(strokes([shape for shape in shapes if isinstance(shape, Line)]))
            continue
        for shape in shapes:
            made = element(shape)
            if link := getattr(shape, "link", ""):
                leading = anchor(link)
                leading.add(made)
                made = leading
            found.append(made)
    return found


def strokes(lines: Sequence[Line]) -> Element:
    """Lines of one style as one element; dashes begin anew with each of them."""
    style = lines[0].style
    return Element("path", {"d": svg_path.strokes(lines, fineness(style), joined=not LOOKS[style].dash)})


def anchor(link: str) -> Element:
    """A plain `href`: the xlink form is out of use."""
    return Element("a", {"href": link})


def element(shape: Shape) -> Element:
    """One shape as an element, without its style."""
    match shape:
        case Polyline():
            way = svg_path.outline(shape.points, fineness(shape.style), closed=shape.closed)
            return Element("path", {"d": way})
        case Rect():
            sizes = (*pair(shape.corner), *pair((shape.width, shape.height)))
            found = dict(zip(("x", "y", "width", "height"), map(str, sizes), strict=True))
            return Element("rect", found | ({"rx": f"{number(shape.radius)}"} if shape.radius else {}))
        case Circle():
            x, y = pair(shape.centre)
            return Element("circle", {"cx": f"{x}", "cy": f"{y}", "r": f"{number(shape.radius)}"})
        case Arc():
            return arc(shape)
        case Text():
            return lettering(shape)
        case Again():
            x, y = pair(shape.at)
            place = f"translate({x} {y}) scale({round(shape.scale, 4)})"
            return Element("use", {"href": f"#Drawing-{shape.source}", "transform": place})
        case _:
            raise TypeError(f"no such shape: {shape!r}")


def arc(shape: Arc) -> Element:
    """An arc as a path, clockwise."""
    (x, y), (to_x, to_y) = pair(shape.at(shape.start)), pair(shape.at(shape.end))
    radius, large = number(shape.radius), int(shape.end - shape.start > 180)
    return Element("path", {"d": f"M{x} {y}A{radius} {radius} 0 {large} 1 {to_x} {to_y}"})


def lettering(shape: Text) -> Element:
    """One line of text, its size in mm."""
    x, y = pair(shape.at)
    attribs = {"x": f"{x}", "y": f"{y}", "font-size": f"{number(font_size(shape.height))}"}
    attribs |= _other(shape.text)
    if shape.anchor != "start":
        attribs["text-anchor"] = shape.anchor
    if shape.upward:
        attribs["transform"] = f"rotate(-90 {x} {y})"
    if shape.shift != (0.0, 0.0):
        dx, dy = pair(shape.shift)
        attribs["data-t"] = f"translate({dx} {dy}) {attribs.get('transform', '')}".rstrip()
    return Element("text", attribs, own_reading(shape.text))


def fineness(style: str) -> int:
    """Digits of a millimetre. Of isometric faces there are thousands: a tenth is a third of a pixel of a page.

    What is below a line as its rim has the words of that line, and so packs to nothing.
    """
    return 1 if style.startswith("iso-") and style != HALO else 2


def number(value: float, digits: int = 2) -> float | int:
    """Rounded to so many digits of a millimetre, whole numbers without a point."""
    rounded = round(float(value), digits)
    try:
        whole = int(rounded)
    except (ValueError, OverflowError) as error:
        raise ValueError(f"a drawing has no place for {value}") from error
    return whole if whole == rounded else rounded


def pair(point: Point) -> tuple[float | int, float | int]:
    """A point with both numbers rounded."""
    return (number(point[0]), number(point[1]))
