"""Arguments and options that several verbs have."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import click

LEAST_BAR, GREATEST_BAR = 98, 102
"""The printed bar of 100 mm measures at least and at most this (mm), else the printer was set to scale."""

SPEC = click.argument("spec", type=click.Path(path_type=Path))


def _bar(
    context: click.Context, option: click.Parameter, value: str | None
) -> tuple[Fraction, Fraction] | None:
    """Measured check bars in mm as exact numbers: along the paper's long side, along its short side."""
    if value is None:
        return None
    try:
        bars = [Fraction(each) for each in value.replace("×", "x").split("x")]
    except (ValueError, ZeroDivisionError):
        raise click.BadParameter(
            f"{value} is neither one number of millimetres nor two, such as 99.7x99.9"
        ) from None
    if len(bars) > 2:
        raise click.BadParameter(f"{value} has {len(bars)} numbers; write one, or two such as 99.7x99.9")
    if not all(LEAST_BAR <= bar <= GREATEST_BAR for bar in bars):
        raise click.BadParameter(
            f"{value} is not between {LEAST_BAR} and {GREATEST_BAR} mm: print at 100 %, without “fit to page”, "
            "then measure the bar of 100 mm again"
        )
    return bars[0], bars[-1]


BAR = click.option(
    "--bar",
    callback=_bar,
    metavar="MM",
    help="Length of the printed check bar of 100 mm on your paper. Full-scale sheets are corrected by it. "
    "If the two bars differ, write the one along the long side of the paper first: 99.7x99.9.",
)
FONT = click.option(
    "--font",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="TrueType or OpenType font file for the PDFs, for letters that the included font does not have.",
)


OUT_FILE = click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write to FILE instead of the screen. An existing file is overwritten.",
)


def _address(context: click.Context, option: click.Parameter, value: str | None) -> str:
    """The address of a published manual or gallery; empty for a private one."""
    if not value:
        return ""
    from generator.spec.site import web_address

    try:
        return web_address(value)
    except ValueError as error:
        raise click.BadParameter(f"{value}: {error}") from None


SITE_URL = click.option(
    "--site-url",
    callback=_address,
    metavar="URL",
    help="Web address where it will be published, such as https://example.org/benches/. Search engines and messengers "
    "then find it, with a picture. Without it the manual is private, or public at the address in its spec.",
)
FOR = click.option(
    "--for",
    "place",
    type=click.Choice(["folder", "web"]),
    default="folder",
    show_default=True,
    help="web: also write OUT/web, for a web server. Each revision stays there beside the newest, as rev-B.",
)


PROCESSES = click.option(
    "--processes",
    type=click.IntRange(1, 2),
    default=1,
    help="2: a second process makes half of the manual. By default 2 where the computer has two cores, else 1.",
)


def default_folder(spec: Path) -> Path:
    """Where a manual goes without --out: below the folder in which the command runs."""
    name = spec.stem if spec.stem.strip(".") else "bench"  # no manual goes into the folder above
    return Path("build") / name
