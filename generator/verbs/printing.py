"""`print`: the whole manual, or the pages for the shop, as one PDF."""

from __future__ import annotations

from pathlib import Path

import click

from generator.verbs.options import FONT, SPEC, default_folder
from generator.verbs.saying import GOOD, fail, say_waiting, unwritten


@click.command("print")
@SPEC
@click.option(
    "--paper",
    default="A4",
    show_default=True,
    type=click.Choice(["A4", "Letter"], case_sensitive=False),
    help="Paper size.",
)
@click.option(
    "--set",
    "chosen",
    default="full",
    show_default=True,
    type=click.Choice(["full", "shop", "reference"]),
    help="Pages to print: all, those for the shop, or those to look up.",
)
@click.option(
    "--browser",
    metavar="COMMAND",
    help="Chromium browser to print with. Default: the first that is installed.",
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for pages/, site/ and the PDF. Default: build/ and the name of SPEC.",
)
@FONT
def print_(
    spec: Path, paper: str, chosen: str, browser: str | None, out: Path | None, font: Path | None
) -> int:
    """Print the manual of SPEC, or a set of its pages, into one PDF. This needs an installed Chromium browser."""
    from generator.booklet import BookletError, find_browser, print_booklet
    from generator.drawings.paper import PAPERS
    from generator.manual import compile_spec_file
    from generator.output import FolderError, claimed, require_claimable, write_changed
    from generator.pages import SETS
    from generator.prints.print import PrintOptions
    from generator.site import SiteError, build_site, mend_site, require_replaceable

    if out is not None and out.suffix.casefold() == ".pdf" and not out.is_dir():
        return fail(
            f"{out} is the name of a file, and --out names a folder. Write --out {out.with_suffix('')}"
        )
    folder = out or default_folder(spec)
    size = next(each for each in PAPERS if each.name == paper)
    name = "manual" if chosen == "full" else chosen
    pdf = folder / f"{name}-{size.name}.pdf"
    try:
        mend_site(folder / "site")
        require_claimable(folder, "manual")
        require_replaceable(folder / "site")
        found = find_browser(browser)
        files = compile_spec_file(spec, PrintOptions(font=font))
        pages = [(page.title, f"{page.slug}.html") for page in SETS[chosen]]
        with claimed(folder, "manual", say_waiting):
            write_changed(files, folder / "pages")
            build_site(folder / "pages", folder / "site")
            print_booklet(folder / "site", pages, size, pdf, found)
    except (FolderError, SiteError, BookletError) as error:
        return fail(str(error))
    except OSError as error:
        return unwritten(error, folder)
    click.echo(f"Printed {pdf.resolve()}")
    click.echo("Full-scale sheets are separate files: see the page Downloads.")
    return GOOD
