"""How long problems that ask for too much take: each must end within its budget and two seconds, under 500 MB.

    python -m tests.benchmarks.awkward                      all problems, with budgets of 2, 5 and 20 s
    python -m tests.benchmarks.awkward --seconds 5 --only sheet

Each is planned by `bench-manual cuts` in a process of its own, as somebody in a shop would. Seconds are of the
processor, of the program and all that it starts; those to start it and to plan one piece are shown apart, and count.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.spec.test_awkward_problems import PLANNED, REFUSED, ROOT, TWO, bars, sheets

#: Seconds beyond the budget that a problem may take, with the start of the program, and megabytes.
BEYOND, MOST_MEMORY = 2, 500

#: One piece: what the program itself takes.
START = bars([[6000, 54]], [[725, 1]])

FREE: dict[str, Any] = {"stages": "free", "shop_rules": False}
BROKEN: dict[str, Any] = {"break_down": {"max_length": 1300, "allowance": 5, "kerf": "2.2"}}
SIZES = [[210 + 37 * n, 130 + 23 * n, 2 + n % 5, n % 2] for n in range(24)]
SEVERAL = [[2440, 1220, 75], [3050, 1525, 118], [2070, 2800, 140], [1500, 900, 10, 2], [800, 600, 0, 3]]


#: The command, which says its own peak of memory at last: of a process that was started, the system tells no less than
#: that of the one that started it.
CODE = """
import sys
from generator.cli import run
try:
    run()
finally:
    from tests.peak_memory import peak_kilobytes
    print(peak_kilobytes(), file=sys.stderr)
"""


@dataclass(frozen=True)
class Run:
    """What the program took: seconds of the processor, megabytes, and how it ended (0: a plan, 2: refused)."""

    seconds: float
    megabytes: float
    status: int


def problems() -> Iterator[tuple[str, list[dict[str, Any] | Path]]]:
    """Names, and what each is planned from: problems and specs of benches."""
    for name, problem in PLANNED.items():
        yield name, [problem]
        if "sheets" in problem and "stages" not in problem:
            yield f"{name}, no rules", [{**problem, **FREE}]
    for name in ("too little", "slivers", "no room", "no sheet"):
        yield f"refused: {name}", [REFUSED[name][0]]
    yield "one bar", [bars([[100000, 1, 1]], [[100 + 7 * n, 6] for n in range(40)])]
    yield "too few bars", [bars([[6000, 54, 30]], [[700 + 41 * n, 8] for n in range(40)])]
    yield "one sheet", [sheets([[6000, 3000, 1, 1]], [[300, 200, 150, 1], [451, 333, 40]])]
    yield "too few sheets", [sheets([[2440, 1220, 75, 9]], SIZES)]
    yield "tiny parts", [sheets([[2440, 1220]], [[31, 17, 800, 1], [23, 11, 700, 1]])]
    yield "tiny bars", [bars([[6000]], [["7.3", 4000], ["11.9", 3000]], "1.2", "5")]
    yield "parts beyond all sections", [sheets([[3050, 1525]], [[2900, 250, 9], [1350, 700, 14]], **BROKEN)]
    variants: list[tuple[str, dict[str, Any]]] = [("", {}), (", no rules", FREE), (", broken down", BROKEN)]
    for name, more in variants:
        yield f"sheets of two dozen sizes{name}", [sheets([[2440, 1220, 75]], SIZES, **more)]
        yield f"sheets of five stocks{name}", [sheets(SEVERAL, SIZES, **more)]
    shop = json.loads((ROOT / "tests" / "data" / "shop-sheets.json").read_text(encoding="utf-8"))
    for problem in shop[6:]:
        yield problem["name"], [problem]
        yield f"{problem['name']}, no rules", [{**problem, **FREE}]
    material = {"material": {"name": "plywood", "thickness": 12}}
    benches: list[dict[str, Any] | Path] = [ROOT / "specs" / "demo.yml", ROOT / "specs" / "starter.yml"]
    yield "a bench", benches[:1]
    yield "two benches and a problem", [*benches, sheets([[2440, 1220, 75]], SIZES, **material)]
    yield (
        "two problems of one material",
        [
            {
                **bars([[6000, 54]], [[300 + 29 * n, 9] for n in range(40)]),
                "material": {"name": "bar", "section": 40},
            },
            {**bars([[6000, 54]], TWO), "material": {"name": "bar", "section": 40}},
        ],
    )


def planned(files: Sequence[dict[str, Any] | Path], seconds: float) -> Run:
    """Plan by the command, in a process of its own."""
    with tempfile.TemporaryDirectory() as folder:
        paths = []
        for number, each in enumerate(files):
            path = each if isinstance(each, Path) else Path(folder) / f"problem-{number}.json"
            if isinstance(each, dict):
                path.write_text(json.dumps({"name": f"trial {number}", **each}), encoding="utf-8")
            paths.append(str(path))
        command = [sys.executable, "-c", CODE, "cuts", *paths, "--json", "--seconds", f"{seconds:g}"]
        environment = {**os.environ, "PYTHONPATH": str(ROOT)}
        with (Path(folder) / "errors").open("w+", encoding="utf-8") as errors:
            process = subprocess.Popen(
                command, stdout=subprocess.DEVNULL, stderr=errors, cwd=ROOT, env=environment
            )
            _, status, used = os.wait4(process.pid, 0)
            process.returncode = os.waitstatus_to_exitcode(status)
            errors.seek(0)
            peak = int(errors.read().split()[-1])
        return Run(used.ru_utime + used.ru_stime, peak / 1000, process.returncode)


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--seconds", type=float, nargs="+", default=[2, 5, 20])
    parser.add_argument("--only", default="", help="only problems whose name contains this")
    options = parser.parse_args()
    start = planned([START], options.seconds[0])
    print(f"The start of the program: {start.seconds:.2f} s, {start.megabytes:.0f} MB.\n")
    print("| problem | budget | seconds | without the start | MB | |\n|---|---|---|---|---|---|")
    missed, most, memory = 0, 0.0, 0.0
    for name, files in problems():
        if options.only not in name:
            continue
        for seconds in options.seconds:
            run = planned(files, seconds)
            late, large = run.seconds > seconds + BEYOND, run.megabytes > MOST_MEMORY
            broken = run.status not in (0, 2)
            missed += late or large or broken
            most, memory = max(most, run.seconds - seconds), max(memory, run.megabytes)
            said = [
                word
                for word, is_so in (("LATE", late), ("TOO MUCH MEMORY", large), ("BROKEN", broken))
                if is_so
            ]
            said += ["refused"] if run.status == 2 else []
            print(
                f"| {name} | {seconds:g} s | {run.seconds:.2f} | {run.seconds - start.seconds:.2f} "
                f"| {run.megabytes:.0f} | {', '.join(said)} |",
                flush=True,
            )
    print(f"\nAt most {most:.2f} s beyond the budget and {memory:.0f} MB; {missed} missed.")
    return int(missed > 0)


if __name__ == "__main__":
    raise SystemExit(main())
