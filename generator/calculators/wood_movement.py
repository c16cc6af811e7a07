"""What wood does with the seasons, and bars with the heat.

Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010; coefficients the same in FPL-GTR-282, 2021):
moisture in equilibrium with the air chapter 4, dimensional change chapter 13.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.calculators.quantities import Kelvins, Millimetres, PerKelvin, Ratio
from generator.provenance import constant, formula, inexact

#: Thermal expansion of aluminium (1/K). EN 1999-1-1, 3.2.5, from memory; alloy sheets give 23.0 to 23.5.
ALUMINIUM = inexact(
    constant("0.000023", "expansion of aluminium", "EN 1999-1-1, not checked against the text", "1/K")
)


@dataclass(frozen=True)
class Species:
    """Change of size for each per cent of moisture, across the growth rings and along them: Table 13-5, 6 to 14 %."""

    radial: float
    tangential: float


#: Wood Handbook, Table 13-5. The two oaks are the table's commercial groups.
SPECIES: Mapping[str, Species] = {
    "yellow-poplar": Species(0.00158, 0.00289),
    "sugar maple": Species(0.00165, 0.00353),
    "white oak": Species(0.00180, 0.00365),
    "red oak": Species(0.00158, 0.00369),
    "yellow birch": Species(0.00256, 0.00338),
    "paper birch": Species(0.00219, 0.00304),
    "white ash": Species(0.00169, 0.00274),
    "American beech": Species(0.00190, 0.00431),
    "black walnut": Species(0.00190, 0.00274),
    "black cherry": Species(0.00126, 0.00248),
    "quaking aspen": Species(0.00119, 0.00234),
    "Douglas-fir": Species(0.00165, 0.00267),
    "white fir": Species(0.00112, 0.00245),
}
#: What an unknown wood is taken for: the liveliest of the table.
LIVELIEST = max(SPECIES.values(), key=lambda wood: wood.tangential)
#: Change of length and width of boards for each per cent of moisture: 0.2 to 0.3 mm a metre, plywood at the lower end.
#: Common practice, no source.
PLYWOOD, MDF = (
    inexact(constant(value, f"movement of {name} for each per cent of moisture", unit=""))
    for name, value in (("plywood", "0.0002"), ("MDF", "0.0003"))
)


#: Room beside a screw at both ends of its slot together (mm). Common practice, no source.
SLOT_PLAY = inexact(constant(1, "play of a screw in its slot"))
#: Change along the grain for each per cent of moisture: 0.1 to 0.2 % over the 30 % from green to dry.
ALONG_GRAIN = inexact(
    constant(
        "0.00005", "change along the grain for each per cent of moisture", "Wood Handbook, chapter 4", ""
    )
)


def species(name: str) -> Species:
    """Coefficients of a wood; those of the liveliest one for a name that the table does not have."""
    return SPECIES.get(name, LIVELIEST)


def moisture_in_equilibrium(*, celsius: float, humidity: float) -> float:
    """Moisture (% of dry mass) that wood takes on in air of `celsius` and relative `humidity` (%), after weeks.

    M = 1800 / W (K h / (1 - K h) + (K₁ K h + 2 K₁ K₂ K² h²) / (1 + K₁ K h + K₁ K₂ K² h²)), h = humidity / 100, with
    W, K, K₁, K₂ quadratic in the temperature: Wood Handbook, equation 4-5, a fit to measurements.
    """
    t = celsius
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    kh = k * humidity / 100
    second = k1 * kh + k1 * k2 * kh**2
    return 1800 / w * (kh / (1 - kh) + (second + k1 * k2 * kh**2) / (1 + second))


@formula("size * coefficient * moisture_change", "mm", "Wood Handbook, equation 13-2")
def change_with_moisture(*, size: Millimetres, coefficient: Ratio, moisture_change: Ratio) -> Millimetres:
    """Change of a size across the grain: ΔD = D C ΔM, ΔM in per cent. Wood Handbook, equation 13-2, 6 to 14 %."""
    return size * coefficient * moisture_change


@formula("shank + 2 * change + play", "mm", "common practice, no source")
def slot_length(*, shank: Millimetres, change: Millimetres, play: Millimetres = SLOT_PLAY) -> Millimetres:
    """Slot in which a screw stands in the middle and has room for the whole change either way: d + 2 ΔD + play."""
    return shank + 2 * change + play


@formula("length * expansion * warming", "mm", "physics")
def growth_with_heat(*, length: Millimetres, expansion: PerKelvin, warming: Kelvins) -> Millimetres:
    """Growth of a bar: ΔL = L α ΔT."""
    return length * expansion * warming
