"""How long a build takes against plain MkDocs on the same pages: one table, whose rows are measured in turn.

Run from the checkout: python -m tests.benchmarks.build [--rounds N] [--spec FILE] [--loaded N] [--growth]
`--loaded` keeps N processes busy beside it; `--growth` builds benches of 5, 10, 20 and 40 bays instead.
Wall and processor time are medians; a ratio is the median of the ratios of the rounds. `tests/benchmarks/live.py` has
the time from a save to the page.
"""

from __future__ import annotations

import argparse
import os
import shutil
import statistics
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Event, Thread
from time import perf_counter

from tests.benchmarks.assembly import two_zones

DEMO = Path(__file__).parents[2] / "specs" / "demo.yml"
PLAIN, ONE, TWO = "plain MkDocs", "cold, one process", "cold, two processes"
CHANGED, SAME = "one change", "nothing changed"
GOALS = {ONE: 2.4, TWO: 1.7, CHANGED: 1.7}
"""The most that a build may take, as so many times plain MkDocs (wall)."""
BAYS = (5, 10, 20, 40)
LOOK = 0.25
"""Seconds between two looks at the memory."""
BUSY = "while True: pass"


@dataclass(frozen=True)
class Taken:
    """What a command took: seconds by the clock and of all processors, and the most memory of its processes (MB)."""

    wall: float
    processor: float
    memory: float


def taken(command: Sequence[str]) -> Taken:
    """Run a command and measure it; memory is counted on Linux only."""
    before, begin = os.times(), perf_counter()
    quiet = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=quiet)
    most, done = [0.0], Event()
    watch = Thread(target=_watch, args=(process.pid, most, done))
    watch.start()
    _, said = process.communicate()
    wall = perf_counter() - begin
    done.set()
    watch.join()
    if process.returncode:
        raise SystemExit(said.decode())
    after = os.times()
    spent = after.children_user + after.children_system - before.children_user - before.children_system
    return Taken(wall, spent, most[0])


def _watch(pid: int, most: list[float], done: Event) -> None:
    while not done.wait(LOOK):
        most[0] = max(most[0], sum(map(_memory, _family(pid))))


def _family(pid: int) -> Iterator[int]:
    yield pid
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    except OSError:
        return
    for child in children:
        yield from _family(int(child))


def _memory(pid: int) -> float:
    """What a process alone holds, and its part of what it shares (MB)."""
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
    except OSError:
        return 0.0
    return next((int(line.split()[1]) / 1024 for line in lines if line.startswith("Pss:")), 0.0)


@contextmanager
def busy(count: int) -> Iterator[None]:
    """So many other processes at work."""
    others = [subprocess.Popen([sys.executable, "-c", BUSY]) for _ in range(count)]
    try:
        yield
    finally:
        for other in others:
            other.kill()
            other.wait()


def build(spec: Path, out: Path, processes: int) -> list[str]:
    """The command of a build."""
    run = [sys.executable, "-c", "from generator.cli import run; run()", "build", str(spec)]
    return [*run, "--out", str(out), "--processes", str(processes)]


def rounds(text: str, count: int) -> Mapping[str, list[Taken]]:
    """Each row so many times, in turn."""
    found: dict[str, list[Taken]] = {name: [] for name in (PLAIN, ONE, TWO, CHANGED, SAME)}
    with TemporaryDirectory() as work:
        spec, out, plain = Path(work, "bench.yml"), Path(work, "out"), Path(work, "plain")
        spec.write_text(text, encoding="utf-8")
        taken(build(spec, out, 2))
        pages = shutil.copytree(out / "pages", Path(work, "pages"))
        mkdocs = [
            sys.executable,
            "-m",
            "mkdocs",
            "build",
            "-q",
            "-f",
            str(pages / "mkdocs.yml"),
            "-d",
            str(plain),
        ]

        def cold(processes: int) -> Taken:
            shutil.rmtree(out, ignore_errors=True)
            return taken(build(spec, out, processes))

        def changed() -> Taken:
            spec.write_text(text.replace("title: ", f"title: {len(found[CHANGED])} ", 1), encoding="utf-8")
            return taken(build(spec, out, 2))

        rows: dict[str, Callable[[], Taken]] = {
            PLAIN: lambda: taken(mkdocs),
            ONE: lambda: cold(1),
            TWO: lambda: cold(2),
            CHANGED: changed,
            SAME: lambda: taken(build(spec, out, 2)),
        }
        for _ in range(count):
            spec.write_text(text, encoding="utf-8")
            for name, run in rows.items():
                found[name].append(run())
    return found


def table(found: Mapping[str, list[Taken]]) -> Iterator[str]:
    """The rows as they are printed."""
    yield f"{'':22}{'wall s':>8}{'processor s':>13}{'MB':>6}{'ratio':>8}{'goal':>7}"
    for name, runs in found.items():
        wall, spent, memory = (
            statistics.median(values)
            for values in zip(*((r.wall, r.processor, r.memory) for r in runs), strict=True)
        )
        ratio = statistics.median(own.wall / bare.wall for own, bare in zip(runs, found[PLAIN], strict=True))
        goal = f"{GOALS[name]:.1f}" if name in GOALS else ""
        yield f"{name:22}{wall:8.2f}{spent:13.2f}{memory:6.0f}{ratio:8.2f}{goal:>7}"


def growth() -> Iterator[str]:
    """How the time of a build grows with the bays of a bench (two zones of so many bays)."""
    with TemporaryDirectory() as work:
        first = 0.0
        for bays in BAYS:
            spec = Path(work, f"bays-{bays}.yml")
            spec.write_text(two_zones(bays).text, encoding="utf-8")
            one = taken(build(spec, Path(work, "out"), 1))
            first = first or one.processor / bays
            times = one.processor / bays / first
            yield f"{bays:3} bays: {one.processor:7.2f} s of the processor, {times:.2f} × linear, {one.memory:.0f} MB"
            shutil.rmtree(Path(work, "out"))


def main() -> None:
    """Print what is asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--spec", type=Path, default=DEMO)
    parser.add_argument("--loaded", type=int, default=0)
    parser.add_argument("--growth", action="store_true")
    given = parser.parse_args()
    with busy(given.loaded):
        lines = (
            growth() if given.growth else table(rounds(given.spec.read_text(encoding="utf-8"), given.rounds))
        )
        for line in lines:
            print(line, flush=True)


if __name__ == "__main__":
    main()
