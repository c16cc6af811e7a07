"""What the bench is put together from: pieces that the spec adds, and what the stand asks of bars."""

from __future__ import annotations

import pytest

from tests.bench.benches import DEMO, changed, part, solved, span


def test_the_pieces_as_written_are_kept_beside_those_of_what_was_measured() -> None:
    """A top of 18 that measures 17 makes the posts of 725 longer by 1; without a record there is nothing to compare."""
    assert solved().written == ()
    thin = "- {date: 2026-11-05, measured: {path: materials.mdf-18.thickness, value: 17}}\n"
    bench = solved(DEMO, thin)
    assert part(bench, "A1").length == 726
    assert next(each.length for each in bench.written if each.mark == "A1") == 725


@pytest.mark.parametrize(
    ("size", "along", "across", "sizes"),
    [
        ("[200, 12, 60]", "x", "z", (200, 60, 12)),
        ("[12, 200, 60]", "y", "z", (200, 60, 12)),
        ("[200, 60, 12]", "x", "y", (200, 60, 12)),
    ],
)
def test_an_extra_panel_lies_as_its_sizes_say(
    size: str, along: str, across: str, sizes: tuple[int, ...]
) -> None:
    """Its thickness is the smallest of the three; the corner is where the spec says."""
    panel = f"extra: {{panels: [{{name: fence, material: ply-12, at: [700, 400, 551], size: {size}}}]}}\n"
    fence = part(solved(changed(DEMO, ("loads: {", f"{panel}loads: {{"))), "XP1")
    assert (fence.along, fence.across) == (along, across)
    assert (fence.length, fence.width, fence.thickness) == sizes
    assert [span(fence, axis)[0] for axis in "xyz"] == [700, 400, 551]
    assert (fence.name, fence.material, fence.kind) == ("fence", "ply-12", "sheet")
