"""A gallery: the manuals of several specs in one site, with a page of cards. What did not change is not built again."""

from __future__ import annotations

import hashlib
import json
import shutil
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, field
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import Any

from generator.bench.solve import solve
from generator.disk import is_plain_file
from generator.figures.compute import figures_of
from generator.figures.model import Figures
from generator.findings import Finding, SpecError
from generator.manual import compile_manual
from generator.names import file_stems
from generator.output import (
    claimed,
    mark,
    remove_written,
    require_claimable,
    require_no_link,
    write_changed,
)
from generator.pages import overview
from generator.pages.page import drawing_file, page_ruler
from generator.publish.how_to import CONTEXT, summary
from generator.publish.public import Public, data_line, public_of, size_of
from generator.resources import bundled
from generator.site import build_site, clear_left_over, is_site
from generator.spec.load import LoadedSpec, read_spec_file
from generator.spec.record import is_record
from generator.units.format import format_fixed
from generator.units.sizes import KG_PER_LB
from generator.web_folder import Issue, publish, rendered

KEPT = ".bench-manual-gallery.json"
"""Says for each manual what it was built from, and its card."""


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
    date: str
    reason: str
    card: str = ""
    """Path of the picture for messengers in a published manual, from its first page."""
    data: dict[str, Any] = field(default_factory=dict)
    """What a published manual says to machines."""


@dataclass(frozen=True)
class _Kept:
    """What a manual was built from, in short, and its card."""

    source: str
    card: Card


def build_gallery(
    specs: Sequence[Path], folder: Path, on_wait: Callable[[], None], url: str = "", web: bool = False
) -> tuple[list[Card], list[str]]:
    """Build `folder`/site with the manual of each spec and index.html. Returns the cards and the names that were built.

    `url` is where the gallery is published; `web` makes `folder`/web for it, with all revisions of each manual.
    Records are left out: each belongs to its spec. Every spec is read and solved before anything is written; `on_wait`
    is called when another process is writing there.
    Raises SpecError with the faults of all, GalleryError when two have one name, FolderError, SiteError and OSError as
    the building of a site does.
    """
    specs = [spec for spec in specs if not is_record(spec)]
    stems = [spec.stem for spec in specs]
    if twice := {name for name in stems if stems.count(name) > 1}:
        raise GalleryError(
            f"two specs have the name {sorted(twice)[0]}; rename one: its manual's folder has the same name"
        )
    names = file_stems(spec.name for spec in specs)
    require_claimable(folder, "gallery")
    loaded = _read_all(specs)
    program = _program()
    with claimed(folder, "gallery", on_wait):
        require_no_link(folder / "pages")
        mark(folder / "site")
        shelf = _Shelf(folder, url)
        built = [
            name
            for name, spec, each in zip(names, specs, loaded, strict=True)
            if shelf.build(name, spec, each, _source(each, f"{program} {url}"))
        ]
        shelf.clear(keep=names)
        cards = [shelf.kept[name].card for name in names]
        write_changed({"index.html": _index(cards, url)}, folder / "site")
        if web:
            _publish(cards, folder, url)
    return cards, built


def _publish(cards: Sequence[Card], folder: Path, url: str) -> None:
    """The gallery for a web server: each manual with its revisions. Manuals that were published before stay."""
    for card in cards:
        revision = Issue(card.title, card.revision, card.date, card.reason)
        publish(folder / "site" / card.name, folder / "web" / card.name, revision)
    pages = {
        "index.html": _index(cards, url, web=True),
        "404.html": rendered("not-found.html.jinja", url=url),
    }
    write_changed(pages, folder / "web")


class _Shelf:
    """The manuals in a gallery's folder."""

    def __init__(self, folder: Path, url: str) -> None:
        self.folder, self.url, self.kept = folder, url, _kept(folder)

    def build(self, name: str, spec: Path, loaded: LoadedSpec, source: str) -> bool:
        """Build a manual under a name; False when it is there and made from the same source."""
        pages, site = self._places(name)
        if name in self.kept and self.kept[name].source == source and (site / "index.html").is_file():
            return False
        figures = figures_of(loaded)[0]
        public = public_of(loaded, f"{self.url}{name}/" if self.url else "")
        write_changed(compile_manual(loaded, figures, spec.name, public=public), pages)
        build_site(pages, site)
        self.kept[name] = _Kept(source, _card(name, figures, public))
        self._note()
        return True

    def clear(self, keep: Sequence[str]) -> None:
        """Remove the manuals that a former run built and that are no longer asked for, as far as they bear our mark."""
        for name in self.kept.keys() - set(keep):
            pages, site = self._places(name)
            clear_left_over(site)
            if is_site(site):
                shutil.rmtree(site)
            remove_written(pages)
            del self.kept[name]
        self._note()

    def _places(self, name: str) -> tuple[Path, Path]:
        return self.folder / "pages" / name, self.folder / "site" / name

    def _note(self) -> None:
        data = {name: asdict(each) for name, each in self.kept.items()}
        write_changed({KEPT: json.dumps(data, indent=1, sort_keys=True).encode()}, self.folder)


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


def _kept(folder: Path) -> dict[str, _Kept]:
    """What a former run noted. What it cannot have written is passed over: the manual is built anew."""
    try:
        data = json.loads((folder / KEPT).read_bytes()) if is_plain_file(folder / KEPT) else {}
        return {
            name: _Kept(each["source"], Card(**each["card"])) for name, each in data.items() if _is_name(name)
        }
    except (OSError, ValueError, TypeError, LookupError, AttributeError):
        return {}


def _is_name(name: str) -> bool:
    """Whether this names a folder here, on every system."""
    alone = PurePosixPath(name).name == name and PureWindowsPath(name).name == name
    return alone and name not in ("", "..") and "\0" not in name


def _source(loaded: LoadedSpec, program: str) -> str:
    """All that a manual is made from, in short."""
    digest = hashlib.sha256(f"{program}\n{loaded.text}\n{loaded.record.text}\n".encode())
    for name, photo in sorted(loaded.record.photos.items()):
        digest.update(name.encode() + photo.data)
    digest.update(loaded.picture.data if loaded.picture else b"")
    for name, other in sorted(loaded.neighbours.items()):
        digest.update(f"{name}\n{other.text}\n".encode())
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


def _card(name: str, figures: Figures, public: Public | None) -> Card:
    facts = figures.spec
    metric = facts.units == "mm"
    weight = figures.mass.empty if metric else figures.mass.empty / KG_PER_LB
    front = overview.context(figures, page_ruler(figures))["front"]
    return Card(
        name=name,
        title=facts.title,
        designer=facts.designer,
        licence=facts.licence,
        revision=facts.revision,
        size=size_of(figures),
        mass=f"{format_fixed(weight, 0)} {'kg' if metric else 'lb'}",
        cost=_cost(figures),
        state=figures.record.state if figures.record else "draft",
        picture=f"{name}/{drawing_file(front)}",
        picture_says=front.title,
        link=f"{name}/index.html",
        date=facts.date,
        reason=facts.reason,
        card=public.card if public else "",
        data=summary(public, figures) if public else {},
    )


def _cost(figures: Figures) -> str:
    """What the shopping list comes to; how many of its lines have no price. Empty without any price."""
    total = figures.purchase_total
    if not total.cost:
        return ""
    more = f", {len(total.unpriced)} lines without a price" if total.unpriced else ""
    return f"{format_fixed(total.cost, 0)} {figures.spec.currency}".strip() + more


def _index(cards: Sequence[Card], url: str, web: bool = False) -> bytes:
    """The page of cards; a published one says what it is to machines too."""
    says = f"Build manuals of workshop benches: {', '.join(card.title for card in cards)}."
    data = {
        "@context": CONTEXT,
        "@type": "CollectionPage",
        "name": "Benches to build",
        "url": url,
        "hasPart": [card.data for card in cards],
    }
    return rendered("gallery.html.jinja", cards=cards, url=url, web=web, says=says, data=data_line(data))
