"""`adapt`: a new spec from an old one, with some values changed, and what no longer fits."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.disk import create
from generator.findings import Finding, Severity, SpecError
from generator.verbs.options import SPEC
from generator.verbs.saying import FINDINGS, GOOD, fail, report

if TYPE_CHECKING:
    from generator.spec.load import LoadedSpec


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
    """Write a new spec from SPEC and list what no longer fits. Comments are kept; SPEC itself is not changed.
    The new spec names the bench that it comes from, with author and licence.
    """
    from generator.spec.adapt import adapted
    from generator.spec.load import checksum_of, read_spec
    from generator.spec.neighbours import texts_in, with_neighbours
    from generator.spec.reader import read_document
    from generator.spec.source import with_source
    from generator.spec.text_file import read_text

    target = out or spec.with_name(f"{spec.stem}-adapted.yml")
    pairs = [tuple(each.partition("=")[::2]) for each in settings]
    wrong = [each for each, (path, value) in zip(settings, pairs, strict=True) if not path or not value]
    if wrong:
        return fail(f"{wrong[0]!r} is not PATH=VALUE; write it as in bench.length=1800")
    old = read_text(spec)
    source = with_source(read_document(old, spec.name).data, checksum_of(old))
    changes = [(path.strip(), value.strip()) for path, value in pairs]
    text = adapted(old, [*changes, ("adapted_from", source)], spec.name)
    near = texts_in(spec.parent)
    loaded = with_neighbours(read_spec(text, target.name), near, read_spec)
    try:
        create(target, text.encode())
    except FileExistsError:
        return fail(f"{target} already exists; nothing was written. Name another file with --out")
    except OSError as error:
        return fail(f"{target} cannot be written: {error.strerror}")
    click.echo(f"Wrote {target}")
    # what the old bench warns of in the same words, with the same values, is no news
    before = {
        _told(finding)
        for finding in _worse(lambda: with_neighbours(read_spec(old, spec.name), near, read_spec))
    }
    worse = [finding for finding in _worse(lambda: loaded) if _told(finding) not in before]
    report(worse)
    if worse:
        click.echo(f"{len(worse)} {'thing no longer fits' if len(worse) == 1 else 'things no longer fit'}")
        return FINDINGS
    as_before = (
        f". {len(before)} {'warning is' if len(before) == 1 else 'warnings are'} as before" if before else ""
    )
    click.echo(f"Everything fits{as_before}")
    return GOOD


def _told(finding: Finding) -> tuple[str, str, str]:
    """What a reader would take for the same finding."""
    return finding.code, finding.message, finding.found


def _worse(spec: Callable[[], LoadedSpec]) -> list[Finding]:
    """The warnings and errors of a bench, or why there is none."""
    from generator.figures.compute import figures_of

    try:
        _, findings = figures_of(spec())
    except SpecError as error:
        findings = error.findings
    return [finding for finding in findings if finding.severity > Severity.NOTE]
