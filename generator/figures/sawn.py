"""A sheet plan in the parts' own sizes: each place and each width as the sum of what is before it.

The plan itself is made to the next tenth, by plain numbers; here its cuts are followed once more, so that what the saw
is set to, and what is on its table, carry their working.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.calculators.cutting.sheets import Area, CutSheet, CutTree, PlacedPiece, SawCut
from generator.provenance import chosen, greatest

Sizes = Sequence[tuple[Fraction, Fraction]]
"""Own sizes of each piece of a plan, along the sheet and across it."""


@dataclass(frozen=True)
class Saw:
    """What a cut takes, what comes off the edges, what a part is left too long before its final cut (mm)."""

    kerf: Fraction
    trim: Fraction
    allowance: Fraction
    left: Fraction = Fraction(0)
    """What a cut leaves beside the blade at least."""
    track: Fraction = Fraction(0)
    """What a cut by track saw takes."""

    def takes(self, cut: SawCut) -> Fraction:
        """What a cut takes."""
        return self.track if cut.by_track else self.kerf


def sawn(sheet: CutSheet, length: Fraction, width: Fraction, saw: Saw, sizes: Sizes) -> CutSheet:
    """The sheet with its cuts at the parts' own sizes. `sizes` are those of all pieces of the plan, as they lie."""
    area = Area(saw.trim, saw.trim, length - 2 * saw.trim, width - 2 * saw.trim)
    return replace(sheet, tree=_sawn(sheet.tree, area, saw, sizes))


def sized(tree: CutTree) -> Iterator[PlacedPiece]:
    """The pieces that the first cut of a tree gives their size: its near part is as wide as they are."""
    if tree.cut is None or tree.first is None:
        return
    upright, near = tree.cut.upright, tree.first.area
    for piece in tree.first.pieces():
        if (piece.area.width == near.width) if upright else (piece.area.height == near.height):
            yield piece


def late_last(tree: CutTree, late: Callable[[CutTree], bool]) -> CutTree:
    """The tree with the strips that hold late parts alone behind those beside them, so that their cuts can wait.

    Strips of one direction may be in any order on their sheet: their sizes stay, and `sawn` finds their places.
    """
    if tree.cut is None or tree.first is None:
        return tree
    strips, cuts, rest = [tree.first], [tree.cut], tree.second
    while rest is not None and rest.first is not None and rest.cut is not None:
        if rest.cut.upright is not tree.cut.upright:
            break
        strips.append(rest.first)
        cuts.append(rest.cut)
        rest = rest.second
    if rest is not None and any(rest.pieces()):
        strips.append(rest)
        rest = None
    strips = [late_last(strip, late) for strip in sorted(strips, key=late)]
    if len(strips) > len(cuts):
        rest = strips.pop()
    for cut, strip in zip(reversed(cuts), reversed(strips), strict=True):
        size = strip.area.width if cut.upright else strip.area.height
        rest = CutTree(tree.area, None, replace(cut, setting=size), strip, rest)
    assert rest is not None
    return rest


def _sawn(tree: CutTree, area: Area, saw: Saw, sizes: Sizes) -> CutTree:
    if tree.piece is not None:
        return CutTree(area, replace(tree.piece, area=area))
    cut = tree.cut
    if cut is None:
        return CutTree(area)
    setting = _setting(tree, cut, saw, sizes)
    over = setting + saw.takes(cut)
    if cut.upright:
        at = area.x + setting
        near = Area(area.x, area.y, setting, area.height)
        far = Area(area.x + over, area.y, area.width - over, area.height)
    else:
        at = area.y + setting
        near = Area(area.x, area.y, area.width, setting)
        far = Area(area.x, area.y + over, area.width, area.height - over)
    return CutTree(
        area,
        None,
        replace(cut, area=area, at=at, setting=setting, kerf=saw.takes(cut)),
        None if tree.first is None else _sawn(tree.first, near, saw, sizes),
        None if tree.second is None else _sawn(tree.second, far, saw, sizes),
    )


def _setting(tree: CutTree, cut: SawCut, saw: Saw, sizes: Sizes) -> Fraction:
    """The own size of the parts that are sized here; else what the strip holds; else as the plan chose it.

    Only where a sheet is broken down for the fence, or cut around a defect, does a plan choose a size that no part has.
    """
    own = [sizes[each.piece][0 if cut.upright else 1] for each in sized(tree)]
    if own:
        return max(own)
    held = _held(tree.first, cut.upright, saw, sizes) if tree.first else None
    if held is not None:
        # a part that is cut once more at the fence is left too long, and the blade takes its way off that; the last
        # of a stack has a cut of its own too
        for whole in (
            held,
            held + saw.allowance,
            held + saw.kerf + saw.allowance,
            held + saw.kerf + saw.left,
        ):
            # what was planned to the next tenth may be as much too large for each piece
            if whole <= cut.setting <= whole + Fraction(1, 2):
                return whole
    if tree.first is not None and not any(tree.first.pieces()):
        return chosen(
            cut.setting,
            f"waste of {float(cut.setting):g} mm up to a defect",
            "chosen by the cutting plan, so that no part has any of a defect",
        )
    return chosen(
        cut.setting,
        f"section of {float(cut.setting):g} mm to break a sheet down into",
        "chosen by the cutting plan, for the longest part that goes to the fence",
    )


def _held(tree: CutTree, upright: bool, saw: Saw, sizes: Sizes) -> Fraction | None:
    """What a part must be wide to hold its pieces side by side; None when it holds none."""
    if tree.piece is not None:
        return sizes[tree.piece.piece][0 if upright else 1]
    if tree.cut is None:
        return None
    first = None if tree.first is None else _held(tree.first, upright, saw, sizes)
    second = None if tree.second is None else _held(tree.second, upright, saw, sizes)
    if tree.cut.upright is upright:
        return first if first is None or second is None else first + saw.takes(tree.cut) + second
    # equal ones are named once
    held = tuple(dict.fromkeys(each for each in (first, second) if each is not None))
    return greatest(*held) if len(held) > 1 else next(iter(held), None)
