"""What a published manual says of itself on every page: where it is, in which words, with which picture."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from generator.figures.model import Figures
from generator.readings import own_reading
from generator.spec.load import LoadedSpec
from generator.spec.photo import Photo
from generator.units.format import format_inch, format_mm

CARD_WIDTH, CARD_HEIGHT = 1200, 630
"""Pixels of the picture that messengers show with a link: 1.91 : 1, as the Open Graph protocol's readers crop it."""


@dataclass(frozen=True)
class Public:
    """The address of a published manual, ending with a stroke; where its spec is developed; its own picture."""

    url: str
    repository: str
    picture: Photo | None = None

    @property
    def card(self) -> str:
        """Path of the picture for messengers, from the first page."""
        return f"assets/card{self.picture.suffix if self.picture else '.png'}"

    def at(self, path: str) -> str:
        """The whole address of a page or a file of the manual."""
        return self.url + quote(path, safe="/#")


def public_of(loaded: LoadedSpec, url: str = "") -> Public | None:
    """How a spec is published: at `url`, else where its key `site.url` says. None for a private manual."""
    site = loaded.spec.site
    url = url or site.url
    return Public(url, site.repository or url, loaded.picture) if url else None


def size_of(figures: Figures) -> str:
    """Length, depth and height of the bench in its own unit."""
    facts, layout = figures.spec, figures.layout
    sizes = (layout.length, layout.depth, layout.height)
    metric = facts.units == "mm"
    said = [format_mm(each) if metric else format_inch(each, facts.inch_fraction) for each in sizes]
    return f"{' × '.join(said)} {facts.units}"


def about(figures: Figures) -> str:
    """The bench in one sentence."""
    return own_reading(
        f"A workshop bench to build, {size_of(figures)}: cut list, drawings of {len(figures.parts)} different parts, "
        f"{len(figures.assembly.steps)} steps of assembly."
    )


def with_description(page: str, description: str) -> str:
    """A page of Markdown whose head has a description."""
    return f"---\ndescription: {json.dumps(description, ensure_ascii=False)}\n---\n\n{page}"


def with_data(page: str, data: Mapping[str, Any]) -> str:
    """A page of Markdown with data for machines below it (JSON-LD), on one line that Markdown leaves alone."""
    return f'{page}\n<script type="application/ld+json">{data_line(data)}</script>\n'


def data_line(data: Mapping[str, Any]) -> str:
    """JSON that cannot end the element that it is in."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")
