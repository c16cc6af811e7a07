"""What the numbers of a formula are. The unit is in the signature, and a test runs every formula with it.

The formulas hold no factors between units: what comes in as mm, N, MPa goes out in units made of these. A factor that
the trade needs (revolutions a minute from metres a minute) is an argument with a unit of its own.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from generator.provenance import constant, inexact

Millimetres = Annotated[float, "mm"]
ExactMillimetres = Annotated[Fraction, "mm"]
SquareMillimetres = Annotated[float, "mm^2"]
SecondMoment = Annotated[float, "mm^4"]
Newtons = Annotated[float, "N"]
ExactNewtons = Annotated[Fraction, "N"]
NewtonMillimetres = Annotated[float, "N*mm"]
NewtonMillimetresPerRadian = Annotated[float, "N*mm/rad"]
NewtonsPerMillimetre = Annotated[float, "N/mm"]
Megapascals = Annotated[float, "MPa"]
KilogramsPerCubicMetre = Annotated[float, "kg/m^3"]
Kilograms = Annotated[float, "kg"]
KilogramMillimetres = Annotated[float, "kg*mm"]
NewtonsPerKilogram = Annotated[float, "N/kg"]
PerKelvin = Annotated[float, "1/K"]
Kelvins = Annotated[float, "K"]
MetresPerMinute = Annotated[float, "m/min"]
MillimetresPerMetre = Annotated[float, "mm/m"]
MillimetresPerMinute = Annotated[float, "mm/min"]
PerMinute = Annotated[float, "1/min"]
Minutes = Annotated[float, "min"]
PerMillimetre = Annotated[float, "1/mm"]
Money = Annotated[float, "1"]
Ratio = Annotated[float, "1"]
Count = Annotated[int, "1"]

#: Standard acceleration of free fall (N/kg), exact: 3rd General Conference on Weights and Measures, 1901.
GRAVITY = inexact(constant("9.80665", "free fall", "3rd General Conference on Weights and Measures", "N/kg"))
