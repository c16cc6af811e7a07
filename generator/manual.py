"""`compile_manual`: a spec and its figures in, every file of the manual's MkDocs project out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property, partial
from pathlib import Path
from typing import Any
from urllib.parse import quote

from jinja2 import Environment
from markupsafe import Markup

from generator.drawings.canvas import Drawing, drawings_in
from generator.drawings.cut_paths import cut_files
from generator.drawings.lettering import PAGE_WIDTH
from generator.drawings.solid_scene import SolidScene, solid_scene
from generator.figures.cautions import cautions_for
from generator.figures.compare import by_need, compare
from generator.figures.comparison import Comparison
from generator.figures.compute import figures_of
from generator.figures.model import Figures
from generator.figures.record import photo_files
from generator.findings import Finding
from generator.names import manual_id, pack_name, spec_file
from generator.pages import CHAPTERS, PAGES, menu_counts
from generator.pages.formulas import FormulaPrinter
from generator.pages.glossary import explained
from generator.pages.literal import literal, to_paste
from generator.pages.made import DrawnAlone, MadePage
from generator.pages.page import NO_SLIM, Context, Page, Slim, drawing_file, page_ruler, part_links, ruler_for
from generator.pages.printing import Printer, finished
from generator.pages.shares import DrawnSteps, StepShares
from generator.papers import AS_DRAWN, paper_files, paper_names
from generator.prints import print_rows, sticks
from generator.prints.print import PrintOptions, stamp_of
from generator.publish.public import Public
from generator.publish.published import Published
from generator.resources import bundled
from generator.spec.load import LoadedSpec, read_spec_file
from generator.spec.record import record_path
from generator.templating import filled, page_environment
from generator.writers.cut_list_csv import cut_list_csv
from generator.writers.dxf import to_dxf
from generator.writers.figures_json import figures_json
from generator.writers.glb import to_glb
from generator.writers.left_out import left_out, may_lack_letters
from generator.writers.letters import LettersError
from generator.writers.pack import pack
from generator.writers.paper_css import paper_css
from generator.writers.plans_csv import plans_csv
from generator.writers.scene_js import to_scene_js
from generator.writers.stock_yaml import stock_lines
from generator.writers.svg import Svg, drawing_css, to_svg


def compile_spec_file(path: Path, options: PrintOptions = AS_DRAWN) -> Mapping[str, bytes]:
    """The manual of a spec file. Raises SpecError when the spec cannot be read, solved or printed."""
    return begun(read_spec_file(path), path.name, options)[0].files()


def compile_loaded(
    loaded: LoadedSpec, spec_name: str, against: LoadedSpec | None = None
) -> tuple[Mapping[str, bytes], tuple[Finding, ...]]:
    """The files of a manual, and the findings about it, as `begun` gives them."""
    manual, findings = begun(loaded, spec_name, against=against)
    return manual.files(), findings


def begun(
    loaded: LoadedSpec,
    spec_name: str,
    options: PrintOptions = AS_DRAWN,
    against: LoadedSpec | None = None,
    public: Public | None = None,
    begin: Callable[[Manual], None] = lambda manual: None,
) -> tuple[Manual, tuple[Finding, ...]]:
    """The manual of a spec that was read, and the findings about it; a `public` one is made to be found on the web.

    What differs from an earlier version, `against`, gets a bar beside it. `begin` may make parts of it elsewhere.
    """
    figures, findings = figures_of(loaded)
    changes = compare(figures_of(against)[0], figures) if against else None
    manual = Manual(loaded, figures, spec_name, options, changes, public)
    begin(manual)
    return manual, (*findings, *manual.paper_findings)


def compile_manual(
    loaded: LoadedSpec,
    figures: Figures,
    spec_name: str,
    options: PrintOptions = AS_DRAWN,
    changes: Comparison | None = None,
    public: Public | None = None,
) -> Mapping[str, bytes]:
    """Relative path -> bytes. The same spec gives the same bytes."""
    return Manual(loaded, figures, spec_name, options, changes, public).files()


Papers = tuple[dict[str, bytes], tuple[Finding, ...]]
"""The PDFs, or why there are none."""
Made = MadePage | DrawnSteps | Papers
PAPERS_JOB, IN_SHARES, NAMES_ALL = "papers", "assembly", "downloads"
"""A job beside the pages; the page made from shares; the page that names the drawings of all others."""


class Manual:
    """The manual of one spec. Nothing is made before it is asked for, so a page alone is quick."""

    def __init__(
        self,
        loaded: LoadedSpec,
        figures: Figures,
        spec_name: str,
        options: PrintOptions = AS_DRAWN,
        changes: Comparison | None = None,
        public: Public | None = None,
    ) -> None:
        self.given = (loaded, figures, spec_name, options, changes, public)
        self.published = Published(public, figures) if public else None
        self.loaded, self.figures, self.options = loaded, figures, options
        self.spec_name = spec_file(spec_name)
        self.changes = changes
        self._contexts: dict[str, Context] = {}
        self._svgs: dict[str, Svg] = {}
        self._pages: dict[str, MadePage] = {}
        self._steps = StepShares(figures, self._svg, self._svgs)

    @property
    def facts(self) -> dict[str, Any]:
        """What the site must know of the manual: its name, the key of what it keeps on a device, its unit, its menu."""
        spec = self.figures.spec
        own: dict[str, Any] = {"site_name": spec.title, "manual_id": manual_id(spec.title)}
        own |= {"unit": spec.units, "counts": menu_counts(self.figures)}
        return own | (self.published.facts if self.published else {})

    @property
    def jobs(self) -> Sequence[str]:
        """Parts that can be made apart from each other and that the site waits for, the largest at the end."""
        pages = [page.slug for page in PAGES if page.slug not in (IN_SHARES, NAMES_ALL)]
        return [*([] if self.late else [PAPERS_JOB]), *pages, *self._steps.jobs]

    @property
    def later_jobs(self) -> Sequence[str]:
        """Parts that can be made while the site is built."""
        return [PAPERS_JOB] if self.late else []

    @cached_property
    def late(self) -> Sequence[str]:
        """Paths of the files that the site only links to: the papers and the pack, where they are sure to be made."""
        unsure = self.options.font or may_lack_letters(self.loaded)
        return [] if unsure else [*paper_names(), self._pack_path]

    def make(self, job: str) -> Made:
        """One of the `jobs`: a value that another process can `take`."""
        if job == PAPERS_JOB:
            return self._paper
        if job in self._steps.jobs:
            return self._steps.make(job)
        page = next(each for each in PAGES if each.slug == job)
        drawn = (DrawnAlone(each.id, each.title, self._alone(each)) for each in self._drawn(page))
        return MadePage(self.page(page), tuple(drawn))

    def take(self, job: str, made: Made) -> None:
        """What was made of this manual elsewhere."""
        if isinstance(made, MadePage):
            self._pages[job] = made
        elif isinstance(made, DrawnSteps):
            self._steps.take(made)
        else:
            self._paper = made

    def page(self, page: Page) -> str:
        """One page as Markdown."""
        if page.slug in self._pages:
            return self._pages[page.slug].text
        text = self._environment.get_template(page.template).render(self._context(page))
        made = finished(text if page.about_specs else explained(text))
        return self.published.page(page, made, self._context(page)) if self.published else made

    def first_files(self) -> Mapping[str, bytes]:
        """Relative path -> bytes of every file but the `late` ones."""
        return self._written if self.late else self.files()

    def files(self) -> Mapping[str, bytes]:
        """Relative path -> bytes of every file."""
        files = self._written | self._paper[0]
        return files | {self._pack_path: self._pack(files)}

    @cached_property
    def _written(self) -> dict[str, bytes]:
        return {path: _as_bytes(write()) for path, write in self._writers.items()}

    @property
    def _pack_path(self) -> str:
        return f"docs/downloads/{pack_name(self.spec_name)}"

    def _pack(self, files: Mapping[str, bytes]) -> bytes:
        """What a stranger needs: the downloads (spec, record, figures, papers), drawings, photos as shown, cards.

        The specs of benches that are bolted to this one are beside its own.
        """
        found = {
            name.removeprefix("docs/").removeprefix("downloads/"): data
            for name, data in files.items()
            if name.startswith(("docs/downloads/", "docs/drawings/"))
        }
        beside = {name: photo.data for name, photo in self.loaded.record.photos.items()}
        beside |= {name: other.text.encode() for name, other in self.loaded.neighbours.items()}
        cards = (bundled("specs") / "cards.yml").read_bytes()
        readme = (bundled("site_templates") / "pack-readme.txt").read_bytes()
        return pack(
            found | beside | {"cards.yml": cards, "README.txt": readme}, folder=Path(self.spec_name).stem
        )

    def file(self, path: str) -> bytes | None:
        """One file; None, with nothing made, when the manual has none of this path."""
        if path == self._pack_path:
            return self.files()[path]
        if path in paper_names():
            return self._paper[0].get(path)
        write = self._texts().get(path) or self._writers.get(path)
        return _as_bytes(write()) if write else None

    @cached_property
    def _writers(self) -> Mapping[str, Callable[[], str | bytes]]:
        """Every file but the papers and the pack, and how it is written."""
        photos = {file: self.loaded.record.photos[name] for name, file in photo_files(self.loaded).items()}
        return {
            **self._texts(),
            **{
                f"docs/downloads/{name}": partial(str, text) for name, text in plans_csv(self.figures).items()
            },
            **{f"docs/{drawing_file(each)}": partial(self._alone, each) for each in self._drawings.values()},
            **{f"docs/{file}": partial(to_dxf, paths) for file, paths in cut_files(self.figures).items()},
            **{f"docs/{_piece_file(piece)}": partial(self._alone, piece) for piece in self._pieces},
            **{f"docs/{file}": partial(bytes, photo.data) for file, photo in photos.items()},
            **{path: partial(bytes, data) for path, data in _assets()},
            "docs/downloads/bench.glb": lambda: to_glb(self._scene),
            **(self.published.files(self._downloads, self.spec_name) if self.published else {}),
        }

    def _downloads(self) -> list[str]:
        """Paths of all downloads, from the first page."""
        names = [*self._writers, *(self.late or (*self._paper[0], self._pack_path))]
        return [name.removeprefix("docs/") for name in names if name.startswith("docs/downloads/")]

    def _texts(self) -> dict[str, Callable[[], str]]:
        """Files whose names are the same for every bench, and how each is written."""
        return {
            "mkdocs.yml": lambda: _configuration(self.facts),
            "docs/assets/paper.css": lambda: paper_css(stamp_of(self.figures)),
            "docs/assets/bench.js": lambda: to_scene_js(self._scene, part_links(self.figures)),
            f"docs/downloads/{self.spec_name}": lambda: self.loaded.text,
            "docs/downloads/figures.json": lambda: figures_json(self.figures),
            "docs/downloads/cut-list.csv": lambda: cut_list_csv(self.figures),
            **{f"docs/{page.file}": partial(self.page, page) for page in PAGES},
            **self._record_text(),
        }

    def _record_text(self) -> dict[str, Callable[[], str]]:
        text = self.loaded.record.text
        return {f"docs/downloads/{record_name(self.spec_name)}": lambda: text} if text else {}

    def _context(self, page: Page) -> Context:
        if page.slug not in self._contexts:
            self._contexts[page.slug] = self._steps.context(page)
        return self._contexts[page.slug]

    def _drawn(self, page: Page) -> Sequence[Drawing | DrawnAlone]:
        made = self._pages.get(page.slug)
        return made.drawings if made else list(drawings_in(self._context(page)))

    @cached_property
    def _drawings(self) -> Mapping[str, Drawing | DrawnAlone]:
        return {each.id: each for page in PAGES for each in self._drawn(page)}

    @cached_property
    def _pieces(self) -> Sequence[Drawing]:
        return sticks.pieces(self.figures, ruler_for(self.figures))

    @cached_property
    def _scene(self) -> SolidScene:
        return solid_scene(self.figures, page_ruler(self.figures))

    def _svg(self, drawing: Drawing) -> Svg:
        """A drawing as it is written, once for its page and its file."""
        if drawing.id not in self._svgs:
            self._svgs[drawing.id] = to_svg(drawing)
        return self._svgs[drawing.id]

    def _alone(self, drawing: Drawing | DrawnAlone) -> str:
        return drawing.alone if isinstance(drawing, DrawnAlone) else self._svg(drawing).alone

    def _figure(
        self, drawing: Drawing, caption: str = "", wide: bool = False, slim: Slim = NO_SLIM
    ) -> Markup:
        """A drawing in the page, on one line so that Markdown leaves it alone, with a link to its own file."""
        style = "bm-drawing bm-wide" if wide else "bm-drawing"
        style += " bm-lying" if drawing.width > PAGE_WIDTH else ""
        words = f"{literal(caption)} " if caption else ""
        link = f'<a href="{_target(drawing_file(drawing))}">Drawing alone</a>'
        picture = f'<div class="bm-scroll">{self._svg(drawing).inline}</div>'
        if slim.drawing:
            style += " bm-both"
            picture += f'<div class="bm-slim">{self._svg(slim.drawing).inline}</div>'
        return Markup(f'<figure class="{style}">{picture}<figcaption>{words}{link}</figcaption></figure>')

    @cached_property
    def _paper(self) -> Papers:
        try:
            return paper_files(self.figures, self.options), ()
        except LettersError as error:
            return {}, left_out(error.letters, self.loaded)

    @property
    def paper_findings(self) -> tuple[Finding, ...]:
        """Why the PDFs are left out: letters of the spec that no font has."""
        return self._paper[1] if may_lack_letters(self.loaded) else ()  # for most specs no print is needed

    @cached_property
    def _environment(self) -> Environment:
        environment = page_environment()
        printer = Printer(self.figures, page_ruler(self.figures), self.changes)
        environment.filters |= printer.filters() | {
            "figure": self._figure,
            "target": _target,
            "stock_lines": lambda offcuts: to_paste(
                stock_lines(offcuts, self.figures.spec.units, self.figures.spec.inch_fraction)
            ),
        }
        environment.filters |= FormulaPrinter(page_ruler(self.figures), printer.workings).filters()
        environment.globals |= {
            "figures": self.figures,
            "goods": self.figures.goods,
            "workings": printer.workings,
            "unit": printer.unit,
            "unit_word": printer.unit_word,
            "unit_note": printer.unit_note,
            "other_unit": printer.other_unit,
            "chapters": CHAPTERS,
            "cautions": cautions_for(self.figures.stand.facts),
            "stand": self.figures.stand.facts,
            "on": self.figures.stand.load,
            "spec_name": self.spec_name,
            "changes": self.changes,
            "changed_parts": by_need(self.changes.parts if self.changes else ()),
            "known": [past.checksum for past in self.figures.spec.history],
            "pack_file": pack_name(self.spec_name),
            "record_file": record_name(self.spec_name) if self.loaded.record.text else "",
            # asked for by the page of downloads alone
            "print_rows": print_rows,
            "paper_findings": lambda: self.paper_findings,
            "cut_files": lambda: [(cut.words[0], file) for file, cut in cut_files(self.figures).items()],
            "stick_files": lambda: [(piece.title, _piece_file(piece)) for piece in self._pieces],
            "drawing_files": lambda: [(each.title, drawing_file(each)) for each in self._drawings.values()],
        }
        return environment


def _as_bytes(made: str | bytes) -> bytes:
    return made.encode() if isinstance(made, str) else made


def record_name(spec_name: str) -> str:
    """Name of the record's file beside a spec."""
    return record_path(Path(spec_name)).name


def frame_files() -> Mapping[str, bytes]:
    """The project of a manual whose pages are empty, for a site that gets each page when it is asked for."""
    texts = {f"docs/{page.file}": f"# {page.title}\n" for page in PAGES}
    texts |= {"docs/assets/paper.css": "", "docs/assets/bench.js": ""}
    texts["mkdocs.yml"] = _configuration({"site_name": "bench", "manual_id": "bench", "unit": "mm"})
    return {path: text.encode() for path, text in texts.items()} | dict(_assets())


def _configuration(facts: Mapping[str, Any]) -> str:
    parts = [(part.title, [(page.title, page.file) for page in part.pages]) for part in CHAPTERS]
    nav = [(PAGES[0].title, PAGES[0].file), *parts]
    return filled("mkdocs.yml.jinja", **facts, nav=nav)


def _piece_file(drawing: Drawing) -> str:
    return f"downloads/{drawing.id}.svg"


def _target(path: str) -> Markup:
    """Where a link leads, as a link has it: Markdown's own signs in it stay as they are."""
    return Markup(quote(path))


def _assets() -> Iterable[tuple[str, bytes]]:
    templates = bundled("site_templates")
    yield "docs/assets/drawings.css", drawing_css().encode()
    for path in sorted((templates / "assets").iterdir()):
        yield f"docs/assets/{path.name}", path.read_bytes()
    for path in sorted((templates / "overrides").rglob("*.html")):
        yield path.relative_to(templates).as_posix(), path.read_bytes()
