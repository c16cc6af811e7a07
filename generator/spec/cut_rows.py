"""How many pieces of a cutting problem are in a row at most."""

from __future__ import annotations

from fractions import Fraction

from generator.calculators.cutting.sheets import SheetPiece


def least_sides(piece: SheetPiece) -> tuple[Fraction, Fraction]:
    """The least that a piece takes across a sheet and up."""
    least = min(piece.width, piece.height)
    return (least, least) if piece.turns else (piece.width, piece.height)


def longest_row(sizes: list[tuple[Fraction, int]], room: Fraction) -> int:
    """How many pieces are one after the other at most."""
    number = 0
    for size, count in sorted(sizes):
        fit = min(count, room // size)
        number, room = number + fit, room - fit * size
    return number
