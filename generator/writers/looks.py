"""What each style of a drawing looks like, for every writer: one table, widths in mm.

Line widths follow ISO 128-2 (wide to narrow 2 : 1), dashes its line types 02 (hidden) and 04 (centre).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.drawings.styles import ISO_FACES, ISO_TINTS, NARROW_LINE, WIDE_LINE

#: Between wide and narrow: the edge of a filled area.
MIDDLE_LINE = round((WIDE_LINE + NARROW_LINE) / 2, 2)
#: Edges in isometric pictures: bold ones show what is new in grey print.
EDGE, NEW_EDGE = 0.13, 0.32


INK = "ink"
"""The tone of lines and lettering: black on paper, the page's text colour on screen."""


@dataclass(frozen=True)
class Look:
    """`line` is a stroke's width (0: none), `dash` its pattern; `fill` and `stroke` name tones (empty: none).

    `halo` paints the stroke behind the letters, in its tone.
    """

    line: float = 0.0
    dash: tuple[float, ...] = ()
    fill: str = ""
    bold: bool = False
    stroke: str = INK
    round: bool = False
    halo: bool = False


#: Tints of the faces of isometric pictures, top, left and right; a new piece is darker than all others in grey print.
_ISO_PAPER = {
    "bar": ("eef1f4", "d7dce2", "c5ccd4"),
    "wood": ("f7f0e2", "e8ddc6", "dbccb0"),
    "dark": ("bfc5cb", "a3aab2", "8f969e"),
    "tote": ("e0eae7", "c9d6d2", "b6c5c0"),
    "new": ("f3b268", "e39a44", "cf852f"),
}
_ISO_DARK = {
    "bar": ("505965", "414954", "343b45"),
    "wood": ("5f5545", "4d4638", "3f392d"),
    "dark": ("6e7781", "5d656e", "4d545c"),
    "tote": ("496065", "394a4e", "2d3c3f"),
    "new": ("d18a35", "b4701f", "985b13"),
}


def _tints(tints: Mapping[str, tuple[str, str, str]]) -> dict[str, str]:
    return {
        f"{tint}-{face}": f"#{colour}"
        for tint, colours in tints.items()
        for face, colour in zip(ISO_FACES, colours, strict=True)
    }


#: Tones on white paper. Fills are light: lines carry the drawing in grey print too.
PAPER_TONES: Mapping[str, str] = {
    "paper": "#fff",
    "bar": "#e6eaee",
    "wood": "#f6efe0",
    "new": "#f2b56b",
    "front": "#efe5d0",
    "tote": "#dde7e4",
    "dark": "#c3c8cd",
    "soft": "#555",
    "slot": "#7d8791",
    "slot-new": "#7a4a12",
    **_tints(_ISO_PAPER),
}

#: The same on a dark screen.
DARK_TONES: Mapping[str, str] = {
    "paper": "#1e2129",
    "bar": "#3b424c",
    "wood": "#4a4336",
    "new": "#a5621a",
    "front": "#554b39",
    "tote": "#37474a",
    "dark": "#5b626b",
    "soft": "#b5bac2",
    "slot": "#1f252c",
    "slot-new": "#4a2c07",
    **_tints(_ISO_DARK),
}

LOOKS: Mapping[str, Look] = {
    "outline": Look(WIDE_LINE),
    "frame": Look(0.7),  # ISO 5457
    "ground": Look(2 * NARROW_LINE + 0.2),
    "thin": Look(NARROW_LINE),
    "hatch": Look(NARROW_LINE),
    "dimension": Look(NARROW_LINE),
    "hidden": Look(NARROW_LINE, (2.4, 1.2)),
    "centre": Look(NARROW_LINE, (6.0, 1.0, 0.8, 1.0)),
    "arrow": Look(fill=INK),
    "paper": Look(fill="paper"),
    "hole": Look(MIDDLE_LINE, fill="paper"),
    "nut": Look(fill=INK),
    **{
        f"fill-{name}": Look(MIDDLE_LINE, fill=name)
        for name in ("bar", "wood", "new", "front", "tote", "dark")
    },
    "text": Look(fill=INK),
    "note": Look(fill="soft"),
    "mark": Look(fill=INK, bold=True),
    "cut-number": Look(0.9, fill=INK, stroke="paper", halo=True),
    "break-down": Look(WIDE_LINE, (4.0, 1.5)),
    # a hair of its own colour closes the seam that two neighbouring fills leave
    **{
        f"iso-{tint}-{face}": Look(
            0.3 if face == "top" else 0.1, fill=f"{tint}-{face}", stroke=f"{tint}-{face}"
        )
        for tint in ISO_TINTS
        for face in ISO_FACES
    },
    **{
        f"iso-{tint}-{face}-edged": Look(
            NEW_EDGE if tint == "new" else EDGE, fill=f"{tint}-{face}", round=True
        )
        for tint in ISO_TINTS
        for face in ISO_FACES
    },
    "iso-edge": Look(EDGE, round=True),
    "iso-edge-new": Look(NEW_EDGE, round=True),
    "iso-slot": Look(fill="slot"),
    "iso-slot-new": Look(fill="slot-new"),
    "iso-halo": Look(1.5, stroke="paper", round=True),
}
