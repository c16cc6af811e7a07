"""`adapt`: a new spec from an old one, with some values changed, and what no longer fits."""

from __future__ import annotations

from pathlib import Path

import click

from generator.disk import create
from generator.findings import Severity, SpecError
from generator.verbs.options import SPEC
from generator.verbs.saying import FINDINGS, GOOD, fail, report


@click.command()
@SPEC
@click.option(
    "--set",
    "settings",
    multiple=True,
    required=True,
    metavar="PATH=VALUE",
    help="Key path and new value, such as bench.length=1800. Use --set once for each value.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="File for the new spec. Default: NAME-adapted.yml in the folder of SPEC.",
)
def adapt(spec: Path, settings: tuple[str, ...], out: Path | None) -> int:
    """Write a new spec from SPEC and list what no longer fits. Comments are kept; SPEC itself is not changed."""
    from generator.figures.compute import figures_of
    from generator.spec.adapt import adapted
    from generator.spec.load import read_spec
    from generator.spec.text_file import read_text

    target = out or spec.with_name(f"{spec.stem}-adapted.yml")
    pairs = [tuple(each.partition("=")[::2]) for each in settings]
    wrong = [each for each, (path, value) in zip(settings, pairs, strict=True) if not path or not value]
    if wrong:
        return fail(f"{wrong[0]!r} is not PATH=VALUE; write it as in bench.length=1800")
    text = adapted(read_text(spec), [(path.strip(), value.strip()) for path, value in pairs], spec.name)
    loaded = read_spec(text, target.name)
    try:
        create(target, text.encode())
    except FileExistsError:
        return fail(f"{target} already exists; nothing was written. Name another file with --out")
    except OSError as error:
        return fail(f"{target} cannot be written: {error.strerror}")
    click.echo(f"Wrote {target}")
    try:
        _, findings = figures_of(loaded)
    except SpecError as error:
        findings = error.findings
    worse = [finding for finding in findings if finding.severity > Severity.NOTE]
    report(worse)
    if worse:
        click.echo(f"{len(worse)} {'thing no longer fits' if len(worse) == 1 else 'things no longer fit'}")
        return FINDINGS
    click.echo("Everything fits")
    return GOOD
