"""A Drawing as SVG: one line to stand inline in a page, or a file of its own.

All lengths are millimetres of paper; the view box makes bare numbers so. Class names begin with `bm-` and
the root bears the drawing's id, because a page holds many drawings and its style sheet is one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from xml.etree.ElementTree import Element, SubElement, tostring

from generator.drawings.canvas import (
    Arc,
    Circle,
    Drawing,
    Group,
    Line,
    Point,
    Polyline,
    Rect,
    Shape,
    Text,
    font_size,
)
from generator.readings import has_two, other_reading, own_reading
from generator.writers.looks import DARK_TONES, INK, LOOKS, PAPER_TONES, Look

XML_HEADER = '<?xml version="1.0" encoding="UTF-8"?>\n'

FONTS = '"DejaVu Sans",Verdana,Arial,Helvetica,sans-serif'


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
    if look.opacity < 1:
        found.append(f"stroke-opacity:{look.opacity:g}")
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
        *(f".bm-drawing .bm-{style}{{{_css(look)}}}" for style, look in LOOKS.items()),
        ".bm-drawing a:hover text,.bm-drawing a:focus text{text-decoration:underline}",
    )
)
"""The style sheet of every drawing, for a page to ship once; a file of its own carries it inside."""

#: What a file of its own needs besides: ink on paper, whatever the viewer's colours.
_ALONE = f".bm-drawing{{color:#000;background:#fff;{_LIGHT}}}"


def drawing_css() -> str:
    """The style sheet that a page with inline drawings must ship."""
    return DRAWING_CSS + "\n"


def to_svg(drawing: Drawing, *, inline: bool) -> str:
    """The drawing as one line for a page (`inline`), or as a file with its own style and size in mm.

    What reads differently in the other unit carries that reading as `data-o`, for the page's switch.
    """
    width, height = number(drawing.width), number(drawing.height)
    root = Element("svg", {"xmlns": "http://www.w3.org/2000/svg", "viewBox": f"0 0 {width} {height}"})
    root.attrib |= {
        "class": "bm-drawing",
        "id": f"Drawing-{drawing.id}",  # with a capital: no heading of a page, whatever its words, gets such an id
        "role": "group" if drawing.has_links() else "img",
    }
    for kind, words in (("title", drawing.title), ("desc", drawing.description)):
        text = " ".join(words.split())
        SubElement(root, kind, _other(text)).text = own_reading(text)
    if inline:
        root.set("style", f"max-width:{width}mm;width:100%")
    else:
        root.attrib |= {"width": f"{width}mm", "height": f"{height}mm"}
        SubElement(root, "style").text = DRAWING_CSS.replace("\n", "") + _ALONE
    write(root, drawing.shapes)
    text = " ".join(tostring(root, encoding="unicode").split("\n"))
    return text if inline else XML_HEADER + text + "\n"


def _other(text: str) -> dict[str, str]:
    """The attribute that holds a text's reading in the other unit, if it has one."""
    return {"data-o": other_reading(text)} if has_two(text) else {}


def write(parent: Element, shapes: Iterable[Shape]) -> None:
    """Add shapes in their order. A run of one style shares a group that names it; a lone element names it itself.

    Fewer elements make a page lighter for a phone. Lettering keeps its group: a page's own rules for a class must
    not win over the size that a text bears.
    """
    for style, run in groupby(shapes, key=lambda shape: "" if isinstance(shape, Group) else shape.style):
        if not style:
            for group in run:
                assert isinstance(group, Group)
                inner = anchor(parent, group.link) if group.link else SubElement(parent, "g")
                if group.label:
                    SubElement(inner, "title").text = own_reading(group.label)
                write(inner, group.shapes)
            continue
        styled = Element("g", {"class": f"bm-{style}"})
        add(styled, run)
        if len(styled) == 1 and styled[0].tag not in ("text", "a"):
            lone = styled[0]
            lone.set("class", f"bm-{style}")
            parent.append(lone)
        else:
            parent.append(styled)


def add(parent: Element, run: Iterable[Shape]) -> None:
    """Shapes of one style as elements; lines that follow each other become one path."""
    for are_lines, shapes in groupby(run, key=lambda shape: isinstance(shape, Line)):
        if are_lines:
            strokes(parent, [shape for shape in shapes if isinstance(shape, Line)])
            continue
        for shape in shapes:
            link = getattr(shape, "link", "")
            element(anchor(parent, link) if link else parent, shape)


def strokes(parent: Element, lines: Sequence[Line]) -> None:
    """Lines as one element."""
    ends = [(*pair(line.start), *pair(line.end)) for line in lines]
    if len(ends) == 1:
        SubElement(parent, "line", dict(zip(("x1", "y1", "x2", "y2"), map(str, ends[0]), strict=True)))
    else:
        SubElement(parent, "path", {"d": "".join(f"M{x} {y}L{to_x} {to_y}" for x, y, to_x, to_y in ends)})


def anchor(parent: Element, link: str) -> Element:
    """A plain `href`: the xlink form is out of use."""
    return SubElement(parent, "a", {"href": link})


def element(parent: Element, shape: Shape) -> None:
    """One shape as an element, without its style."""
    match shape:
        case Polyline():
            points = " ".join(f"{number(x)},{number(y)}" for x, y in shape.points)
            SubElement(parent, "polygon" if shape.closed else "polyline", {"points": points})
        case Rect():
            sizes = (*pair(shape.corner), *pair((shape.width, shape.height)))
            found = dict(zip(("x", "y", "width", "height"), map(str, sizes), strict=True))
            SubElement(parent, "rect", found | ({"rx": f"{number(shape.radius)}"} if shape.radius else {}))
        case Circle():
            x, y = pair(shape.centre)
            SubElement(parent, "circle", {"cx": f"{x}", "cy": f"{y}", "r": f"{number(shape.radius)}"})
        case Arc():
            arc(parent, shape)
        case Text():
            lettering(parent, shape)
        case _:
            raise TypeError(f"no such shape: {shape!r}")


def arc(parent: Element, shape: Arc) -> None:
    """An arc as a path, clockwise."""
    (x, y), (to_x, to_y) = pair(shape.at(shape.start)), pair(shape.at(shape.end))
    radius, large = number(shape.radius), int(shape.end - shape.start > 180)
    SubElement(parent, "path", {"d": f"M{x} {y}A{radius} {radius} 0 {large} 1 {to_x} {to_y}"})


def lettering(parent: Element, shape: Text) -> None:
    """One line of text, its size in mm."""
    x, y = pair(shape.at)
    made = SubElement(
        parent, "text", {"x": f"{x}", "y": f"{y}", "font-size": f"{number(font_size(shape.height))}"}
    )
    made.text = own_reading(shape.text)
    made.attrib |= _other(shape.text)
    if shape.anchor != "start":
        made.set("text-anchor", shape.anchor)
    if shape.upward:
        made.set("transform", f"rotate(-90 {x} {y})")


def number(value: float) -> float | int:
    """Rounded to a hundredth of a millimetre, whole numbers without a point."""
    rounded = round(float(value), 2)
    try:
        whole = int(rounded)
    except (ValueError, OverflowError) as error:
        raise ValueError(f"a drawing has no place for {value}") from error
    return whole if whole == rounded else rounded


def pair(point: Point) -> tuple[float | int, float | int]:
    """A point with both numbers rounded."""
    return (number(point[0]), number(point[1]))
