"""`build`: the manual as a folder to open and to keep."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import click

from generator.findings import Severity
from generator.verbs.options import BAR, FONT, FOR, SITE_URL, SPEC, default_folder
from generator.verbs.saying import GOOD, counted, fail, report, say_waiting, unwritten


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
def build(
    spec: Path,
    out: Path | None,
    bar: tuple[Fraction, Fraction] | None,
    font: Path | None,
    against: Path | None,
    rev: str | None,
    site_url: str,
    place: str,
) -> int:
    """Build the manual of SPEC, to open in a browser. OUT/site is the manual. OUT/pages has the same as plain text
    (Markdown) and drawings (SVG), to keep.
    """
    from generator.earlier import EarlierError, earlier_spec
    from generator.manual import compile_loaded
    from generator.output import FolderError, claimed, require_claimable, write_changed
    from generator.prints.print import PrintOptions
    from generator.publish.public import public_of
    from generator.site import SiteError, build_site, mend_site, require_replaceable
    from generator.spec.load import read_spec_file
    from generator.web_folder import Issue, publish

    folder = out or default_folder(spec)
    click.echo(f"Reading {spec}")
    mend_site(folder / "site")
    loaded = read_spec_file(spec)
    if against is not None and rev is not None:
        return fail("use either --against or --rev, not both")
    try:
        earlier = earlier_spec(spec, rev) if rev else read_spec_file(against) if against else None
    except EarlierError as error:
        return fail(str(error))
    try:
        require_claimable(folder, "manual")
        require_replaceable(folder / "site")
        files, findings = compile_loaded(
            loaded, spec.name, PrintOptions(bar, font), earlier, public_of(loaded, site_url)
        )
        report(findings)
        with claimed(folder, "manual", say_waiting):
            written, kept = write_changed(files, folder / "pages")
            click.echo(f"Pages: {written} files written, {kept} unchanged, in {folder / 'pages'}")
            build_site(folder / "pages", folder / "site")
            if place == "web":
                issue = loaded.spec.revision
                revision = Issue(loaded.spec.title, issue.number, issue.date, issue.reason)
                said = [each.number for each in publish(folder / "site", folder / "web", revision)]
                click.echo(f"Put on a web server: {(folder / 'web').resolve()} (revisions {', '.join(said)})")
    except (FolderError, SiteError) as error:
        return fail(str(error))
    except OSError as error:
        return unwritten(error, folder)
    if errors := sum(finding.severity is Severity.ERROR for finding in findings):
        click.echo(
            f"{counted(errors, 'error')}: do not cut from this manual yet; see its page Checks", err=True
        )
    click.echo(f"Open {(folder / 'site' / 'index.html').resolve()}")
    return GOOD
