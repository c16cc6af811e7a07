"""`cuts`: bars or sheets to cut, without a bench."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from generator.verbs.saying import GOOD


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
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
def cuts(file: Path, as_json: bool, seconds: float, progress: bool | None) -> int:
    """Plan how to cut bars or sheets, without a bench. FILE (YAML or JSON) lists your stock and the pieces:

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
    """
    import json
    import time

    from generator.calculators.cutting.core import WatchedBudget, budget_for
    from generator.figures.cut_solution import plan_problem, solution_data
    from generator.spec.cut_problem import read_cut_problem
    from generator.spec.text_file import read_text
    from generator.writers.cuts_text import cuts_text

    problem = read_cut_problem(read_text(file), file.name)
    budget = budget_for(seconds)
    told = sys.stderr.isatty() if progress is None else progress
    if told:
        budget = WatchedBudget(budget.left, lambda spent: _tell(problem.name, spent))
        _tell(problem.name, 0)
    began = time.perf_counter()
    try:
        plan = plan_problem(problem, budget)
    finally:
        if told:
            click.echo(err=True)
    took = round(time.perf_counter() - began, 3)
    if as_json:
        click.echo(json.dumps({**solution_data(problem, plan), "seconds": took}, ensure_ascii=False))
    else:
        click.echo(cuts_text(problem, plan).rstrip())
    return GOOD


def _tell(name: str, spent: int) -> None:
    """Write progress over the line before."""
    click.echo(f"\rPlanning {name}: {spent} % of the search done".replace("  ", " "), err=True, nl=False)
