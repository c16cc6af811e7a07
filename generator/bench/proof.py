"""What a proof of the order of assembly found."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calculators.assembly import Proof
from generator.calculators.bodies import Body
from generator.findings import Finding


@dataclass(frozen=True)
class Assembled:
    """Solid bodies and the proof of their order. `faults` are wishes that cannot be met."""

    bodies: tuple[Body, ...]
    proof: Proof
    faults: tuple[Finding, ...]
