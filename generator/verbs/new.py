"""`new`: a starter spec with its schema beside it."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

import click

from generator.verbs.saying import GOOD, fail, report

#: The samples, and what their bays can be for: those of `spec.samples`, which is not read before it is needed.
LIKE = ("wall-bench", "island", "cart", "outfeed", "assembly", "desk", "joiner", "lumber", "row")
STORE = ("as it is", "tools", "boxes", "sheets", "nothing")


@click.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--units",
    default="mm",
    show_default=True,
    type=click.Choice(["mm", "in"]),
    help="Unit of lengths without a unit.",
)
@click.option(
    "--bays",
    default=2,
    show_default=True,
    type=click.IntRange(2, 8),
    help="Number of bays, from left to right.",
)
@click.option(
    "--from",
    "cards",
    multiple=True,
    metavar="CARD",
    help='Typical data card to write out in full, such as "profile 40", ready for your own values. Use --from once for '
    "each card. An unknown name prints the list.",
)
@click.option(
    "--like",
    type=click.Choice(LIKE),
    help="Begin with one of nine invented benches, in the size that you give, and check it before it is written. In a "
    "terminal, --like asks for what you leave out.",
)
@click.option("--length", help="With --like: outside length of the frame, such as 1800 or 6 ft.")
@click.option("--depth", help="With --like: outside depth of the frame.")
@click.option("--height", help="With --like: from the floor to the work surface.")
@click.option(
    "--store",
    type=click.Choice(STORE),
    help="With --like: what the bays are for.",
)
def new(
    file: Path,
    units: str,
    bays: int,
    cards: tuple[str, ...],
    like: str | None,
    length: str | None,
    depth: str | None,
    height: str | None,
    store: str | None,
) -> int:
    """Write a commented starter spec to FILE. It builds without changes. An existing file is never overwritten."""
    size = {"length": length, "depth": depth, "height": height}
    if like is None and (any(size.values()) or store):
        return fail("--length, --depth, --height and --store go with --like; nothing was written")
    if like is not None and cards:
        return fail("--from does not go with --like; nothing was written")
    try:
        text = _starter(units, bays, cards) if like is None else _sample(like, size, store)
    except _UnusableError as error:
        return fail(str(error))
    return _written(file, text)


class _UnusableError(Exception):
    """What was asked for gives no spec; the message says why."""


def _starter(units: str, bays: int, cards: tuple[str, ...]) -> str:
    from generator.findings import nearest
    from generator.spec.cards import typical_cards
    from generator.writers.starter import starter_text
    from generator.writers.starter_goods import UnsuitedCardsError

    names = [name for entries in typical_cards().values() for name in entries]
    for name in cards:
        if name not in names:
            near = nearest(name, names)
            hint = f"; did you mean '{near}'?" if near else ""
            raise _UnusableError(f"no typical card has the name '{name}'{hint} Use one of {', '.join(names)}")
    try:
        return starter_text(units, bays, cards)
    except UnsuitedCardsError as error:
        raise _UnusableError(f"{error}; nothing was written") from None


def _sample(name: str, size: Mapping[str, str | None], store: str | None) -> str:
    """A sample by the answers, without an error; asks for what is left out where someone can answer."""
    from generator.figures.compute import figures_of
    from generator.findings import Severity, SpecError
    from generator.spec.load import read_spec
    from generator.spec.samples import AS_IT_IS, like, sample_size
    from generator.writers.starter import SCHEMA_FILE

    asks = sys.stdin.isatty()
    given = {key: value for key, value in size.items() if value}
    if asks:
        own = sample_size(name)
        missing = [key for key in size if key not in given]
        given |= {key: click.prompt(key.capitalize(), default=own[key]) for key in missing}
        store = store or click.prompt("What is stored", default=AS_IT_IS, type=click.Choice(STORE))
    try:
        text = like(name, given, store or AS_IT_IS)
        _, findings = figures_of(read_spec(text, f"{name}.yml"))
    except SpecError as error:
        findings = tuple(error.findings)
    errors = [finding for finding in findings if finding.severity is Severity.ERROR]
    if errors:
        report(errors)
        raise _UnusableError("a bench of this size has errors; nothing was written")
    return f"# yaml-language-server: $schema={SCHEMA_FILE}\n{text}"


def _written(file: Path, text: str) -> int:
    from generator.disk import create
    from generator.spec.editor_schema import schema_json
    from generator.writers.starter import SCHEMA_FILE

    try:
        create(file, text.encode())
    except FileExistsError:
        return fail(f"{file} already exists; nothing was written. Name another file")
    except OSError as error:
        return fail(f"{error.filename or file} cannot be written: {error.strerror}")
    try:
        with suppress(FileExistsError):
            create(file.parent / SCHEMA_FILE, schema_json().encode())
    except OSError as error:
        file.unlink()
        return fail(f"{error.filename} cannot be written: {error.strerror}")
    click.echo(
        f"Wrote {file}, and {SCHEMA_FILE} in the same folder: with it your editor completes and explains the keys."
    )
    click.echo(f"Next: bench-manual serve {file}   (or build, for a folder to keep)")
    return GOOD
