"""The advice of every finding of the shipped benches and the samples, written into the spec: does it cure?

Run with `python -m tests.benchmarks.advice`; it takes some minutes. Each advice that names keys is applied alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding
from generator.resources import bundled
from generator.spec.adapt import adapted
from generator.spec.load import read_spec


@dataclass(frozen=True)
class Tried:
    """One advice: the places where its check still fails, and the checks that fail only since."""

    finding: Finding
    left: tuple[str, ...]
    new: tuple[str, ...]


def failing(figures: Figures) -> dict[tuple[str, str], str]:
    """(code, place) of every check that fails -> its severity."""
    return {(check.code, check.where): check.severity for check in figures.checks if not check.ok}


def tried(spec: Path) -> Iterator[Tried]:
    """Every advice of a spec, each set of keys once for a code."""
    text = spec.read_text(encoding="utf-8")
    figures, findings = compute(solve(read_spec(text, spec.name)))
    before, seen = failing(figures), set()
    for finding in findings:
        changes = tuple((change.path, change.value) for change in finding.remedy)
        if not changes or (finding.code, changes) in seen:
            continue
        seen.add((finding.code, changes))
        after = failing(compute(solve(read_spec(adapted(text, list(changes)), spec.name)))[0])
        here = list(finding.places) or [finding.message]
        left = tuple(
            where for code, where in after if code == finding.code and any(where in each for each in here)
        )
        new = tuple(f"{after[each]} {each[0]} ({each[1]})" for each in after if each not in before)
        yield Tried(finding, left, new)


def specs() -> tuple[Path, ...]:
    """The shipped benches and the samples."""
    shipped = [bundled("specs") / f"{name}.yml" for name in ("demo", "starter", "wall-bench")]
    return (*shipped, *sorted((bundled("specs") / "samples").glob("*.yml")))


if __name__ == "__main__":
    for spec in specs():
        for each in tried(spec):
            keys = ", ".join(map(str, each.finding.remedy))
            verdict = f"STILL FAILS AT {'; '.join(each.left)}" if each.left else "cured"
            print(
                f"{spec.parent.name}/{spec.stem}: {each.finding.code} {verdict} by {keys}; new: {each.new or 'none'}"
            )
