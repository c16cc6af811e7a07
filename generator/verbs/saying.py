"""How a verb ends: its exit status, and what it says on standard error."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

import click

from generator.disk import put
from generator.findings import Finding

UNREADABLE, FINDINGS, GOOD = 2, 1, 0


def report(findings: Iterable[Finding]) -> None:
    """Print findings on standard error, with the line of the spec and why they matter."""
    for finding in findings:
        click.echo(finding.explained(), err=True)


def deliver(text: str, out: Path | None, source: Sequence[Path] = ()) -> int:
    """Print `text`, or write it to the file `out`, which may be there already but is none of `source`."""
    if out is None:
        click.echo(text, nl=False)
        return GOOD
    target = out.resolve()
    if target in [path.resolve() for path in source]:
        return fail(
            f"{out} is the input of this command and is not overwritten. Name another file with --out"
        )
    if target.exists() and not target.is_file():
        target.write_text(text, encoding="utf-8")  # a device or a pipe
    else:
        put(target, text.encode())
    click.echo(f"Wrote {out}")
    return GOOD


def fail(message: str) -> int:
    """Say why nothing was done; the status is that of a spec that cannot be used."""
    click.echo(f"bench-manual: {message}", err=True)
    return UNREADABLE


def unwritten(error: OSError, what: object) -> int:
    """Say which file could not be written, else that `what` could not; some systems keep a file that is open."""
    name = error.filename or what
    held = isinstance(error, PermissionError) and Path(str(name)).exists()
    way_out = ". If a viewer or another program has it open, close it there and try again" if held else ""
    return fail(f"{name} cannot be written: {error.strerror}{way_out}")


def counted(count: int, what: str) -> str:
    """1 error, 2 errors; nothing for none."""
    return f"{count} {what}{'' if count == 1 else 's'}" if count else ""


def say_waiting() -> None:
    """Say that another process writes where this one is to write."""
    click.echo("Another bench-manual is writing into this folder. Waiting until it is done", err=True)
