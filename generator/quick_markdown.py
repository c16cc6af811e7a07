"""Texts of a page that Markdown need not search for markup: read in one pass, with the same result.

Markdown looks for each of its signs in every text, one kind after the other. Most texts of a manual are cells of
tables: words, links, strong words and HTML, each in its plainest form. Whatever else a text has is left to Markdown.
"""

from __future__ import annotations

import re
from typing import Any
from xml.etree.ElementTree import Element

from markdown import Extension, Markdown
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString

_SIGNS = re.compile(r"[\\`\[<&*_\x02]|  \n")
"""What Markdown may read inside a line as more than a letter."""
_WORDS = r"(?:[^\\`\[\]<&*_\x02\x03!]|!(?!\[))++"  # `++`: what was read is not read again in another way
_HTML = r"</?[a-zA-Z][a-zA-Z0-9]*(?: [a-zA-Z-]+=(?:\"[^\"<>\[\]\\`]*\"|'[^'<>\[\]\\`]*'))* ?/?>|&(?:#[0-9]+|[a-zA-Z]+);"
_LINK = rf"""\[((?:{_WORDS}|{_HTML})++)\]\(([^\s()<>"'\[\]\\`]+)(?: "([^"()<>\[\]\\`]+)")?\)"""
_PART = re.compile(rf"({_WORDS})|({_HTML})|{_LINK}|\*\*(?![\s*])([^*]+)(?<!\s)\*\*(?!\*)", re.DOTALL)
_WORDS_OR_HTML = re.compile(rf"({_WORDS})|({_HTML})")


class QuickTexts(Extension):  # type: ignore[misc]  # untyped
    """Reads plain texts before Markdown does."""

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802  # its name there
        """Registered before `inline`, which finds what is left."""
        md.treeprocessors.register(_Texts(md), "plain", 25)


class _Texts(Treeprocessor):  # type: ignore[misc]
    def run(self, root: Any) -> None:
        for element in list(root.iter()):
            if (text := element.text) and not isinstance(text, AtomicString):
                words = AtomicString(text) if not _SIGNS.search(text) else None
                if words is None and (read := self._read(text)):
                    words, inside = read
                    element[:0] = inside
                element.text = text if words is None else words
            for place in range(len(element) - 1, -1, -1):
                tail = element[place].tail
                if tail and not isinstance(tail, AtomicString):
                    if not _SIGNS.search(tail):
                        element[place].tail = AtomicString(tail)
                    elif read := self._read(tail):
                        element[place].tail, element[place + 1 : place + 1] = read

    def _read(self, text: str, strong: bool = True) -> tuple[AtomicString, list[Element]] | None:
        """The words before the first element, and the elements; None for a text with more in it."""
        if "  \n" in text:
            return None
        parts = []
        end = 0
        while end < len(text):
            part = _PART.match(text, end)
            if part is None or (part[6] and not strong):
                return None
            parts.append(part)
            end = part.end()
        return self._made(parts)

    def _made(self, parts: list[re.Match[str]]) -> tuple[AtomicString, list[Element]] | None:
        words, elements = [""], []
        for part in parts:
            if part[1]:
                words[-1] += part[1]
            elif part[2]:
                words[-1] += self.md.htmlStash.store(part[2])
            else:
                made = self._strong(part[6]) if part[6] else self._link(part)
                if made is None:
                    return None
                elements.append(made)
                words.append("")
        for element, tail in zip(elements, words[1:], strict=True):
            element.tail = AtomicString(tail) if tail else None
        return AtomicString(words[0]), elements

    def _strong(self, text: str) -> Element | None:
        read = self._read(text, strong=False)
        if read is None:
            return None
        strong = Element("strong")
        strong.text, strong[:] = read
        return strong

    def _link(self, part: re.Match[str]) -> Element:
        link = Element("a", {"href": part[4]})
        if part[5]:
            link.set("title", re.sub(r"\s", " ", part[5].strip()))
        link.text = AtomicString(
            "".join(each[1] or self.md.htmlStash.store(each[2]) for each in _WORDS_OR_HTML.finditer(part[3]))
        )
        return link
