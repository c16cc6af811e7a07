"""General tolerances: ISO 2768-1:1989, Table 1, class m (linear dimensions)."""

from __future__ import annotations

from fractions import Fraction

#: Upper end of each range and its permissible deviation (mm). "over 6 up to 30" is ("30", "0.2").
CLASS_M = tuple(
    (Fraction(upto), Fraction(deviation))
    for upto, deviation in (
        ("3", "0.1"),
        ("6", "0.1"),
        ("30", "0.2"),
        ("120", "0.3"),
        ("400", "0.5"),
        ("1000", "0.8"),
        ("2000", "1.2"),
        ("4000", "2"),
    )
)


def general_tolerance(length: Fraction) -> Fraction:
    """Permissible deviation (mm, plus or minus) of a linear size. Raises ValueError outside 0.5 to 4000 mm."""
    if length < Fraction(1, 2) or length > CLASS_M[-1][0]:
        raise ValueError("ISO 2768-1 gives no general tolerance for this length")
    return next(deviation for upto, deviation in CLASS_M if length <= upto)
