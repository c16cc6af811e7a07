"""`cuts`: bars or sheets to cut, for cutting problems and benches."""

from __future__ import annotations

import json
import shlex
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from generator.verbs.cut_files import CutFiles, read_cut_files
from generator.verbs.cut_store import CHANGED, StoredPlan, mark_of
from generator.verbs.saying import GOOD, fail, report

if TYPE_CHECKING:
    from generator.calculators.cutting.core import WatchedBudget
    from generator.figures.combined_cuts import CombinedPlan
    from generator.spec.cut_problem import CutProblem

USUAL_SECONDS = 5.0

#: Seconds of the processor beyond those of the search after which it ends on a slow machine: from the start of the
#: command, and at least from that of the search. What is written then takes the rest of two seconds; ten thousand
#: pieces need more, so each takes a little from the search, of which a quarter is left at least. Measured.
SPARE_SECONDS, LEAST_SPARE, SECONDS_A_PIECE = 1.0, 0.25, 0.00025

STOPPED = (
    "The search took longer than expected on this computer and was stopped. "
    "The plan is right, but another run may find another one."
)


HELP = """Plan how to cut bars or sheets. A file of FILES (YAML or JSON) is a cutting problem or the spec of a bench.

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
least_feed: 300                          # the shortest part that may go through the saw
shop_rules: yes                          # no: allow slivers, and edges without their own cut
break_down: {max_length: 1500, allowance: 5, kerf: 2.2}   # longer parts are cut by track saw first

\b
For boards that differ, each with its knots as [along, across, length, width]:
sheets: [{width: 2400, height: 210, defects: [[600, 40, 80, 60]]}, [1800, 180]]
clear: 5                                 # what stays free around a defect

\b
Several files are planned together, with one shopping list:
  bench-manual cuts bench.yml other-bench.yml problem.yml
Each piece has the name of its file before its mark. Files share the plan of a material if they say the same
about material, stock and saw. For this, a problem must name its material:

\b
material: {name: ply-12, thickness: 12}  # bars: {name: bar, section: 40}
least_offcut: [300, 150]                 # the smallest off-cut that is kept; bars: 300

\b
A store of off-cuts is a file that you can write too:
offcuts:
- {material: {name: ply-12, thickness: 12}, length: 1220, width: 492, count: 2}
- {material: {name: bar, section: 40}, length: 1706}
Off-cuts are used for a material with this name, kind and size. The grain runs along the length.
"""


@dataclass(frozen=True)
class Search:
    """About how long to search, whether to show how far it is (None: only in a terminal), and what else ends it."""

    seconds: float
    progress: bool | None
    began: float
    """When the command began, in seconds of the processor."""
    again: bool = False
    """Whether the plan is to be made again: then nothing but the work that is counted ends the search."""

    @contextmanager
    def budget(self, name: str, pieces: int) -> Iterator[WatchedBudget]:
        """The budget of a search for so many pieces, and its progress on standard error where that is wanted.

        Where the machine takes more time than is counted, the search ends by the time of the processor.
        """
        from generator.calculators.cutting.core import WatchedBudget, budget_for

        units = budget_for(self.seconds).left
        now = time.process_time()
        end = self.seconds + max(self.began + SPARE_SECONDS, now + LEAST_SPARE)
        end = max(end - pieces * SECONDS_A_PIECE, now + self.seconds / 4)
        late = None if self.again else lambda: time.process_time() > end
        if not (sys.stderr.isatty() if self.progress is None else self.progress):
            budget = WatchedBudget(units, late=late)
            yield budget
        else:
            _tell(name, 0)
            budget = WatchedBudget(units, lambda spent: _tell(name, spent), late)
            try:
                yield budget
            finally:
                click.echo(err=True)
        if budget.stopped:
            click.echo(STOPPED, err=True)


def _tell(name: str, spent: int) -> None:
    """Write progress over the line before."""
    click.echo(f"\rPlanning {name}: {spent} % of the search done".replace("  ", " "), err=True, nl=False)


@click.command(help=HELP)
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the plan as JSON instead of a table.")
@click.option(
    "--seconds",
    default=USUAL_SECONDS,
    show_default=True,
    type=click.FloatRange(0.1, 3600),
    help="About how long to search for a better plan. It is counted as work, so every computer finds the same plan. "
    "Without --store, a slow computer stops after this time too.",
)
@click.option(
    "--progress/--no-progress",
    default=None,
    help="Show how much of the search is done (on standard error). Default: only in a terminal.",
)
@click.option(
    "--store",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Take off-cuts from this file first. It is not changed before you say --cut, and need not exist yet.",
)
@click.option(
    "--cut",
    "mark",
    metavar="MARK",
    help="Say that the plan with this mark is cut: used off-cuts leave the file of --store, new ones are added. "
    "It is refused if that file has changed since.",
)
def cuts(
    files: tuple[Path, ...],
    as_json: bool,
    seconds: float,
    progress: bool | None,
    store: Path | None,
    mark: str | None,
) -> int:
    """Plan, show, and write back when it is cut."""
    began = time.process_time()
    read = read_cut_files(files, store)
    if mark is not None and store is None:
        return fail("--cut needs --store: name the file of the off-cuts")
    if mark is not None and mark.partition("-")[0] != mark_of(read.store_before):
        return fail(CHANGED.format(store))
    search = Search(seconds, progress, began, again=store is not None)
    if read.problem:
        data, text = _alone(read.problem, search, as_json)
    elif store is None:
        data, text, _ = _together(read, search, as_json)
    else:
        data, text, combined = _together(read, search, as_json)
        stored = StoredPlan(store, read, combined, data)
        if mark is not None:
            return stored.write_back(mark)
        command = ["bench-manual", "cuts", *map(str, files), "--store", str(store)]
        command += [] if seconds == USUAL_SECONDS else ["--seconds", f"{seconds:g}"]
        data, text = stored.shown(text, shlex.join([*command, "--cut", stored.mark]))
    took = round(time.process_time() - began, 3)
    click.echo(json.dumps({**data, "seconds": took}, ensure_ascii=False) if as_json else text.rstrip())
    return GOOD


def _alone(problem: CutProblem, search: Search, as_json: bool) -> tuple[dict[str, Any], str]:
    """The plan of one cutting problem, as data or as text."""
    from generator.figures.cut_solution import plan_problem, solution_data
    from generator.writers.cuts_text import cuts_text

    with search.budget(problem.name, _pieces(problem)) as budget:
        plan = plan_problem(problem, budget)
    if not as_json:
        return {}, cuts_text(problem, plan)
    return {**solution_data(problem, plan), **_stopped(budget)}, ""


def _together(read: CutFiles, search: Search, as_json: bool) -> tuple[dict[str, Any], str, CombinedPlan]:
    """The plans of all files as data, and as text unless it is not asked for."""
    from generator.figures.combined_cuts import plan_combined, shared_materials
    from generator.writers.combined_text import combined_data, combined_text

    materials, apart = shared_materials(read.demands)
    report((*read.findings, *apart))
    with search.budget("all files", sum(_pieces(each.problem) for each in read.demands)) as budget:
        combined = plan_combined(materials, budget, read.store.offcuts if read.store else ())
    text = "" if as_json else combined_text(combined, read.units)
    return {**combined_data(combined, read.units), **_stopped(budget)}, text, combined


def _pieces(problem: CutProblem) -> int:
    return sum(each.count for each in problem.bar_pieces) + sum(each.count for each in problem.sheet_pieces)


def _stopped(budget: WatchedBudget) -> dict[str, bool]:
    """`stopped`, where another run may find another plan."""
    return {"stopped": True} if budget.stopped else {}
