"""`new`: a starter spec with its schema beside it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import click

from generator.verbs.saying import GOOD, fail


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
def new(file: Path, units: str, bays: int, cards: tuple[str, ...]) -> int:
    """Write a commented starter spec to FILE. It builds without changes. An existing file is never overwritten."""
    from generator.disk import create
    from generator.findings import nearest
    from generator.spec.cards import typical_cards
    from generator.spec.editor_schema import schema_json
    from generator.writers.starter import SCHEMA_FILE, starter_text
    from generator.writers.starter_goods import UnsuitedCardsError

    names = [name for entries in typical_cards().values() for name in entries]
    for name in cards:
        if name not in names:
            near = nearest(name, names)
            hint = f"; did you mean '{near}'?" if near else ""
            return fail(f"no typical card has the name '{name}'{hint} Use one of {', '.join(names)}")
    try:
        text = starter_text(units, bays, cards)
    except UnsuitedCardsError as error:
        return fail(f"{error}; nothing was written")
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
