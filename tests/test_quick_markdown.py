"""What is read quickly is what Markdown makes of it, whatever stands side by side."""

from __future__ import annotations

from functools import cache

import markdown
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.quick_markdown import QuickTexts

EXTENSIONS = ("admonition", "attr_list", "md_in_html", "tables", "toc")
PARTS = (
    "words ", "two\nlines", " ", "  \n", "!", "![", "[", "]", "](", "(", ")", "**", "*", "_", "`", "\\", "\\*", "<",
    ">", "&", "&amp;", "&#95;", "&lt;", "\"", "'", "{", "}", "|", ":", "https://l.m", "<https://l.m>", "<a@b.c>",
    '<span data-o="1 in">', "</span>", "<br>", "<wbr>", "<b class='x'>", "</b>", '<i title="[a](b) _c_ *d*">', "</i>",
    "[25](a.md#b){ .bm-figure }", '[a *b*](c.md "d_e it\'s")', '[<span data-o="1">25</span>](a_b.md#c*d)',
    '[x](y "z (1)")', "[x](<y z>)", "[x][y]", "[x]", "**strong**", "**a [b](c.md) d**", "***x***", "** x **", "`c_d`",
    "<!-- note -->", "é × ½",
)  # fmt: skip


@cache
def reader(quick: bool) -> markdown.Markdown:
    return markdown.Markdown(extensions=[*EXTENSIONS, *([QuickTexts()] if quick else [])])


def made(text: str, quick: bool) -> str:
    found: str = reader(quick).reset().convert(text)
    return found


@settings(max_examples=400)
@given(st.lists(st.sampled_from(PARTS), max_size=9).map("".join))
def test_any_text_is_as_markdown_makes_it(text: str) -> None:
    assert made(text, quick=True) == made(text, quick=False)


@settings(max_examples=150)
@given(st.lists(st.lists(st.sampled_from(PARTS), max_size=4).map("".join), min_size=2, max_size=3))
def test_any_cell_of_a_table_is_as_markdown_makes_it(cells: list[str]) -> None:
    row = " | ".join(cell.replace("\n", " ").replace("|", "") for cell in cells)
    text = f"# T\n\n| {'n | ' * len(cells)}\n|{'---|' * len(cells)}\n| {row} |\n\n## *a* [b](c.md)\n"
    assert made(text, quick=True) == made(text, quick=False)


@pytest.mark.parametrize("text", ["[" + "a ! b <i>c</i> " * 400, "**" + "a ! b <i>c</i> " * 400])
def test_a_long_text_that_is_left_to_markdown_is_not_searched_in_every_way(text: str) -> None:
    assert made(text, quick=True) == made(text, quick=False)


@pytest.mark.parametrize(
    "text",
    [
        "words",
        "**44 parts** that differ, 35 steps",
        '[<span data-o="28 in">725&#39; mm</span>](working.md#w-a_b){ .bm-figure } <small>(x)</small>',
        'A [bar](glossary.md#term "A long piece: metal."){ .bm-term }&#39;s bore',
        "**[2](#a){ .b } × [3](#c)** both",
    ],
)
def test_what_is_plain_is_not_left_to_markdown(text: str) -> None:
    md = markdown.Markdown(extensions=[QuickTexts()])
    for sign in ("link", "html", "entity", "em_strong"):
        md.inlinePatterns.deregister(sign)
    alone = markdown.Markdown(extensions=[])
    assert md.convert(text) == alone.convert(text)
