"""The head and foot line of every printed page, as a style sheet: margin boxes after CSS Paged Media."""

from __future__ import annotations

from generator.drawings.sheet import DATUM, TOLERANCE, Stamp

LINE = "font: 10pt sans-serif; color: #000; white-space: pre-wrap; vertical-align: middle"
"""Capitals of 10 pt are 2.5 mm high, the least of ISO 3098-1."""


def paper_css(stamp: Stamp) -> str:
    """Title, revision, date, unit and checksum above; datum, tolerance and the page's number below.

    A reader who switched the unit prints pages that say so.
    """
    other = "in" if stamp.units == "mm" else "mm"
    return "\n".join(
        (
            "/* Head and foot line of every page of this manual. */",
            f"@page {{\n{_boxes(stamp, stamp.units)}\n}}",
            f"@page bm-other {{\n{_boxes(stamp, other)}\n}}",
            f"@page bm-lying-other {{\n  size: landscape; margin: 10mm 15mm;\n{_boxes(stamp, other)}\n}}",
            "",
        )
    )


def _boxes(stamp: Stamp, unit: str) -> str:
    """The margin boxes of a page whose lengths are in `unit`."""
    parts = (stamp.title, f"revision {stamp.revision}", stamp.date, f"in {unit}", stamp.source)
    head = " · ".join(part for part in parts if part)
    foot = f"{DATUM} General tolerance {TOLERANCE}."
    boxes = {
        "top-left": (quoted(head), "text-align: left; width: 88%"),
        "top-right": (quoted(stamp.state), "text-align: right; width: 12%; font-weight: bold"),
        "bottom-left": (quoted(foot), "text-align: left; width: 88%"),
        "bottom-right": ('counter(page) " / " counter(pages)', "text-align: right; width: 12%"),
    }
    return "\n".join(
        f"  @{place} {{ content: {content}; {LINE}; {more} }}" for place, (content, more) in boxes.items()
    )


def quoted(text: str) -> str:
    """A text as a string of CSS: what could end it is written by its number."""
    return '"' + "".join(f"\\{ord(c):x} " if c in '"\\<' or ord(c) < 32 else c for c in text) + '"'
