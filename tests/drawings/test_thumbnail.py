"""The small pictures of parts: their proportions and faces are those of figures.json, and every list shows them."""

import json
import re
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

import pytest

from generator.drawings.extent import Extent, union
from generator.drawings.shapes import Polyline
from generator.drawings.thumbnail import BAR_WIDTH, BOARD_WIDTH, HEIGHT, Thumbnail, thumbnails
from generator.writers.figures_json import figures_json
from tests.prints.bench import figures_of

BENCHES = ["demo", "starter", "samples/joiner", "samples/lumber", "samples/cart"]
FILLS = ("fill-bar", "fill-wood")


def parts_of(name: str) -> list[dict[str, Any]]:
    parts: list[dict[str, Any]] = json.loads(figures_json(figures_of(name)))["parts"]
    return parts


def filled(picture: Thumbnail) -> list[Extent]:
    """What is filled, in its order: of a bar the section, then the side."""
    return [shape.extent() for shape in picture.shapes if shape.style in FILLS]


@pytest.mark.parametrize("name", BENCHES)
def test_boards_keep_their_proportions_and_bars_are_to_one_scale(name: str) -> None:
    pictures, scales = thumbnails(figures_of(name)), []
    for part in parts_of(name):
        shown = filled(pictures[part["mark"]])
        if part["kind"] in ("profile", "timber"):
            section, side = shown[0], union(shown[1:])
            scales.append(side.width / part["length"])
            low, high = sorted((section.width, section.height))
            assert low / high == pytest.approx(
                min(part["width"], part["thickness"]) / max(part["width"], part["thickness"]), rel=1e-6
            )
            assert side.height / side.width == pytest.approx(part["width"] / part["length"], rel=1e-6) or (
                side.height / side.width == pytest.approx(part["thickness"] / part["length"], rel=1e-6)
            )
        else:
            assert shown[0].height / shown[0].width == pytest.approx(part["width"] / part["length"], rel=1e-6)
    assert max(scales) == pytest.approx(min(scales))


@pytest.mark.parametrize("name", BENCHES)
def test_a_triangle_is_at_each_machined_face_of_a_bar(name: str) -> None:
    pictures = thumbnails(figures_of(name))
    ends = {"x": ("left", "right"), "y": ("front", "rear"), "z": ("bottom", "top")}
    for part in parts_of(name):
        if part["kind"] in ("profile", "timber"):
            machined = {act["face"] for act in part["operations"]} - set(ends[part["along"]])
            shapes = pictures[part["mark"]].shapes
            assert sum(isinstance(s, Polyline) and s.style == "arrow" for s in shapes) == len(machined)


@pytest.mark.parametrize("name", BENCHES)
def test_nothing_leaves_its_picture(name: str) -> None:
    for picture in thumbnails(figures_of(name)).values():
        assert picture.width in (BAR_WIDTH, BOARD_WIDTH)
        sheet = Extent(0.0, 0.0, picture.width, HEIGHT)
        for shape in picture.shapes:
            assert sheet.contains(shape.extent()), f"{picture.name}: {shape}"


def test_a_notched_board_is_cut_out_as_its_notches_say() -> None:
    """The area of the outline, by the shoelace formula, is the board less its notches and what opens to its edges."""
    pictures = thumbnails(figures_of("demo"))
    found = 0
    for part in parts_of("demo"):
        outline = pictures[part["mark"]].shapes[0]
        if part["notches"] and isinstance(outline, Polyline) and not part["operations"]:
            scale = outline.extent().width / part["length"]
            points = [*outline.points, outline.points[0]]
            pairs = pairwise(points)
            area = abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2 / scale**2
            taken = sum(each["along"] * each["across"] for each in part["notches"])
            assert area == pytest.approx(part["length"] * part["width"] - taken, rel=1e-6)
            found += 1
    assert found


def test_lists_show_each_part_and_hide_its_picture_from_readers_of_text(
    shipped: Any,
) -> None:
    files: Mapping[str, bytes] = shipped("demo")
    cut, index = (files[f"docs/{page}.md"].decode() for page in ("cut-list", "part-index"))
    parts = parts_of("demo")
    assert cut.count('class="bm-drawing bm-thumb"') == len(parts)
    assert index.count('class="bm-drawing bm-thumb"') == sum(part["count"] for part in parts)
    for text in (cut, index):
        assert text.count("bm-thumb") == text.count('aria-hidden="true"')
    drawn = re.findall(r'<g id="([^"]+)"', index)
    assert len(set(drawn)) == len(drawn) == len(parts)
    used = re.findall(r'<use href="#([^"]+)"', index)
    assert set(used) <= set(drawn)
    # each picture is written before it is shown again
    assert all(index.index(f'id="{name}"') < index.index(f'href="#{name}"') for name in set(used))
