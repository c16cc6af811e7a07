"""What the tool writes, as digests: a pure move of code must leave every one of them as it was.

`python -m tests.net` writes `data/digests.json` anew; `python -m tests.net --show NAME` prints what is digested, to be
compared by `diff`. A commit that changes a digest says which and why. Papers are left out: their bytes rest on the
version of the library that writes them. `data/random-specs.yml` was drawn once from `strategies.plans`.
"""

from __future__ import annotations

import os

# as in a run of the tests: another number of threads rounds the last digit of a sag otherwise
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import hashlib
import json
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import Finding, SpecError
from generator.manual import compile_loaded
from generator.spec.load import read_spec
from generator.writers.figures_json import figures_json
from tests.changes_of_the_demo import DEMO
from tests.check_cases import CASES

DATA = Path(__file__).parent / "data"
SPECS = Path(__file__).parents[1] / "specs"
SHIPPED = ("demo", "wall-bench", "starter")
PAPERS = (".pdf", ".zip")


def random_specs() -> dict[str, str]:
    """Name -> text of the benches that were drawn at random."""
    texts = (DATA / "random-specs.yml").read_text(encoding="utf-8").split("---\n")
    return {f"random {number}": text for number, text in enumerate(texts, 1)}


def failing_specs() -> dict[str, str]:
    """Name -> text of a demo that fails one check, a row a check."""
    return {
        f"{case.code}: {case.old} -> {case.new}": DEMO.replace(case.old, case.new)
        for case in CASES
        if case.old
    }


def shipped_specs() -> dict[str, str]:
    """Name -> text of the specs that come with the tool."""
    return {name: (SPECS / f"{name}.yml").read_text(encoding="utf-8") for name in SHIPPED}


def _said(findings: tuple[Finding, ...] | list[Finding]) -> str:
    return "\n".join(finding.explained() for finding in findings)


def figures_and_findings(text: str) -> dict[str, str]:
    """What `figures` and `check` print of a spec; for one that is refused, its faults."""
    try:
        loaded = read_spec(text, "bench.yml")
        figures, findings = compute(solve(loaded))
    except SpecError as error:
        return {"findings": _said(list(error.findings))}
    return {"figures.json": figures_json(figures), "findings": _said(findings)}


def files(name: str, text: str) -> dict[str, bytes]:
    """Every file of a manual but the papers, and what `check` says."""
    made, findings = compile_loaded(read_spec(text, f"{name}.yml"), f"{name}.yml")
    return written(made) | {"findings": _said(findings).encode()}


def written(made: Mapping[str, bytes]) -> dict[str, bytes]:
    """The files of a manual whose bytes are ours alone."""
    return {path: data for path, data in made.items() if not path.endswith(PAPERS)}


def digest(data: bytes | str) -> str:
    """Short and hard to hit by accident."""
    return hashlib.sha256(data.encode() if isinstance(data, str) else data).hexdigest()[:16]


def digests() -> dict[str, dict[str, str]]:
    """Spec -> output -> digest, of all."""
    found = {name: files(name, text) for name, text in shipped_specs().items()}
    result = {
        name: {path: digest(data) for path, data in sorted(made.items())} for name, made in found.items()
    }
    for name, text in (random_specs() | failing_specs()).items():
        result[name] = {what: digest(said) for what, said in figures_and_findings(text).items()}
    return result


def kept() -> dict[str, dict[str, str]]:
    """The digests as they stand in the repo."""
    held: dict[str, dict[str, str]] = json.loads((DATA / "digests.json").read_text(encoding="utf-8"))
    return held


def _shown(name: str) -> Iterator[str]:
    every = random_specs() | failing_specs() | shipped_specs()
    for what, said in figures_and_findings(every[name]).items():
        yield f"==== {what}\n{said}"


if __name__ == "__main__":
    if sys.argv[1:2] == ["--show"]:
        sys.stdout.write("\n".join(_shown(sys.argv[2])) + "\n")
    else:
        made = digests()
        before = kept() if (DATA / "digests.json").exists() else {}
        for spec, outputs in made.items():
            changed = [what for what, mark in outputs.items() if before.get(spec, {}).get(what) != mark]
            if changed:
                sys.stdout.write(f"{spec}: {', '.join(changed[:8])}{' ...' if changed[8:] else ''}\n")
        (DATA / "digests.json").write_text(json.dumps(made, indent=1) + "\n", encoding="utf-8")
