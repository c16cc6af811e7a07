"""How long the proof of an order takes: the demo, and benches of two zones with ever more bays.

Run from the checkout: python tests/benchmarks/assembly.py
"""

from __future__ import annotations

from math import log2
from pathlib import Path
from time import process_time

from generator.bench.assembly_proof import assembly_proof
from generator.bench.solve import solve
from generator.calculators.collisions import clashes
from generator.spec.load import LoadedSpec, read_spec, read_spec_file

DEMO = Path(__file__).parents[2] / "specs" / "demo.yml"
STACK = "{stack: [{drawer: share}, {drawer: share}, {drawer: share}, {drawer: share}]}"


def two_zones(bays: int) -> LoadedSpec:
    """A bench of 500 mm bays, four drawers in each, back to back over its whole length."""
    row = ", ".join([STACK] * bays)
    return read_spec(
        f"""spec: 1
title: {bays} bays, two zones
bench: {{length: {bays * 540 + 40}, depth: 1120, height: 880}}
materials: {{bar: {{use: profile 40}}}}
zones: [{{name: front, depth: 500, bays: [{row}]}}, {{name: back, depth: share, bays: [{row}]}}]
""",
        "long.yml",
    )


def measure(name: str, loaded: LoadedSpec) -> float:
    """Print one row; the processor's seconds for bodies, order and proof together, the best of three."""
    bench = solve(loaded)
    times = []
    for _ in range(3):
        start = process_time()
        done = assembly_proof(bench)
        times.append(process_time() - start)
    start = process_time()
    overlaps = len(clashes(done.bodies))
    all_against_all = process_time() - start
    motions, proved = len(done.proof.order), "proved" if done.proof.ok else "BLOCKED"
    print(
        f"{name:24}{len(done.bodies):8}{motions:9}{min(times):10.2f}{all_against_all:10.3f}{overlaps:10}  {proved}"
    )
    return min(times)


def main() -> None:
    print(f"{'bench':24}{'bodies':>8}{'motions':>9}{'order s':>10}{'overlap s':>10}{'overlaps':>10}")
    measure("demo", read_spec_file(DEMO))
    seconds = [measure(f"{bays} bays x 2 zones", two_zones(bays)) for bays in (5, 10, 20, 40)]
    print(
        f"From 5 to 40 bays the time grows with the power {log2(seconds[-1] / seconds[0]) / 3:.1f} of their number."
    )


if __name__ == "__main__":
    main()
