"""A Drawing as SVG: one line to stand inline in a page, or a file of its own.

All lengths are millimetres of paper; the view box makes bare numbers so. Class names begin with `bm-` and
the root bears the drawing's id, because a page holds many drawings and its style sheet is one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any

import svgwrite
from svgwrite.base import Desc, Title

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
    root = svgwrite.Drawing(debug=False, viewBox=f"0 0 {width} {height}")
    role = "group" if drawing.has_links() else "img"
    root.attribs |= {"class": "bm-drawing", "id": drawing.id, "role": role}
    for place, (kind, words) in enumerate(((Title, drawing.title), (Desc, drawing.description))):
        text = " ".join(words.split())
        named = kind(own_reading(text))
        if has_two(text):
            named.get_xml().set("data-o", other_reading(text))
        root.elements.insert(place, named)
    if inline:
        del root.attribs["width"], root.attribs["height"]
        root.attribs["style"] = f"max-width:{width}mm;width:100%"
    else:
        root.attribs |= {"width": f"{width}mm", "height": f"{height}mm"}
    if not inline:
        root.add(root.style(DRAWING_CSS.replace("\n", "") + _ALONE))
    write(root, root, drawing.shapes)
    text = " ".join(root.tostring().split("\n"))
    return text if inline else XML_HEADER + text + "\n"


def write(root: svgwrite.Drawing, parent: Any, shapes: Iterable[Shape]) -> None:
    """Add shapes in their order. A run of one style shares a group that names it; a lone element names it itself.

    Fewer elements make a page lighter for a phone. Lettering keeps its group: a page's own rules for a class must
    not win over the size that a text bears.
    """
    for style, run in groupby(shapes, key=lambda shape: "" if isinstance(shape, Group) else shape.style):
        if not style:
            for group in run:
                assert isinstance(group, Group)
                inner = parent.add(anchor(root, group.link) if group.link else root.g())
                if group.label:
                    inner.set_desc(own_reading(group.label))
                write(root, inner, group.shapes)
            continue
        made = list(elements(root, run))
        if len(made) == 1 and made[0].elementname not in ("text", "a"):
            made[0].attribs["class"] = f"bm-{style}"
            parent.add(made[0])
            continue
        styled = parent.add(root.g(class_=f"bm-{style}"))
        for each in made:
            styled.add(each)


def elements(root: svgwrite.Drawing, run: Iterable[Shape]) -> Iterator[Any]:
    """Shapes of one style as elements; lines that follow each other become one path."""
    for are_lines, shapes in groupby(run, key=lambda shape: isinstance(shape, Line)):
        if are_lines:
            yield strokes(root, [shape for shape in shapes if isinstance(shape, Line)])
            continue
        for shape in shapes:
            made = element(root, shape)
            if link := getattr(shape, "link", ""):
                outer = anchor(root, link)
                outer.add(made)
                made = outer
            yield made


def strokes(root: svgwrite.Drawing, lines: Sequence[Line]) -> Any:
    """Lines as one element."""
    if len(lines) == 1:
        return root.line(pair(lines[0].start), pair(lines[0].end))
    ends = ((*pair(line.start), *pair(line.end)) for line in lines)
    return root.path(d="".join(f"M{x} {y}L{to_x} {to_y}" for x, y, to_x, to_y in ends))


def anchor(root: svgwrite.Drawing, link: str) -> Any:
    """A plain `href`: the xlink form is out of use."""
    made = root.a("#")
    made.attribs = {"href": link}
    return made


def element(root: svgwrite.Drawing, shape: Shape) -> Any:
    """One shape as an element, without its style."""
    match shape:
        case Line():
            return strokes(root, [shape])
        case Polyline():
            make = root.polygon if shape.closed else root.polyline
            return make([pair(point) for point in shape.points])
        case Rect():
            corner, size = pair(shape.corner), pair((shape.width, shape.height))
            rounded = {"rx": number(shape.radius)} if shape.radius else {}
            return root.rect(corner, size, **rounded)
        case Circle():
            return root.circle(pair(shape.centre), number(shape.radius))
        case Arc():
            return arc(root, shape)
        case Text():
            return lettering(root, shape)
    raise TypeError(f"no such shape: {shape!r}")


def arc(root: svgwrite.Drawing, shape: Arc) -> Any:
    """An arc as a path, clockwise."""
    (x, y), (to_x, to_y) = pair(shape.at(shape.start)), pair(shape.at(shape.end))
    radius, large = number(shape.radius), int(shape.end - shape.start > 180)
    return root.path(d=f"M{x} {y}A{radius} {radius} 0 {large} 1 {to_x} {to_y}")


def lettering(root: svgwrite.Drawing, shape: Text) -> Any:
    """One line of text, its size in mm."""
    x, y = pair(shape.at)
    made = root.text(own_reading(shape.text), insert=(x, y), font_size=number(font_size(shape.height)))
    if has_two(shape.text):
        made.attribs["data-o"] = other_reading(shape.text)
    if shape.anchor != "start":
        made.attribs["text-anchor"] = shape.anchor
    if shape.upward:
        made.attribs["transform"] = f"rotate(-90 {x} {y})"
    return made


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
