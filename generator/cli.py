"""The command line: verbs and options, findings as text, an exit status. Imports late, so that help is fast."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.findings import Finding, Severity, SpecError
from generator.verbs import VERBS

if TYPE_CHECKING:
    from generator.figures.working import Workings

UNREADABLE, FINDINGS, GOOD = 2, 1, 0

LEAST_BAR, GREATEST_BAR = 98, 102
"""A printer that is further off than so many mm in 100 was told to scale."""

_SPEC = click.argument("spec", type=click.Path(path_type=Path))


def _bar(
    context: click.Context, option: click.Parameter, value: str | None
) -> tuple[Fraction, Fraction] | None:
    """Measured check bars in mm as exact numbers: along the paper's long side, along its short side."""
    if value is None:
        return None
    try:
        bars = [Fraction(each) for each in value.replace("×", "x").split("x")]
    except (ValueError, ZeroDivisionError):
        raise click.BadParameter(f"{value} is not a number of millimetres, nor two as in 99.7x99.9") from None
    if len(bars) > 2:
        raise click.BadParameter(f"{value} names {len(bars)} bars: one, or two as in 99.7x99.9")
    if not all(LEAST_BAR <= bar <= GREATEST_BAR for bar in bars):
        raise click.BadParameter(
            f"{value} is not within {LEAST_BAR} to {GREATEST_BAR} mm: print at 100 % without fitting to the page, "
            "then measure the bar of 100 mm again"
        )
    return bars[0], bars[-1]


_BAR = click.option(
    "--bar",
    callback=_bar,
    metavar="MM",
    help="What the printed check bar of 100 mm measures on your paper; full-scale sheets are drawn to make up for it. "
    "Where the two differ: the bar along the paper's long side x the one along its short side, as 99.7x99.9.",
)
_FONT = click.option(
    "--font",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="TrueType or OpenType file with letters that the shipped font lacks, for the PDFs.",
)


class _InOrder(click.Group):
    """Commands in the order of the work, each with its first sentence whole."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.commands)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(
                [
                    (name, f"{(each.help or '').partition('. ')[0].rstrip('.')}.")
                    for name, each in self.commands.items()
                ]
            )


@click.group(
    cls=_InOrder,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="\b\nBegin with   bench-manual new my-bench.yml\nthen         bench-manual serve my-bench.yml\n"
    "More of each: bench-manual COMMAND --help",
)
@click.version_option(package_name="bench-manual")
def commands() -> None:
    """Turn a bench spec into a build manual."""


@commands.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--units",
    default="mm",
    show_default=True,
    type=click.Choice(["mm", "in"]),
    help="What a length without a unit is in.",
)
@click.option(
    "--bays", default=2, show_default=True, type=click.IntRange(2, 8), help="Bays from left to right."
)
@click.option(
    "--from",
    "cards",
    multiple=True,
    metavar="CARD",
    help='A typical data card to write out in full, for your own values, such as "profile 40"; may be given more than '
    "once. A name that is none lists them all.",
)
def new(file: Path, units: str, bays: int, cards: tuple[str, ...]) -> int:
    """Write a commented starter spec to FILE. It builds as it is; nothing is overwritten."""
    from generator.findings import nearest
    from generator.spec.cards import typical_cards
    from generator.spec.json_schema import schema_json
    from generator.writers.starter import SCHEMA_FILE, starter_text

    names = [name for entries in typical_cards().values() for name in entries]
    for name in cards:
        if name not in names:
            near = nearest(name, names)
            hint = f"; did you mean '{near}'?" if near else ""
            return _fail(f"no typical card is called '{name}'{hint} There are: {', '.join(names)}")
    schema = file.parent / SCHEMA_FILE
    try:
        with file.open("x", encoding="utf-8") as target:
            target.write(starter_text(units, bays, cards))
        if not schema.exists():
            schema.write_text(schema_json(), encoding="utf-8")
    except FileExistsError:
        return _fail(f"{file} is there already; nothing was written")
    except OSError as error:
        return _fail(f"{error.filename or file} cannot be written: {error.strerror}")
    click.echo(
        f"Wrote {file}, and beside it {SCHEMA_FILE}, by which an editor completes and explains the keys."
    )
    click.echo(f"Next: bench-manual serve {file}   (or build, for a folder to keep)")
    return GOOD


@commands.command()
@_SPEC
def check(spec: Path) -> int:
    """Say what is wrong with SPEC, in which line, why it matters, and what to do. Nothing is written.

    The exit status is 0 when there is nothing worse than a note, 1 with warnings or errors, 2 when SPEC cannot be read
    or does not add up.
    """
    from generator.bench.solve import solve
    from generator.figures.compute import compute
    from generator.spec.load import read_spec_file

    loaded = read_spec_file(spec)
    _, findings = compute(loaded, solve(loaded))
    _report(findings)
    worse = [finding.severity for finding in findings if finding.severity > Severity.NOTE]
    if worse:
        errors = worse.count(Severity.ERROR)
        told = [_counted(errors, "error"), _counted(len(worse) - errors, "warning")]
        click.echo(
            f"{spec}: {' and '.join(filter(None, told))}" + ("; do not cut by it yet" if errors else "")
        )
        return FINDINGS
    click.echo(f"{spec}: nothing worse than a note")
    return GOOD


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}" if count else ""


@commands.command()
@_SPEC
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for pages/ and site/; by default build/ and the name of SPEC, in the folder where you are.",
)
@_BAR
@_FONT
@click.option(
    "--against",
    type=click.Path(path_type=Path),
    help="Earlier spec; what differs from it gets a bar beside it and stands under Revisions.",
)
@click.option(
    "--rev",
    metavar="REVISION",
    help="The same with SPEC as it was at this revision, such as HEAD~1, where it is kept in git.",
)
def build(
    spec: Path,
    out: Path | None,
    bar: tuple[Fraction, Fraction] | None,
    font: Path | None,
    against: Path | None,
    rev: str | None,
) -> int:
    """Build the manual of SPEC, to open in a browser. OUT/site is the manual; OUT/pages is the same as plain text
    (Markdown) and drawings (SVG), to keep.
    """
    from generator.earlier import EarlierError, earlier_spec
    from generator.manual import compile_loaded
    from generator.output import write_changed
    from generator.prints.print import PrintOptions
    from generator.site import SiteError, build_site, require_replaceable
    from generator.spec.load import read_spec_file

    folder = out or default_folder(spec)
    click.echo(f"Reading {spec}")
    loaded = read_spec_file(spec)
    if against is not None and rev is not None:
        return _fail("name --against or --rev, not both")
    try:
        earlier = earlier_spec(spec, rev) if rev else read_spec_file(against) if against else None
    except EarlierError as error:
        return _fail(str(error))
    try:
        require_replaceable(folder / "site")
        files, findings = compile_loaded(loaded, spec.name, PrintOptions(bar, font), earlier)
        _report(findings)
        written, kept = write_changed(files, folder / "pages")
        click.echo(f"Pages: {written} files written, {kept} unchanged in {folder / 'pages'}")
        build_site(folder / "pages", folder / "site")
    except SiteError as error:
        return _fail(str(error))
    except OSError as error:
        return _fail(f"{error.filename or folder} cannot be written: {error.strerror}")
    if errors := sum(finding.severity is Severity.ERROR for finding in findings):
        click.echo(
            f"{_counted(errors, 'error')}: do not cut by this manual yet, see its page Checks", err=True
        )
    click.echo(f"Open {(folder / 'site' / 'index.html').resolve()}")
    return GOOD


@commands.command("print")
@_SPEC
@click.option(
    "--paper",
    default="A4",
    show_default=True,
    type=click.Choice(["A4", "Letter"], case_sensitive=False),
    help="Size of the paper.",
)
@click.option(
    "--browser", metavar="COMMAND", help="Chromium browser to print with; by default the first installed."
)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    help="Folder for pages/, site/ and the PDF; by default build/ and the name of SPEC.",
)
@_FONT
def print_(spec: Path, paper: str, browser: str | None, out: Path | None, font: Path | None) -> int:
    """Print the whole manual of SPEC into one PDF, with a Chromium browser that is installed."""
    from generator.booklet import BookletError, find_browser, print_booklet
    from generator.drawings.paper import PAPERS
    from generator.manual import compile_spec_file
    from generator.output import write_changed
    from generator.pages import PAGES
    from generator.prints.print import PrintOptions
    from generator.site import SiteError, build_site, require_replaceable

    folder = out or default_folder(spec)
    size = next(each for each in PAPERS if each.name == paper)
    pdf = folder / f"manual-{size.name}.pdf"
    try:
        require_replaceable(folder / "site")
        found = find_browser(browser)
        write_changed(compile_spec_file(spec, PrintOptions(font=font)), folder / "pages")
        build_site(folder / "pages", folder / "site")
        pages = [(page.title, f"{page.slug}.html") for page in PAGES]
        print_booklet(folder / "site", pages, size, pdf, found)
    except (SiteError, BookletError) as error:
        return _fail(str(error))
    except OSError as error:
        return _fail(f"{error.filename or folder} cannot be written: {error.strerror}")
    click.echo(f"Printed {pdf.resolve()}")
    click.echo("Sheets at full scale are files of their own: see Downloads.")
    return GOOD


@commands.command()
@_SPEC
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option("--lan", is_flag=True, help="Let other devices on this network read along, such as a tablet.")
@click.option(
    "--port",
    default=8000,
    show_default=True,
    type=click.IntRange(0, 65535),
    help="Number at the end of the address; 0 takes any that is free.",
)
@_BAR
@_FONT
def serve(
    spec: Path, host: str, lan: bool, port: int, bar: tuple[Fraction, Fraction] | None, font: Path | None
) -> int:
    """Show the manual of SPEC in the browser and follow every change of the spec; nothing is written."""
    from generator.bench.solve import solve
    from generator.figures.compute import compute
    from generator.live import ANYWHERE, network_address, serve_live
    from generator.manual import Manual
    from generator.prints.print import PrintOptions
    from generator.site import SiteError
    from generator.spec.load import read_spec_file
    from generator.spec.reader import read_text
    from generator.spec.record import record_path

    read_text(spec)  # a spec with faults is served and followed; a name that is no file was misspelt

    def compile_spec() -> Manual:
        loaded = read_spec_file(spec)
        values, _ = compute(loaded, solve(loaded))
        return Manual(loaded, values, spec.name, PrintOptions(bar, font))

    def ready(url: str) -> None:
        click.echo(f"Serving {url} until Ctrl+C")
        if lan or host == ANYWHERE:
            address = network_address()
            place = f"http://{address}:{url.rsplit(':', 1)[1]}" if address else "no network was found"
            click.echo(f"On this network: {place} (whoever is on it can read the manual)")

    try:
        serve_live(
            compile_spec,
            [spec, record_path(spec)],
            ANYWHERE if lan else host,
            port,
            on_ready=ready,
            on_fault=lambda message: click.echo(message, err=True),
        )
    except SiteError as error:
        return _fail(str(error))
    return GOOD


@commands.command()
@_SPEC
@click.option(
    "--working",
    "path",
    metavar="PATH",
    help="Instead, how one figure came about, such as drawers[0].box_width; a part of a path shows all below it.",
)
def figures(spec: Path, path: str | None) -> int:
    """Print all figures of SPEC as JSON: millimetres, kilograms, plain numbers. Findings go to standard error."""
    from generator.bench.solve import solve
    from generator.figures.compute import compute
    from generator.figures.working import workings
    from generator.spec.load import read_spec_file
    from generator.writers.figures_json import figures_json

    loaded = read_spec_file(spec)
    values, findings = compute(loaded, solve(loaded))
    if path is not None:
        return _working(workings(values), path, loaded.spec.units)
    click.echo(figures_json(values), nl=False)
    _report([finding for finding in findings if finding.severity > Severity.NOTE])
    return GOOD


def _working(book: Workings, path: str, units: str) -> int:
    from generator.findings import nearest
    from generator.writers.working_text import paths_under, working_text

    keys = paths_under(book, path)
    if not keys:
        known = nearest(path, (*book.paths, *book.by_key))
        hint = f"; did you mean '{known}'?" if known else "."
        return _fail(
            f"no figure has the path '{path}'{hint} The paths are those of figures.json and of the spec."
        )
    click.echo(working_text(book, keys, units), nl=False)
    return GOOD


@commands.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the plan as JSON instead of a table.")
@click.option(
    "--seconds",
    default=5.0,
    show_default=True,
    type=click.FloatRange(0.1, 3600),
    help="About how long to look for a better plan; counted as work, so that each machine finds the same one.",
)
@click.option(
    "--progress/--no-progress",
    default=None,
    help="Tell on standard error how much of the budget is spent; by default on a terminal.",
)
def cuts(file: Path, as_json: bool, seconds: float, progress: bool | None) -> int:
    """Plan how to cut bars or sheets, without a bench. FILE (YAML or JSON) says what there is and what you need:

    \b
    units: mm                                # or in
    stock: [[6000, 54], {length: 1480, limit: 2, price: 0}]   # length, price
    kerf: 4
    trim: 10                                 # off both ends of a bar
    pieces: [[725, 4], [1920, 4]]            # length, how many

    \b
    For sheets, in place of `stock`:
    sheets: [[2440, 1220, 75]]               # length, width, price
    pieces: [[520, 509, 3], [1940, 896, 1, 0]]    # ..., how many, 0: may not turn
    """
    import json
    import time

    from generator.calculators.effort import WatchedEffort, effort_for
    from generator.figures.cut_solution import plan_problem, solution_data
    from generator.spec.cut_problem import read_cut_problem
    from generator.spec.reader import read_text
    from generator.writers.cuts_text import cuts_text

    problem = read_cut_problem(read_text(file), file.name)
    effort = effort_for(seconds)
    told = sys.stderr.isatty() if progress is None else progress
    if told:
        effort = WatchedEffort(effort.left, lambda spent: _tell(problem.name, spent))
        _tell(problem.name, 0)
    began = time.perf_counter()
    try:
        plan = plan_problem(problem, effort)
    finally:
        if told:
            click.echo(err=True)
    took = round(time.perf_counter() - began, 3)
    if as_json:
        click.echo(json.dumps({**solution_data(problem, plan), "seconds": took}, ensure_ascii=False))
    else:
        click.echo(cuts_text(problem, plan).rstrip())
    return GOOD


@commands.command()
def schema() -> int:
    """Print the JSON Schema of the spec language, for editors."""
    from generator.spec.json_schema import schema_json

    click.echo(schema_json(), nl=False)
    return GOOD


for verb in VERBS:
    commands.add_command(verb)


def _tell(name: str, spent: int) -> None:
    """Write progress over the line before."""
    click.echo(f"\rPlanning {name}: {spent} % of the budget spent".replace("  ", " "), err=True, nl=False)


def default_folder(spec: Path) -> Path:
    """Where a manual goes without --out: below the folder in which the command runs."""
    return Path("build") / spec.stem


def _report(findings: Sequence[Finding]) -> None:
    for finding in findings:
        click.echo(finding.told(), err=True)


def _fail(message: str) -> int:
    click.echo(f"bench-manual: {message}", err=True)
    return UNREADABLE


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns its exit status; a faulty spec prints every fault and returns 2."""
    try:
        status = commands.main(arguments, prog_name="bench-manual", standalone_mode=False)
    except SpecError as error:
        _report(error.findings)
        count = len(error.findings)
        return _fail(f"{count} {'fault' if count == 1 else 'faults'}; nothing was written")
    except click.ClickException as error:
        error.show()
        return error.exit_code
    except (click.Abort, KeyboardInterrupt):
        return 130
    except BrokenPipeError:
        # the reader of a pipe has seen enough
        sys.stderr.close()
        return GOOD
    return status if isinstance(status, int) else GOOD


def run() -> None:
    """Entry point of the installed command."""
    # a manual is many small values that all live until it is written: to look for garbage among them so often as
    # Python does by itself takes a tenth of the time
    gc.set_threshold(200_000, 20, 100)
    sys.exit(main())


if __name__ == "__main__":
    run()
