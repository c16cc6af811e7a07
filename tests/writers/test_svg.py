"""Every kind of drawing is sound SVG, by the judgement of svgwrite's validator; each is written once."""

import re
from collections import Counter
from functools import cache
from xml.etree import ElementTree

import pytest
from svgwrite.validator2 import get_validator

from generator import manual
from generator.drawings.canvas import Canvas, Drawing
from generator.manual import Manual
from generator.pages import PAGES
from generator.pages.page import ruler_for
from generator.prints.sticks import pieces
from generator.resources import bundled
from generator.spec.load import read_spec_file
from generator.writers.svg import Svg, to_svg
from tests.prints.bench import drawings_of, figures_of

VALIDATOR = get_validator("full", debug=True)

NO_SVG = {"role", "data-o", "data-t"}
"""What speaks to screen readers and to the page's switch of unit, by HTML's rules."""

IN_1_1 = {"href": "xlink:href"}
"""The validator knows the links of SVG 1.1; those of HTML have the newer name."""


@cache
def kinds() -> dict[str, Drawing]:
    """Kind -> its first drawing in the demo; a part's kind is the letters of its mark."""
    figures = figures_of("demo")
    found: dict[str, Drawing] = {}
    for drawing in (*drawings_of("demo"), *pieces(figures, ruler_for(figures))):
        part = re.match(r"part-[A-Z]+", drawing.id)
        found.setdefault(part[0] if part else drawing.id.split("-")[0], drawing)
    return found


def judge(element: ElementTree.Element, name: str = "svg") -> None:
    """Raises where an attribute, its value, or an element within another is none of SVG."""
    for attribute, value in element.attrib.items():
        if attribute not in NO_SVG:
            VALIDATOR.check_svg_attribute_value(name, IN_1_1.get(attribute, attribute), value)
    for child in element:
        tag = child.tag.removeprefix("{http://www.w3.org/2000/svg}")
        VALIDATOR.check_valid_children(name, tag)
        judge(child, tag)


def test_every_kind_of_drawing_is_sound() -> None:
    assert {"bench", "elevation", "bar", "sheet", "part-C", "part-FD", "top", "opening"} < set(kinds())
    assert {"stick", "picture", "full"} < set(kinds())
    for drawing in kinds().values():
        svg = to_svg(drawing)
        judge(ElementTree.fromstring(svg.inline))
        judge(ElementTree.fromstring(svg.alone))


def test_a_file_has_its_style_and_else_what_stands_in_the_page() -> None:
    """Whatever the words: signs of XML in them, and what looks like the seam."""
    canvas = Canvas()
    canvas.text((0, 0), "<style /> a > b")
    svg = to_svg(canvas.finish("d", "a > b <style />", "</desc> & <desc>"))
    page, alone = ElementTree.fromstring(svg.inline), ElementTree.fromstring(svg.alone)
    style = next(child for child in alone if child.tag.endswith("}style"))
    assert ".bm-drawing{" in str(style.text)
    alone.remove(style)
    assert [ElementTree.tostring(child) for child in alone] == [ElementTree.tostring(child) for child in page]
    assert [child.text for child in page][:2] == ["a > b <style />", "</desc> & <desc>"]
    assert {key for key in alone.attrib if key not in page.attrib} == {"width", "height"}


def test_a_drawing_is_written_once_for_its_page_and_its_file(monkeypatch: pytest.MonkeyPatch) -> None:
    written: Counter[str] = Counter()

    def counted(drawing: Drawing) -> Svg:
        written[drawing.id] += 1
        return to_svg(drawing)

    monkeypatch.setattr(manual, "to_svg", counted)
    made = Manual(read_spec_file(bundled("specs") / "starter.yml"), figures_of("starter"), "starter.yml")
    shown = next(page for page in PAGES if page.slug == "openings-and-drawers")
    assert 'id="Drawing-opening-left"' in made.page(shown)
    assert b'id="Drawing-opening-left"' in (made.file("docs/drawings/opening-left.svg") or b"")
    assert set(written.values()) == {1}
