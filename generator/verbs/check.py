"""`check`: what is wrong with a spec, and what to do."""

from __future__ import annotations

from pathlib import Path

import click

from generator.findings import Severity
from generator.verbs.options import SPEC
from generator.verbs.saying import FINDINGS, GOOD, counted, report


@click.command()
@SPEC
def check(spec: Path) -> int:
    """Show what is wrong with SPEC: the line, why it matters, and what to do. Nothing is written.

    Exit status: 0 without warnings and errors, 1 with some, 2 when SPEC cannot be read or its sizes do not add up.
    """
    from generator.figures.compute import figures_of
    from generator.spec.load import read_spec_file
    from generator.spec.texts import texts_of

    loaded = read_spec_file(spec)
    figures, findings = figures_of(loaded)
    if not all(text.isascii() for text, _ in texts_of(loaded)):
        from generator.manual import Manual

        findings += Manual(loaded, figures, spec.name).paper_findings
    report(findings)
    worse = [finding.severity for finding in findings if finding.severity > Severity.NOTE]
    if worse:
        errors = worse.count(Severity.ERROR)
        counts = [counted(errors, "error"), counted(len(worse) - errors, "warning")]
        click.echo(
            f"{spec}: {' and '.join(filter(None, counts))}" + ("; do not cut from it yet" if errors else "")
        )
        return FINDINGS
    click.echo(f"{spec}: no errors and no warnings")
    return GOOD
