"""`figures`: all figures as JSON, or how one was calculated."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.findings import Severity
from generator.verbs.options import OUT_FILE, SPEC
from generator.verbs.saying import deliver, fail, report

if TYPE_CHECKING:
    from generator.figures.workings import Workings


@click.command()
@SPEC
@click.option(
    "--working",
    "path",
    metavar="PATH",
    help="Show how one figure was calculated, such as drawers[0].box_width. Part of a path shows all figures below it.",
)
@OUT_FILE
def figures(spec: Path, path: str | None, out: Path | None) -> int:
    """Print all figures of SPEC as JSON: millimetres, kilograms, plain numbers. Findings go to standard error."""
    from generator.figures.compute import figures_of
    from generator.figures.workings import workings
    from generator.spec.load import read_spec_file
    from generator.spec.record import record_path
    from generator.writers.figures_json import figures_json

    loaded = read_spec_file(spec)
    values, findings = figures_of(loaded)
    to_file = partial(deliver, out=out, source=(spec, record_path(spec)))
    if path is not None:
        return _working(workings(values), path, loaded.spec.units, to_file)
    status = to_file(figures_json(values))
    report([finding for finding in findings if finding.severity > Severity.NOTE])
    return status


def _working(book: Workings, path: str, units: str, to_file: Callable[[str], int]) -> int:
    from generator.findings import nearest
    from generator.writers.working_text import paths_under, working_text

    keys = paths_under(book, path)
    if not keys:
        known = nearest(path, (*book.paths, *book.by_key))
        hint = f"; did you mean '{known}'?" if known else "."
        return fail(f"no figure has the path '{path}'{hint} Use a path from figures.json or from the spec.")
    return to_file(working_text(book, keys, units))
