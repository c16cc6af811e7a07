"""`record`: entries of the build's record, added without an editor."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from pathlib import Path
from typing import Any

import click

from generator.verbs.options import SPEC
from generator.verbs.saying import GOOD, fail

Value = str | tuple[str, ...] | Mapping[str, str]


@click.group(
    epilog="\b\nExample:      bench-manual record my-bench.yml cut B1 1118.5\n"
    "More help:    bench-manual record my-bench.yml cut --help"
)
@SPEC
@click.pass_context
def record(context: click.Context, spec: Path) -> None:
    """Add an entry to the build record of SPEC. The record is the file NAME.record.yml in the folder of SPEC."""
    context.obj = spec


def _entry(act: Callable[..., dict[str, Value]]) -> click.Command:
    """A command of `record`: `act` turns its arguments into what was done, the day and the name are added here."""

    @click.option("--date", metavar="YYYY-MM-DD", help="Day on which it was done. Default: today.")
    @click.option("--by", metavar="NAME", help="Who did it.")
    @wraps(act)
    def add(*, date: str | None, by: str | None, **arguments: Any) -> int:
        import datetime

        from generator.logbook import add_entry

        spec: Path = click.get_current_context().obj
        entry = {"date": date or datetime.date.today().isoformat(), **act(**arguments)}
        if by:
            entry["by"] = by
        try:
            path = add_entry(spec, entry)
        except OSError as error:
            return fail(f"the record of {spec} cannot be written: {error.strerror}")
        click.echo(f"Added to {path}")
        return GOOD

    return record.command(act.__name__)(add)


@_entry
@click.argument("path")
@click.argument("value")
@click.option("--note", metavar="TEXT", help="How it was measured.")
def measured(path: str, value: str, note: str | None) -> dict[str, Value]:
    """Record a measured VALUE. PATH is its key path, such as materials.ply-12.thickness or bays.F1.width."""
    entry: dict[str, Value] = {"measured": {"path": path, "value": value}}
    return {**entry, "note": note} if note else entry


@_entry
@click.argument("mark")
@click.argument("size")
def cut(mark: str, size: str) -> dict[str, Value]:
    """Record the cut of a piece. MARK is its mark; SIZE is one length, or two for a board, such as 443x520."""
    return {"cut": {"mark": mark, "size": size}}


@_entry
@click.argument("marks", nargs=-1, required=True)
def installed(marks: tuple[str, ...]) -> dict[str, Value]:
    """Record that pieces are installed. MARKS are their marks, such as A1 A2."""
    return {"installed": marks}


@_entry
@click.argument("text")
def note(text: str) -> dict[str, Value]:
    """Record a remark in your own words."""
    return {"note": text}


@_entry
@click.argument("file")
@click.option(
    "--alt", required=True, metavar="TEXT", help="What the photo shows, for people who cannot see it."
)
def photo(file: str, alt: str) -> dict[str, Value]:
    """Record a photo. FILE must be in the folder of the spec, or in a folder inside it."""
    return {"photo": {"file": file, "alt": alt}}


@_entry
@click.argument("text")
def verified(text: str) -> dict[str, Value]:
    """Record a check of the finished bench. TEXT says what was checked."""
    return {"verified": text}
