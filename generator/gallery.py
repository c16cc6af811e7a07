"""A gallery: the manuals of several specs in one site, with a page of cards. What did not change is not built again."""

from __future__ import annotations

import hashlib
import json
import shutil
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding, SpecError
from generator.manual import compile_manual, drawing_file
from generator.output import write_changed
from generator.pages import overview
from generator.pages.page import page_ruler
from generator.resources import bundled
from generator.site import build_site
from generator.spec.load import LoadedSpec, read_spec_file
from generator.units import format_fixed, format_inch, format_mm

KEPT = ".bench-manual-gallery.json"
"""Says for each manual what it was built from, and its card."""

KG_PER_LB = 0.45359237


class GalleryError(Exception):
    """Specs that make no gallery; the text says why."""


@dataclass(frozen=True)
class Card:
    """What the page of cards says of a manual, ready to print. `picture` and `link` lead from that page."""

    name: str
    title: str
    designer: str
    licence: str
    revision: str
    size: str
    mass: str
    cost: str
    state: str
    picture: str
    picture_says: str
    link: str


def build_gallery(specs: Sequence[Path], folder: Path) -> tuple[list[Card], list[str]]:
    """Build `folder`/site with the manual of each spec and index.html. Returns the cards and the names that were built.

    Every spec is read and solved before anything is written. Raises SpecError with the faults of all, GalleryError when
    two have one name, SiteError and OSError as the building of a site does.
    """
    names = [spec.stem for spec in specs]
    if twice := {name for name in names if names.count(name) > 1}:
        raise GalleryError(
            f"two specs have the name {sorted(twice)[0]}; a manual's folder is named by its spec"
        )
    loaded = _read_all(specs)
    kept = _kept(folder)
    program = _program()
    cards: list[Card] = []
    built: list[str] = []
    for spec, each in zip(specs, loaded, strict=True):
        name, source = spec.stem, _source(each, program)
        site = folder / "site" / name
        if kept.get(name, {}).get("source") != source or not (site / "index.html").is_file():
            figures = compute(each, solve(each))[0]
            write_changed(compile_manual(each, figures, spec.name), folder / "pages" / name)
            build_site(folder / "pages" / name, site)
            kept[name] = {"source": source, "card": asdict(_card(name, figures))}
            built.append(name)
        cards.append(Card(**kept[name]["card"]))
    for gone in kept.keys() - set(names):
        for place in ("site", "pages"):
            shutil.rmtree(folder / place / gone, ignore_errors=True)
        del kept[gone]
    write_changed({"index.html": _index(cards)}, folder / "site")
    write_changed({KEPT: json.dumps(kept, indent=1, sort_keys=True).encode()}, folder)
    return cards, built


def _read_all(specs: Sequence[Path]) -> list[LoadedSpec]:
    loaded: list[LoadedSpec] = []
    faults: list[Finding] = []
    for spec in specs:
        try:
            each = read_spec_file(spec)
            solve(each)
            loaded.append(each)
        except SpecError as error:
            faults += error.findings
    if faults:
        raise SpecError(faults)
    return loaded


def _kept(folder: Path) -> dict[str, Any]:
    try:
        data = json.loads((folder / KEPT).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return data if isinstance(data, dict) else {}


def _source(loaded: LoadedSpec, program: str) -> str:
    """All that a manual is made from, in short."""
    digest = hashlib.sha256(f"{program}\n{loaded.text}\n{loaded.record.text}\n".encode())
    for name, photo in sorted(loaded.record.photos.items()):
        digest.update(name.encode() + photo.data)
    return digest.hexdigest()


def _program() -> str:
    """The program's own files: another version builds another manual."""
    digest = hashlib.sha256()
    folders = (Path(__file__).resolve().parent, bundled("site_templates"), bundled("specs"))
    for folder in folders:
        for path in sorted(folder.rglob("*")):
            if path.is_file() and path.suffix != ".pyc":
                digest.update(path.read_bytes())
    return digest.hexdigest()


def _card(name: str, figures: Figures) -> Card:
    layout, facts = figures.layout, figures.spec
    metric = facts.units == "mm"
    sizes = (layout.length, layout.depth, layout.height)
    size = " × ".join(format_mm(v) if metric else format_inch(v, facts.inch_fraction) for v in sizes)
    weight = figures.mass.empty if metric else figures.mass.empty / KG_PER_LB
    front = overview.context(figures, page_ruler(figures))["front"]
    return Card(
        name=name,
        title=facts.title,
        designer=facts.designer,
        licence=facts.licence,
        revision=facts.revision,
        size=f"{size} {facts.units}",
        mass=f"{format_fixed(weight, 0)} {'kg' if metric else 'lb'}",
        cost=_cost(figures),
        state=figures.record.state if figures.record else "draft",
        picture=f"{name}/{drawing_file(front)}",
        picture_says=front.title,
        link=f"{name}/index.html",
    )


def _cost(figures: Figures) -> str:
    """What the shopping list comes to; how many of its lines have no price. Empty without any price."""
    total = figures.purchase_total
    if not total.cost:
        return ""
    more = f", {len(total.unpriced)} lines without a price" if total.unpriced else ""
    return f"{format_fixed(total.cost, 0)} {figures.spec.currency}".strip() + more


def _index(cards: Sequence[Card]) -> bytes:
    environment = Environment(
        loader=FileSystemLoader(bundled("site_templates")),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template("gallery.html.jinja").render(cards=cards).encode()
