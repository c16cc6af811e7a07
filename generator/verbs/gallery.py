"""`gallery`: the manuals of several specs in one site, with a page of cards."""

from __future__ import annotations

from pathlib import Path

import click

from generator.verbs.options import FOR, SITE_URL
from generator.verbs.saying import GOOD, fail, say_waiting, unwritten


@click.command()
@click.argument("specs", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default=Path("build/gallery"),
    show_default=True,
    help="Folder for pages/ and site/.",
)
@SITE_URL
@FOR
def gallery(specs: tuple[Path, ...], out: Path, site_url: str, place: str) -> int:
    """Build the manuals of SPECS into one site, with a card for each. Manuals without changes are not built again."""
    from generator.gallery import GalleryError, build_gallery
    from generator.output import FolderError
    from generator.site import SiteError

    try:
        cards, built = build_gallery(specs, out, say_waiting, site_url, place == "web")
    except (FolderError, GalleryError, SiteError) as error:
        return fail(str(error))
    except OSError as error:
        return unwritten(error, out)
    click.echo(f"{len(cards)} manuals, {len(built)} built{': ' if built else ''}{', '.join(built)}")
    if place == "web":
        click.echo(f"Put on a web server: {(out / 'web').resolve()}")
    click.echo(f"Open {(out / 'site' / 'index.html').resolve()}")
    return GOOD
