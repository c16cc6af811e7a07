"""Cut paths as another library reads them: no error, millimetres, holes where the figures say."""

from __future__ import annotations

import io
from fractions import Fraction

import ezdxf
import pytest
from ezdxf.document import Drawing as Document
from ezdxf.lldxf.encoding import decode_dxf_unicode

from generator.drawings.cut_paths import CutPaths, cut_paths
from generator.figures.rows.parts import PartRow
from generator.writers.dxf import to_dxf
from tests.prints.bench import NAMES, figures_of

PARTS = [
    pytest.param(row, id=f"{name} {row.mark}")
    for name in NAMES
    for row in figures_of(name).parts
    if row.kind == "sheet"
]


def read(row: PartRow) -> Document:
    return ezdxf.read(io.StringIO(to_dxf(cut_paths(row))))


@pytest.mark.parametrize("row", PARTS)
def test_the_audit_finds_nothing_and_the_unit_is_the_millimetre(row: PartRow) -> None:
    document = read(row)
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert document.units == ezdxf.units.MM


@pytest.mark.parametrize("row", PARTS)
def test_holes_lie_where_the_figures_say(row: PartRow) -> None:
    found = sorted(
        (circle.dxf.center.x, circle.dxf.center.y, 2 * circle.dxf.radius)
        for circle in read(row).modelspace().query("CIRCLE")
    )
    expected = sorted(
        (float(op.at[0]), float(op.at[1]), float(op.size))
        for op in row.operations
        if not isinstance(op.size, tuple)
    )
    assert len(found) == len(expected)
    assert [value for hole in found for value in hole] == pytest.approx(
        [value for hole in expected for value in hole], abs=1e-6
    )


@pytest.mark.parametrize("row", PARTS)
def test_the_outline_is_as_large_as_the_part(row: PartRow) -> None:
    (outline,) = read(row).modelspace().query('POLYLINE[layer=="OUTLINE"]')
    points = [(vertex.dxf.location.x, vertex.dxf.location.y) for vertex in outline.vertices]
    assert outline.is_closed
    assert min(points) >= (0, 0)
    assert max(x for x, _ in points) == pytest.approx(float(row.length), abs=1e-6)
    assert max(y for _, y in points) == pytest.approx(float(row.width), abs=1e-6)
    area = (
        abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], points[0]], strict=True))) / 2
    )
    bites = sum(float(n.along * n.across) for n in row.notches)
    bites += sum(
        float(op.size[0] * op.size[1])
        for op in row.operations
        if isinstance(op.size, tuple) and op.depth is None and at_edge(row, op.at, op.size)
    )
    assert area == pytest.approx(float(row.length * row.width) - bites, rel=1e-9)


def at_edge(row: PartRow, at: tuple[Fraction, Fraction], size: tuple[Fraction, Fraction]) -> bool:
    low = at[1] - size[1] / 2
    return low <= 0 or low + size[1] >= row.width


def test_a_layer_is_a_tool() -> None:
    rows = {row.mark: row for row in figures_of("demo").parts}
    layers = {
        mark: [layer.name for layer in cut_paths(rows[mark]).layers] for mark in ("TOP", "CP2", "PAN", "DS1")
    }
    assert layers == {
        "TOP": ["OUTLINE", "HOLE_20_THROUGH"],
        "CP2": ["OUTLINE", "HOLE_9_THROUGH", "TAPPED_HOLE_8_THROUGH", "PORT_12_THROUGH"],
        "PAN": ["OUTLINE", "RABBET_2_DEEP_BOTH_FACES", "CUT_OUT_THROUGH"],
        "DS1": ["OUTLINE", "GROOVE_6_DEEP"],
    }
    assert all(len(name) <= 31 for names in layers.values() for name in names)  # release 12's limit


def test_letters_beyond_ascii_are_written_as_the_format_has_them() -> None:
    text = to_dxf(CutPaths("X", ("Верх\nplate",), ()))
    assert r"\U+0412\U+0435\U+0440\U+0445 plate" in text
    assert text.isascii()
    assert text == to_dxf(CutPaths("X", ("Верх\nplate",), ()))


def test_no_text_is_read_as_a_code() -> None:
    text = "%%d %%u^I ^M \\U+0041 \\P é 作 100%"
    paths = CutPaths("X", (text, "two\nlines \U0001f527"), ())
    document = ezdxf.read(io.StringIO(to_dxf(paths)))
    assert not document.audit().errors
    words = [decode_dxf_unicode(each.plain_text()) for each in document.modelspace().query("TEXT")]
    assert words == [text, "two lines ?"]
