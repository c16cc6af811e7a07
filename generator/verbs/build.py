"""`build`: the manual as a folder to open and to keep."""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.findings import Severity
from generator.sharing import Second, second_process
from generator.unchanged import WholeBuild, checksums, forget, key_of, last_build, remember
from generator.verbs.options import BAR, FONT, FOR, PROCESSES, SITE_URL, SPEC, default_folder
from generator.verbs.saying import GOOD, counted, fail, report, say_waiting, unwritten

if TYPE_CHECKING:
    from generator.manual import Manual
    from generator.spec.load import LoadedSpec


@click.command()
@SPEC
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for pages/ and site/. Default: build/ and the name of SPEC, in the current folder.",
)
@BAR
@FONT
@click.option(
    "--against",
    type=click.Path(path_type=Path),
    help="Earlier spec to compare with. Changes get a line in the margin and are listed under Revisions.",
)
@click.option(
    "--rev",
    metavar="REVISION",
    help="Compare with an earlier version of SPEC from git, such as HEAD~1.",
)
@SITE_URL
@FOR
@PROCESSES
def build(
    spec: Path,
    out: Path | None,
    bar: tuple[Fraction, Fraction] | None,
    font: Path | None,
    against: Path | None,
    rev: str | None,
    site_url: str,
    place: str,
    processes: int,
) -> int:
    """Build the manual of SPEC, to open in a browser. OUT/site is the manual. OUT/pages has the same as plain text
    (Markdown) and drawings (SVG), to keep.
    """
    asked = Asked(spec, out or default_folder(spec), bar, font, against, rev, site_url, place)
    click.echo(f"Reading {spec}")
    began, key = time.time_ns(), asked.key()
    made = last_build(asked.folder, key) if rev is None else None
    if made is None:
        with second_process(processes) as second:
            return _build(asked, began, key, second)
    for words in made.findings:
        click.echo(words, err=True)
    _say_pages(asked.folder, 0, made.pages)
    return _end(asked.folder, made)


@dataclass(frozen=True)
class Asked:
    """What a build is asked for."""

    spec: Path
    folder: Path
    bar: tuple[Fraction, Fraction] | None
    font: Path | None
    against: Path | None
    rev: str | None
    site_url: str
    place: str

    def key(self) -> str:
        """Of what is asked and the program, but for the contents of files."""
        files = (each and each.absolute() for each in (self.spec, self.font, self.against))
        return key_of((*files, self.bar, self.site_url, self.place))

    def files(self, loaded: LoadedSpec, earlier: LoadedSpec | None) -> list[Path]:
        """Every file that the manual is made from."""
        found = [self.font] if self.font else []
        for path, read in ((self.spec, loaded), (self.against, earlier)):
            if path and read:
                found += [path.parent / name for name in read.files(path.name)]
        return found


def _build(asked: Asked, began: int, key: str, second: Second | None) -> int:
    """Make the manual, and keep what it was made from."""
    from generator.earlier import EarlierError, earlier_spec
    from generator.manual import begun
    from generator.output import FolderError, claimed, require_claimable
    from generator.prints.print import PrintOptions
    from generator.publish.public import public_of
    from generator.site import SiteError, mend_site, require_replaceable
    from generator.spec.load import read_spec_file

    folder, against = asked.folder, asked.against
    mend_site(folder / "site")
    loaded = read_spec_file(asked.spec)
    if against is not None and asked.rev is not None:
        return fail("use either --against or --rev, not both")
    try:
        earlier = (
            earlier_spec(asked.spec, asked.rev)
            if asked.rev
            else read_spec_file(against)
            if against is not None
            else None
        )
    except EarlierError as error:
        return fail(str(error))
    inputs = None if asked.rev else checksums(asked.files(loaded, earlier), before=began)
    try:
        require_claimable(folder, "manual")
        require_replaceable(folder / "site")
        options, public = PrintOptions(asked.bar, asked.font), public_of(loaded, asked.site_url)
        manual, findings = begun(loaded, asked.spec.name, options, earlier, public, partial(_share, second))
        report(findings)
        errors = sum(finding.severity is Severity.ERROR for finding in findings)
        said = [finding.explained() for finding in findings]
        with claimed(folder, "manual", say_waiting):
            forget(folder)
            pages = _write(folder, manual, second)
            on_web = _publish(folder, loaded) if asked.place == "web" else ""
            made = WholeBuild(key, inputs or {}, pages, said, errors, on_web)
            if inputs:
                remember(folder, made)
    except (FolderError, SiteError) as error:
        return fail(str(error))
    except OSError as error:
        return unwritten(error, folder)
    return _end(folder, made)


def _share(second: Second | None, manual: Manual) -> None:
    """Let the second process help, if there is one."""
    if second and not second.help(manual):
        _say_ended()


def _write(folder: Path, manual: Manual, second: Second | None) -> int:
    """Write pages/ and site/, say how many files, and return it. What the site only links to is made meanwhile."""
    from generator.output import write_changed
    from generator.site import Late, build_site

    @cache
    def files() -> Mapping[str, bytes]:
        if second and not second.finish():
            _say_ended()
        return manual.files()

    pages = folder / "pages"
    written, _ = write_changed(manual.first_files(), pages, manual.late)
    try:
        build_site(pages, folder / "site", Late(manual.late, files))
    finally:
        # without a site too, all pages are of one manual
        more, kept = write_changed(files(), pages)
        _say_pages(folder, written + more, kept - written)
    return len(files())


def _say_ended() -> None:
    click.echo("The second process ended early. The first one made the rest of the manual", err=True)


def _publish(folder: Path, loaded: LoadedSpec) -> str:
    """Put the site into the folder for a web server; what to say of it."""
    from generator.web_folder import Issue, publish

    issue = loaded.spec.revision
    revision = Issue(loaded.spec.title, issue.number, issue.date, issue.reason)
    said = [each.number for each in publish(folder / "site", folder / "web", revision)]
    return f"Put on a web server: {(folder / 'web').resolve()} (revisions {', '.join(said)})"


def _say_pages(folder: Path, written: int, kept: int) -> None:
    click.echo(f"Pages: {written} files written, {kept} unchanged, in {folder / 'pages'}")


def _end(folder: Path, made: WholeBuild) -> int:
    """Say what else there is to say, and where the manual is."""
    if made.on_web:
        click.echo(made.on_web)
    if made.errors:
        words = counted(made.errors, "error")
        click.echo(f"{words}: do not cut from this manual yet; see its page Checks", err=True)
    click.echo(f"Open {(folder / 'site' / 'index.html').resolve()}")
    return GOOD
