"""What rests on a typical value is held back until that value is measured."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.bench.solve import solve
from generator.drawings.extent import Extent
from generator.drawings.setup_card import draw_setup
from generator.drawings.shapes import Text
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.manual import Manual
from generator.pages.page import ruler_for
from generator.resources import bundled
from generator.spec.load import LoadedSpec, read_spec

#: A bench that rests on typical cards alone.
WALL = (bundled("specs") / "wall-bench.yml").read_text(encoding="utf-8").replace(", measured: 2026-11-08", "")
TITLE = "Measure before you cut."


def figures_of(text: str) -> tuple[LoadedSpec, Figures]:
    spec = read_spec(text, "bench.yml")
    return spec, compute(solve(spec))[0]


def held(figures: Figures, key: str) -> set[str]:
    card = next(card for card in figures.setups if card.key.startswith(key))
    return {each.path for each in card.unmeasured}


def test_a_tongue_waits_for_the_slot_and_its_sheet() -> None:
    _, figures = figures_of(WALL)
    assert {"materials.bar.slot.opening", "materials.bar.slot.depth"} <= held(figures, "tongue")


def test_a_drawer_waits_for_its_slides_and_for_nothing_that_cancels() -> None:
    _, figures = figures_of(WALL)
    paths = {each.path for each in figures.drawers[1].unmeasured}
    assert {"hardware.slide.side_space", "hardware.slide.length"} <= paths
    # its face stands before the box, but no size of the box rests on how thick it is
    assert not any(path.endswith("three-quarter.thickness") for path in paths)


@pytest.mark.parametrize(
    "measured", ["measured: 2026-11-20", "slot: {opening: 0.32, depth: 0.47, lip: 0.18, undercut: 0.6}"]
)
def test_a_measured_value_releases_the_card(measured: str) -> None:
    line = next(line for line in WALL.splitlines() if line.strip().startswith("bar:"))
    changed = line.replace("{", "{" + measured + ", ", 1)
    _, figures = figures_of(WALL.replace(line, changed))
    assert not {path for path in held(figures, "tongue") if path.startswith("materials.bar.slot")}


def test_pages_hold_a_card_back_with_a_box_to_write_in() -> None:
    spec, figures = figures_of(WALL)
    manual = Manual(spec, figures, "bench.yml")
    for page in ("set-up-cards", "openings-and-drawers"):
        text = (manual.file(f"docs/{page}.md") or b"").decode()
        assert TITLE in text and "Side space of slide" in text


def test_the_printed_card_is_held_back_too() -> None:
    _, figures = figures_of(WALL)
    tongue = next(card for card in figures.setups if card.key.startswith("tongue"))
    ruler = ruler_for(figures)
    (sheet, *_) = draw_setup(tongue, "FD1", ruler, Extent(20, 20, 195, 270))
    words = " ".join(shape.text for shape in sheet.shapes if isinstance(shape, Text))
    assert "Measure before you cut" in words and "opening of slot of 1 1/2 × 1 1/2 in aluminium" in words
    released = replace(tongue, unmeasured=())
    (sheet, *_) = draw_setup(released, "FD1", ruler, Extent(20, 20, 195, 270))
    assert "Measure before you cut" not in " ".join(s.text for s in sheet.shapes if isinstance(s, Text))
