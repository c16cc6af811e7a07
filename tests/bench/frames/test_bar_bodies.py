"""Bars as bodies: what each hole takes away, by the area of the section that it goes through."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.bench.box_body import about, face_axis
from generator.bench.frames.bar_bodies import bar_body
from generator.bench.piece import Operation
from tests.bench.benches import part, solved


def taken(mark: str, *operations: Operation) -> float:
    """mm³ that the operations take from a bar that has none."""
    bench = solved()
    bar, card = part(bench, mark), bench.goods.profile
    assert card is not None
    plain, cut = (bar_body(replace(bar, operations=each), card).volume for each in ((), operations))
    return plain - cut


def test_a_bar_is_its_section_over_its_length() -> None:
    """40 x 40 less four slots of 8.2 x 4.5 and 15 x 7.8."""
    bench = solved()
    bar = replace(part(bench, "B1"), operations=())
    area = 40 * 40 - 4 * (8.2 * 4.5 + 15 * 7.8)
    assert bench.goods.profile is not None
    body = bar_body(bar, bench.goods.profile)
    assert body.volume == pytest.approx(area * 1920)
    assert body.centre == pytest.approx((1000, 20, 20))
    assert body.bounds == (40, 0, 0, 1960, 40, 40)


def test_holes_take_what_they_go_through() -> None:
    """Along the middle of a face there is metal only between the two slots' floors: 40 - 2 x 12.3 = 15.4."""
    at = (part(solved(), "B1").length / 4, part(solved(), "B1").thickness / 2)
    eight = part(solved(), "C1").thickness / 5
    access = Operation("access hole", "front", at, eight, None, "")
    assert taken("B1", access) == pytest.approx(8 * 8 * 15.4)
    # a counterbore of 14 to 13.5: beside the opening of 8.2 the lip of 4.5, and 1.2 of the slot's floor
    bore = Operation("counterbore", "front", at, eight * 14 / 8, eight * 27 / 16, "")
    assert taken("B1", bore) == pytest.approx(14 * ((14 - 8.2) * 4.5 + 14 * 1.2))
    # from the other side alike
    assert taken("B1", replace(bore, face="rear")) == pytest.approx(14 * ((14 - 8.2) * 4.5 + 14 * 1.2))
    # a tapped end: the core is whole, 8 x 8 and 20 deep
    tap = Operation("tap", "left", (at[0] * 0, at[1]), eight, eight * 5 / 2, "")
    assert taken("B1", tap) == pytest.approx(8 * 8 * 20)
    # a relief 40 along and 16 across opens the lips
    relief = Operation("relief", "front", at, (eight * 5, eight * 2), eight * 9 / 16, "")
    assert taken("B1", relief) == pytest.approx(40 * (16 - 8.2) * 4.5)
    # whatever a kind of joint or stand calls its hole
    assert taken("B1", replace(access, op="bore")) == taken("B1", access)


def test_faces() -> None:
    assert [face_axis(face) for face in ("left", "rear", "bottom", "top")] == [
        ("x", 0),
        ("y", 1),
        ("z", 0),
        ("z", 1),
    ]
    assert about(10, 3) == (7, 13)
