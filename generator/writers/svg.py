"""A Drawing as SVG: one line to stand inline in a page, or a file of its own.

All lengths are millimetres of paper; the view box makes bare numbers so. Class names begin with `bm-` and
the root bears the drawing's id, because a page holds many drawings and its style sheet is one.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from math import isfinite
from typing import Any

import svgwrite

from generator.drawings.canvas import (
    ISO_FACES,
    ISO_TINTS,
    NARROW_LINE,
    WIDE_LINE,
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

XML_HEADER = '<?xml version="1.0" encoding="UTF-8"?>\n'

FONTS = '"DejaVu Sans",Verdana,Arial,Helvetica,sans-serif'

#: Ink is the text colour of the page; fills are light, so that lines carry the drawing in grey print too.
_LIGHT = (
    "--bm-paper:#fff;--bm-bar:#e6eaee;--bm-wood:#f6efe0;--bm-new:#f2b56b;"
    "--bm-front:#efe5d0;--bm-tote:#dde7e4;--bm-dark:#c3c8cd;--bm-soft:#555"
)
_DARK = (
    "--bm-paper:#1e2129;--bm-bar:#3b424c;--bm-wood:#4a4336;--bm-new:#a5621a;"
    "--bm-front:#554b39;--bm-tote:#37474a;--bm-dark:#5b626b;--bm-soft:#b5bac2"
)
#: Tints of the faces of isometric pictures, top, left and right; a new piece is darker than all others in grey print.
_ISO_LIGHT = {
    "bar": ("eef1f4", "d7dce2", "c5ccd4"),
    "wood": ("f7f0e2", "e8ddc6", "dbccb0"),
    "dark": ("bfc5cb", "a3aab2", "8f969e"),
    "tote": ("e0eae7", "c9d6d2", "b6c5c0"),
    "new": ("f3b268", "e39a44", "cf852f"),
}
_ISO_DARK = {
    "bar": ("505965", "414954", "343b45"),
    "wood": ("5f5545", "4d4638", "3f392d"),
    "dark": ("6e7781", "5d656e", "4d545c"),
    "tote": ("496065", "394a4e", "2d3c3f"),
    "new": ("d18a35", "b4701f", "985b13"),
}


def _tints(tints: dict[str, tuple[str, str, str]]) -> str:
    return "".join(
        f";--bm-{tint}-{face}:#{colour}"
        for tint, colours in tints.items()
        for face, colour in zip(ISO_FACES, colours, strict=True)
    )


_LIGHT += _tints(_ISO_LIGHT)
_DARK += _tints(_ISO_DARK)
_HALF = round((WIDE_LINE + NARROW_LINE) / 2, 2)

#: What each style of the canvas looks like. Shapes inherit it from the group that names the style.
LOOKS = {
    "outline": f"stroke:currentColor;stroke-width:{WIDE_LINE}",
    "ground": f"stroke:currentColor;stroke-width:{2 * NARROW_LINE + 0.2:g}",
    "thin": f"stroke:currentColor;stroke-width:{NARROW_LINE}",
    "hatch": f"stroke:currentColor;stroke-width:{NARROW_LINE}",
    "dimension": f"stroke:currentColor;stroke-width:{NARROW_LINE}",
    "hidden": f"stroke:currentColor;stroke-width:{NARROW_LINE};stroke-dasharray:2.4 1.2",
    "centre": f"stroke:currentColor;stroke-width:{NARROW_LINE};stroke-dasharray:6 1 .8 1",
    "arrow": "fill:currentColor",
    "paper": "fill:var(--bm-paper)",
    "hole": f"fill:var(--bm-paper);stroke:currentColor;stroke-width:{_HALF}",
    **{
        f"fill-{name}": f"fill:var(--bm-{name});stroke:currentColor;stroke-width:{_HALF}"
        for name in ("bar", "wood", "new", "front", "tote", "dark")
    },
    "text": "fill:currentColor",
    "note": "fill:var(--bm-soft)",
    "mark": "fill:currentColor;font-weight:bold",
    # a hair of its own colour closes the seam that two neighbouring fills leave
    **{
        f"iso-{tint}-{face}": f"fill:var(--bm-{tint}-{face});stroke:var(--bm-{tint}-{face});"
        f"stroke-width:{'.3' if face == 'top' else '.1'}"
        for tint in ISO_TINTS
        for face in ISO_FACES
    },
    "iso-edge": "stroke:currentColor;stroke-width:.13;stroke-linecap:round",
    "iso-edge-new": "stroke:currentColor;stroke-width:.32;stroke-linecap:round",
    "iso-slot": "stroke:currentColor;stroke-width:.07;stroke-opacity:.55",
    "iso-halo": "stroke:var(--bm-paper);stroke-width:1.5;stroke-linecap:round",
    "iso-arrow": "stroke:currentColor;stroke-width:.7",
    "iso-mark": "fill:currentColor;font-weight:bold;stroke:var(--bm-paper);stroke-width:.7;paint-order:stroke",
}

DRAWING_CSS = "\n".join(
    (
        f".bm-drawing{{{_LIGHT};fill:none;stroke:none;stroke-linejoin:round;font-family:{FONTS}}}",
        f"[data-md-color-scheme=slate] .bm-drawing{{{_DARK}}}",
        f"@media print{{.bm-drawing,[data-md-color-scheme=slate] .bm-drawing{{{_LIGHT};color:#000}}}}",
        *(f".bm-drawing .bm-{style}{{{look}}}" for style, look in LOOKS.items()),
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
    """The drawing as one line for a page (`inline`), or as a file with its own style and size in mm."""
    width, height = number(drawing.width), number(drawing.height)
    root = svgwrite.Drawing(debug=False, viewBox=f"0 0 {width} {height}")
    role = "group" if drawing.has_links() else "img"
    root.attribs |= {"class": "bm-drawing", "id": drawing.id, "role": role}
    root.set_desc(" ".join(drawing.title.split()), " ".join(drawing.description.split()))
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
    """Add shapes in their order; a run of one style shares a group that names it."""
    for style, run in groupby(shapes, key=lambda shape: "" if isinstance(shape, Group) else shape.style):
        if not style:
            for group in run:
                assert isinstance(group, Group)
                inner = parent.add(anchor(root, group.link) if group.link else root.g())
                if group.label:
                    inner.set_desc(group.label)
                write(root, inner, group.shapes)
            continue
        styled = parent.add(root.g(class_=f"bm-{style}"))
        for shape in run:
            link = getattr(shape, "link", "")
            target = styled.add(anchor(root, link)) if link else styled
            target.add(element(root, shape))


def anchor(root: svgwrite.Drawing, link: str) -> Any:
    """A plain `href`: the xlink form is out of use."""
    made = root.a("#")
    made.attribs = {"href": link}
    return made


def element(root: svgwrite.Drawing, shape: Shape) -> Any:
    """One shape as an element, without its style."""
    match shape:
        case Line():
            return root.line(pair(shape.start), pair(shape.end))
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
    made = root.text(shape.text, insert=(x, y), font_size=number(font_size(shape.height)))
    if shape.anchor != "start":
        made.attribs["text-anchor"] = shape.anchor
    if shape.upward:
        made.attribs["transform"] = f"rotate(-90 {x} {y})"
    return made


def number(value: float) -> float | int:
    """Rounded to a hundredth of a millimetre, whole numbers without a point."""
    if not isfinite(value):
        raise ValueError(f"a drawing has no place for {value}")
    rounded = round(float(value), 2)
    return int(rounded) if rounded == int(rounded) else rounded


def pair(point: Point) -> tuple[float | int, float | int]:
    """A point with both numbers rounded."""
    return (number(point[0]), number(point[1]))
