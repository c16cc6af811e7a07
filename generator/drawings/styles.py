"""The styles that a shape may name; writers give them their looks. Line widths follow ISO 128-2."""

from __future__ import annotations

#: Line widths in mm, ISO 128-2: wide to narrow 2 : 1.
WIDE_LINE = 0.5
NARROW_LINE = 0.25

#: Tints of pieces in isometric pictures, and the faces that look towards the viewer.
ISO_TINTS, ISO_FACES = ("bar", "wood", "dark", "tote", "new"), ("top", "left", "right")

#: The styles of bold lettering, which is wider.
BOLD_STYLES = frozenset(("mark",))

#: Every style that a shape may name.
STYLES = frozenset(
    {
        *(
            "outline",
            "frame",
            "thin",
            "hidden",
            "centre",
            "dimension",
            "arrow",
            "hatch",
            "ground",
            "paper",
            "hole",
            "nut",
        ),
        *(
            "fill-bar",
            "fill-wood",
            "fill-new",
            "fill-front",
            "fill-tote",
            "fill-dark",
            "text",
            "note",
            "mark",
            "cut-number",
            "break-down",
        ),
        *("iso-edge", "iso-edge-new", "iso-slot", "iso-slot-new", "iso-halo"),
        *(
            f"iso-{tint}-{face}{edged}"
            for tint in ISO_TINTS
            for face in ISO_FACES
            for edged in ("", "-edged")
        ),
    }
)
