"""How a verb ends: its exit status, and what it says on standard error."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import click

from generator.findings import Finding

UNREADABLE, FINDINGS, GOOD = 2, 1, 0

SPEC = click.argument("spec", type=click.Path(path_type=Path))


def report(findings: Iterable[Finding]) -> None:
    """Print findings, one a line, on standard error."""
    for finding in findings:
        click.echo(str(finding), err=True)


def fail(message: str) -> int:
    """Say why nothing was done; the status is that of a spec that cannot be used."""
    click.echo(f"bench-manual: {message}", err=True)
    return UNREADABLE
