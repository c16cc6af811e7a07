"""`compare`: what differs between two specs, or between a spec and an earlier version of itself."""

from __future__ import annotations

from pathlib import Path

import click

from generator.verbs.saying import GOOD, fail


@click.command()
@click.argument("old", type=click.Path(path_type=Path))
@click.argument("new", type=click.Path(path_type=Path), required=False)
@click.option(
    "--rev",
    metavar="REVISION",
    help="Compare OLD with an earlier version of itself from git, such as HEAD~3.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the comparison as JSON instead of text.")
def compare(old: Path, new: Path | None, rev: str | None, as_json: bool) -> int:
    """Show what changes from OLD to NEW: pieces added, removed and changed, what to cut again, stock and cost."""
    from generator.earlier import EarlierError, earlier_spec
    from generator.figures.compare import compare as differences
    from generator.figures.compute import figures_of
    from generator.spec.load import read_spec_file
    from generator.writers.comparison_text import ComparisonText
    from generator.writers.figures_json import data_json

    if (new is None) == (rev is None):
        return fail("name two specs, or one spec and --rev")
    try:
        before = earlier_spec(old, rev) if rev is not None else read_spec_file(old)
    except EarlierError as error:
        return fail(str(error))
    after = read_spec_file(new or old)
    found = differences(*(figures_of(loaded)[0] for loaded in (before, after)))
    if as_json:
        click.echo(data_json({"empty": found.is_empty, **vars(found)}), nl=False)
    else:
        click.echo(ComparisonText(found).text(), nl=False)
    return GOOD
