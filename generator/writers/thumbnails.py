"""Small pictures of parts inside the lists of a page."""

from __future__ import annotations

from markupsafe import Markup

from generator.drawings.thumbnail import Thumbnail
from generator.writers.svg import PIXELS_PER_REM, Element, SvgRoot, number, write

PIXELS_PER_MM = 96 / 25.4


def thumbnail(picture: Thumbnail, page: str = "", again: bool = False) -> Markup:
    """A picture as one line. It has no words: what it shows is written beside it, for all who read.

    A `page` that shows pictures `again` writes their shapes once. Large type makes them larger, as all in rem.
    """
    width, height = number(picture.width), number(picture.height)
    rem = PIXELS_PER_MM / PIXELS_PER_REM
    root = SvgRoot(
        "svg",
        {
            "viewBox": f"0 0 {width} {height}",
            "class": "bm-drawing bm-thumb",
            "aria-hidden": "true",
            "style": f"width:{number(picture.width * rem)}rem;height:{number(picture.height * rem)}rem",
        },
    )
    name = f"Thumb-{page}-{picture.name}"
    if again:
        root.add(Element("use", {"href": f"#{name}"}))
    elif page:
        write(root.add(Element("g", {"id": name, "class": "bm-again bm-small"})), picture.shapes)
    else:
        write(root, picture.shapes)
    return Markup(root.tostring().replace("\n", " "))  # all words of it are escaped, or are none
