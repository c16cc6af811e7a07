"""What a published manual has beside the private one: a head that the web reads, and files for its machines."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from generator.drawings.corners import draw_corners
from generator.figures.model import Figures
from generator.pages import assembly
from generator.pages.page import Context, Page, drawing_file, page_ruler
from generator.publish.how_to import how_to
from generator.publish.manifest import manifest
from generator.publish.public import CARD_HEIGHT, CARD_WIDTH, Public, about, with_data, with_description
from generator.writers.png import to_png

SITEMAP = """<?xml version="1.0" encoding="UTF-8"?>
<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">
{% for file in pages %}{% set page = file.page or file %}{% if page.canonical_url %}
<url><loc>{{ page.canonical_url | e }}</loc>{LASTMOD}</url>
{% endif %}{% endfor %}
</urlset>
"""
"""The template of the list of pages (sitemaps.org). The site's builder knows the addresses; the date is the spec's.

What is a file with a page to one builder is a page to its successor.
"""


@dataclass(frozen=True)
class Published:
    """A bench and where its manual is published."""

    public: Public
    figures: Figures

    @property
    def facts(self) -> dict[str, str]:
        """What the site must know of it."""
        return {"site_url": self.public.url, "card": self.public.card}

    def page(self, page: Page, text: str, context: Context) -> str:
        """A page of Markdown with its description, and the assembly with its steps as data."""
        if page is assembly.PAGE:
            text = with_data(text, how_to(self.public, self.figures, _pictures(context)))
        return with_description(text, self._description(page))

    def _description(self, page: Page) -> str:
        facts = self.figures.spec
        if not page.purpose:
            return about(self.figures)
        return f"{facts.title}, revision {facts.revision}. {page.title}: {page.purpose}."

    def files(
        self, downloads: Callable[[], Sequence[str]], spec_name: str
    ) -> dict[str, Callable[[], str | bytes]]:
        """The picture, the manifest and the list of pages, and how each is written."""
        date = self.figures.spec.date
        lastmod = f"<lastmod>{date}</lastmod>" if date else ""
        return {
            f"docs/{self.public.card}": self._card,
            "docs/okh.toml": lambda: manifest(self.public, self.figures, downloads(), spec_name),
            "overrides/sitemap.xml": lambda: SITEMAP.replace("{LASTMOD}", lastmod),
        }

    def _card(self) -> bytes:
        if self.public.picture:
            return self.public.picture.data
        return to_png(draw_corners(self.figures, page_ruler(self.figures))[0], CARD_WIDTH, CARD_HEIGHT)


def _pictures(context: Context) -> dict[str, list[str]]:
    """The paths of the steps' drawings, by the step's key."""
    entries = [entry for _, steps in context["stages"] for entry in steps]
    return {
        entry["step"].key: [drawing_file(each["drawing"]) for each in entry["pictures"]] for entry in entries
    }
