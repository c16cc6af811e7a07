"""`cuts`: bars or sheets to cut, for cutting problems and benches."""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.verbs.cut_files import read_cut_files
from generator.verbs.saying import GOOD, report

if TYPE_CHECKING:
    from generator.calculators.cutting.core import WorkBudget


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the plan as JSON instead of a table.")
@click.option(
    "--seconds",
    default=5.0,
    show_default=True,
    type=click.FloatRange(0.1, 3600),
    help="About how long to search for a better plan. It is counted as work, so every computer finds the same plan.",
)
@click.option(
    "--progress/--no-progress",
    default=None,
    help="Show how much of the search is done (on standard error). Default: only in a terminal.",
)
def cuts(files: tuple[Path, ...], as_json: bool, seconds: float, progress: bool | None) -> int:
    """Plan how to cut bars or sheets. A file of FILES (YAML or JSON) is a cutting problem or the spec of a bench.

    A cutting problem lists your stock and the pieces:

    \b
    units: mm                                # or in
    stock: [[6000, 54], {length: 1480, limit: 2, price: 0}]   # length, price
    kerf: 4
    trim: 10                                 # off both ends of a bar
    pieces: [[725, 4], [1920, 4]]            # length, how many

    \b
    For sheets, in place of `stock`:
    sheets: [[2440, 1220, 75]]               # length, width, price
    pieces: [[520, 509, 3], [1940, 896, 1, 0]]    # ..., how many, 0: may not turn
    stages: 3                                # rip, cross, trim; or free
    least_feed: 300                          # the shortest part that goes through the saw
    shop_rules: yes                          # no: slivers and sizes that are left over count as good

    \b
    Several files are planned together, with one shopping list:
      bench-manual cuts bench.yml other-bench.yml problem.yml
    Each piece has the name of its file before its mark. Files share the plan of a material if they say the same
    about material, stock and saw. For this, a problem must name its material:

    \b
    material: {name: ply-12, thickness: 12}  # bars: {name: bar, section: 40}
    """
    from generator.figures.combined_cuts import plan_combined, shared_materials
    from generator.figures.cut_solution import plan_problem, solution_data
    from generator.writers.combined_text import combined_data, combined_text
    from generator.writers.cuts_text import cuts_text

    read = read_cut_files(files)
    began = time.perf_counter()
    if read.problem:
        problem = read.problem
        with _search(problem.name, seconds, progress) as budget:
            plan = plan_problem(problem, budget)
        data, text = solution_data(problem, plan), cuts_text(problem, plan)
    else:
        materials, apart = shared_materials(read.demands)
        report((*read.findings, *apart))
        with _search("all files", seconds, progress) as budget:
            combined = plan_combined(materials, budget)
        units = read.demands[0].problem.units if read.demands else "mm"
        data, text = combined_data(combined, units), combined_text(combined, units)
    took = round(time.perf_counter() - began, 3)
    click.echo(json.dumps({**data, "seconds": took}, ensure_ascii=False) if as_json else text.rstrip())
    return GOOD


@contextmanager
def _search(name: str, seconds: float, progress: bool | None) -> Iterator[WorkBudget]:
    """The budget of a search, and its progress on standard error where that is wanted."""
    from generator.calculators.cutting.core import WatchedBudget, budget_for

    budget = budget_for(seconds)
    if not (sys.stderr.isatty() if progress is None else progress):
        yield budget
        return
    _tell(name, 0)
    try:
        yield WatchedBudget(budget.left, lambda spent: _tell(name, spent))
    finally:
        click.echo(err=True)


def _tell(name: str, spent: int) -> None:
    """Write progress over the line before."""
    click.echo(f"\rPlanning {name}: {spent} % of the search done".replace("  ", " "), err=True, nl=False)
