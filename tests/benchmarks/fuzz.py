"""Mutants of the shipped specs, each in a process of its own: what became of them, and which broke the law.

The law: a spec that somebody broke is refused with its line and column or solved, never with a traceback, in 5 s of
processor time and 500 MB. Every mutant follows from its seed.

Run from the checkout: python tests/benchmarks/fuzz.py [mutants [first seed]], or with one seed: --show SEED
Ctrl+C ends it with the counts so far.
"""

from __future__ import annotations

import argparse
import gc
import os
import resource
import sys
import traceback
import warnings
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[2]))

from generator.bench.solve import solve
from generator.spec.load import read_spec
from tests.mutants import SPECS, Mutant, mutant, outcome, unplaced

SECONDS, MEGABYTES = 5.0, 500.0
MANUALS, MANUAL_SECONDS = 100, 15.0
"""One mutant of so many is built as a whole, with every page and drawing; the shipped specs take 3 to 5 s for that."""
LIMIT_SECONDS, LIMIT_BYTES = 120, 4 << 30


@dataclass(frozen=True)
class Run:
    seed: int
    word: str
    """How it ended: the stage, or the fault."""
    seconds: float
    megabytes: float
    fault: str = ""


def made(seed: int) -> tuple[Mutant, bool]:
    """The mutant of a seed, and whether its whole manual is built."""
    return mutant(Random(seed)), seed % MANUALS == 0


def judged(seed: int) -> tuple[str, str]:
    """How a mutant ends, and what is against the law in it."""
    try:
        broken, whole = made(seed)
        found = outcome(broken, whole)
        nowhere = unplaced(broken, found)
    except BaseException:  # whatever it is, it is what a user would see
        return "traceback", traceback.format_exc(limit=-6)
    return ("unplaced", "\n".join(nowhere)) if nowhere else (found.stage, "")


def run(seed: int) -> Run:
    """Try one mutant in a process of its own, which may neither run nor grow for ever."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        resource.setrlimit(resource.RLIMIT_CPU, (LIMIT_SECONDS, LIMIT_SECONDS))
        resource.setrlimit(resource.RLIMIT_AS, (LIMIT_BYTES, LIMIT_BYTES))
        word, fault = judged(seed)
        with os.fdopen(writing, "w", errors="replace") as pipe:
            pipe.write(f"{word}\n{fault}")
        os._exit(0)
    os.close(writing)
    with os.fdopen(reading, errors="replace") as pipe:
        word, _, fault = pipe.read().partition("\n")
    _, status, used = os.wait4(child, 0)
    seconds, megabytes = used.ru_utime + used.ru_stime, used.ru_maxrss / 1024
    most = MANUAL_SECONDS if word == "built" else SECONDS
    if not word:
        word, fault = "killed", f"ended with status {status}"
    elif word not in ("traceback", "unplaced") and (seconds > most or megabytes > MEGABYTES):
        fault = f"{word} after {seconds:.1f} s with {megabytes:.0f} MB"
        word = "slow" if seconds > most else "big"
    return Run(seed, word, seconds, megabytes, fault)


def last(fault: str) -> str:
    """The end of a traceback, by which the same fault is known again."""
    lines = fault.strip().splitlines()
    place = next((line.strip() for line in reversed(lines) if line.strip().startswith("File ")), "")
    return f"{lines[-1][:150]}  {place[-90:]}" if lines else ""


def report(runs: list[Run]) -> bool:
    counts = Counter(each.word for each in runs)
    print(f"{len(runs)} mutants: " + ", ".join(f"{count} {word}" for word, count in counts.most_common()))
    slowest, biggest = max(runs, key=lambda each: each.seconds), max(runs, key=lambda each: each.megabytes)
    print(
        f"slowest {slowest.seconds:.2f} s (seed {slowest.seed}), biggest {biggest.megabytes:.0f} MB ({biggest.seed})"
    )
    faults: dict[str, list[int]] = {}
    for each in runs:
        if each.fault:
            faults.setdefault(f"{each.word}: {last(each.fault)}", []).append(each.seed)
    for fault, seeds in sorted(faults.items(), key=lambda item: -len(item[1])):
        print(f"{len(seeds):5} {fault}\n      seeds {', '.join(map(str, seeds[:8]))}")
    return not faults


def show(seed: int) -> None:
    broken, whole = made(seed)
    print(broken.text, broken.record, f"whole manual: {whole}", *judged(seed), sep="\n---\n")


def warm_up() -> None:
    """Read and solve what is shipped once, so that no mutant pays for what every process loads."""
    for path in SPECS:
        solve(read_spec(path.read_text(), path.name))
    gc.collect()
    gc.freeze()


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("mutants", type=int, nargs="?", default=20_000)
    parser.add_argument("first", type=int, nargs="?", default=1)
    parser.add_argument("--show", type=int)
    asked = parser.parse_args()
    if asked.show is not None:
        show(asked.show)
        return 0
    warnings.simplefilter("error")
    runs = []
    warm_up()
    with suppress(KeyboardInterrupt):  # what was tried counts
        for seed in range(asked.first, asked.first + asked.mutants):
            runs.append(run(seed))
            if runs[-1].fault:
                print(f"seed {seed} {runs[-1].word}: {last(runs[-1].fault)}", file=sys.stderr, flush=True)
            if len(runs) % 500 == 0:
                print(f"{len(runs)} …", file=sys.stderr, flush=True)
    return 0 if report(runs) else 1


if __name__ == "__main__":
    sys.exit(main())
