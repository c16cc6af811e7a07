"""Do the tests notice? Small changes to the calculators and the bench, each run against the tests that concern it.

    python -m tests.mutation --count 300 --seed 1 | tee report.txt
    python -m tests.mutation --again report.txt

A seeded sample is spread evenly over all modules. Each change is made in a copy of the repository and tried in a
process of its own: first the tests that mirror the module, then, if they pass, the wider ones of the table below.
A change that no test notices is alive; those of `same_changes` change nothing and are not tried. `--again` tries
those that were alive in an earlier report.
"""

from __future__ import annotations

import argparse
import ast
import copy
import multiprocessing
import os
import random
import re
import resource
import shutil
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tests.live_change import Loaded, forget
from tests.same_changes import SAME

if TYPE_CHECKING:
    import pytest

ROOT = Path(__file__).resolve().parent.parent
ROOMS = ("generator/calculators", "generator/bench")
#: The plans have tests of their own, which are too slow for this.
LEFT_OUT = "generator/calculators/cutting/"
#: Seconds of processor time after which a change counts as noticed: it runs for ever. Not of the wall's clock: what
#: else the machine does is no verdict on a test.
PATIENCE = 120
#: What runs when the mirrored tests pass: by the beginning of the module's path, all that fit.
WIDER = {
    "generator/": ("tests/demo/test_bars.py", "tests/demo/test_boards.py", "tests/demo/test_goods.py"),
    "generator/calculators/": (
        "tests/test_published_values.py",
        "tests/calculators/test_published_threads.py",
        "tests/calculators/test_formula_units.py",
    ),
    "generator/calculators/assembly": (
        "tests/calculators/test_disassembly.py",
        "tests/bench/test_assembly_proof.py",
    ),
    "generator/calculators/brackets": ("tests/test_brackets.py",),
    "generator/calculators/plates": ("tests/demo/test_sag.py",),
    "generator/calculators/beams": ("tests/demo/test_sag.py",),
    "generator/bench/order": ("tests/bench/test_assembly_proof.py",),
    "generator/bench/proof": ("tests/bench/test_assembly_proof.py",),
    "generator/bench/late_fasteners": ("tests/bench/test_assembly_proof.py",),
    "generator/bench/tops/brackets": ("tests/test_brackets.py",),
    "generator/bench/stands": ("tests/bench/test_middle_stands.py",),
    "generator/bench/place": ("tests/bench/test_places.py",),
    "generator/bench/fillings": ("tests/bench/fillings", "tests/test_assembly_figures.py"),
    "generator/bench/joints": ("tests/bench/joints",),
    "generator/bench/frames/t_slot": ("tests/bench/test_refuse.py",),
    "generator/bench/suiting": ("tests/test_as_built.py",),
    "generator/bench/grain": ("tests/bench/test_grain.py",),
    "generator/bench/solve": ("tests/bench/test_places.py", "tests/bench/test_assembly_proof.py"),
}
#: What knows neither calculators nor benches: it need not be imported again for a change of these.
BELOW = (
    "units",
    "readings",
    "provenance",
    "findings",
    "geometry",
    "resources",
    "watch",
    "disk",
    "names",
    "codes",
)
#: Provokes each check; of these tests only those run that the changed module has the laws of.
CHECKS = "tests/test_checks.py"
#: Imported once, before the processes are forked.
PRELOADED = (
    "pytest",
    "hypothesis",
    "pydantic",
    "yaml",
    "pint",
    "numpy",
    "scipy.stats",
    "shapely",
    "networkx",
)

COMPARISONS: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
ARITHMETIC: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Div,
}  # fmt: skip
CHOICES = {"min", "max", "least", "greatest"}


@dataclass(frozen=True)
class Mutant:
    """The `number`th change to a module: `before` becomes `after` at `line`; `source` is the module with it."""

    path: str
    number: int
    line: int
    kind: str
    before: str
    after: str
    source: str

    @property
    def name(self) -> str:
        """By this it is found again, as long as the module stays as it is."""
        return f"{self.path}:{self.line}:{self.number}"


def mutants_of(path: str, text: str) -> list[Mutant]:
    """All changes to a module, in the order of its tree."""
    tree = ast.parse(text)
    found: list[Mutant] = []
    for parent in _code(tree):
        for field, value in ast.iter_fields(parent):
            several = isinstance(value, list)
            for place, node in enumerate(value) if several else [(0, value)]:
                if not isinstance(node, ast.AST):
                    continue
                for kind, changed in _changes(parent, field, node):
                    before = ast.unparse(node)
                    body = value[:place] + changed + value[place + 1 :] if several else changed[0]
                    setattr(parent, field, body)
                    source = ast.unparse(tree)
                    setattr(parent, field, value)
                    after = " ".join(ast.unparse(each) for each in changed)
                    line = getattr(node, "lineno", getattr(parent, "lineno", 0))
                    found.append(Mutant(path, len(found), line, kind, before, after, source))
    return found


def _code(tree: ast.AST) -> Iterator[ast.AST]:
    """What runs: no type annotation, and nothing below a module's list of names."""
    yield tree
    for field, value in ast.iter_fields(tree):
        if field in ("annotation", "returns", "type_params"):
            continue
        for node in value if isinstance(value, list) else [value]:
            if isinstance(node, ast.AST) and not isinstance(
                node, ast.Import | ast.ImportFrom | ast.JoinedStr
            ):
                yield from _code(node)


def _changes(parent: ast.AST, field: str, node: ast.AST) -> Iterator[tuple[str, list[ast.AST]]]:
    """Kind of change, and what stands in the node's place."""
    if isinstance(node, ast.Compare):
        for index, sign in enumerate(node.ops):
            changed = copy.deepcopy(node)
            changed.ops[index] = COMPARISONS[type(sign)]()
            yield "comparison", [changed]
    if isinstance(node, ast.BinOp | ast.AugAssign) and type(node.op) in ARITHMETIC:
        changed = copy.deepcopy(node)
        changed.op = ARITHMETIC[type(node.op)]()
        yield "arithmetic", [changed]
    if isinstance(node, ast.BoolOp):
        changed = copy.deepcopy(node)
        changed.op = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        yield "and/or", [changed]
    if isinstance(node, ast.Constant) and (value := _other(parent, node.value)) is not None:
        yield "constant", [ast.Constant(value)]
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CHOICES:
        for index in range(len(node.args) if len(node.args) > 1 else 0):
            changed = copy.deepcopy(node)
            del changed.args[index]
            # what is left of two is itself: a function of one number would want a row of them
            yield "choice", [changed if len(changed.args) > 1 else changed.args[0]]
    if field in ("test", "ifs") and not isinstance(parent, ast.While | ast.Assert):
        yield "condition", [ast.UnaryOp(ast.Not(), node)]
    if isinstance(
        node, ast.Expr | ast.AugAssign | ast.Raise | ast.Return | ast.Continue | ast.If
    ) and field in (
        "body",
        "orelse",
    ):
        is_docstring = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        if not is_docstring:
            yield "statement", [ast.Pass()]


def _other(parent: ast.AST, value: object) -> object:
    """Another number: one more, a fifth more, also of a number in quotes that is a constant of the trade."""
    if isinstance(value, bool) or isinstance(parent, ast.Subscript):
        return None
    if isinstance(value, int):
        return value + 1
    if isinstance(value, float):
        return value * 1.2
    is_number = isinstance(parent, ast.Call) and isinstance(parent.func, ast.Name)
    if isinstance(value, str) and is_number and parent.func.id in ("constant", "Fraction"):  # type: ignore[attr-defined]
        whole, _, part = value.partition("/")
        if whole.replace(".", "").isdigit():
            return f"{float(whole) * 1.2:g}" if not part else f"{int(whole) + 1}/{part}"
    return None


def sample(count: int, seed: int) -> list[Mutant]:
    """As many of every module as of any other, while it has them; in a module, kinds by turns."""
    chance = random.Random(seed)
    piles = []
    for path in modules():
        by_kind: dict[str, list[Mutant]] = {}
        for mutant in mutants_of(path, (ROOT / path).read_text(encoding="utf-8")):
            by_kind.setdefault(mutant.kind, []).append(mutant)
        kinds = list(by_kind.values())
        chance.shuffle(kinds)
        for each in kinds:
            chance.shuffle(each)
        piles.append(
            [
                each[turn]
                for turn in range(max(map(len, kinds), default=0))
                for each in kinds
                if turn < len(each)
            ]
        )
    chance.shuffle(piles)
    turns = max(map(len, piles))
    return [pile[turn] for turn in range(turns) for pile in piles if turn < len(pile)][:count]


def modules() -> list[str]:
    """Paths of all modules that are changed."""
    paths = (str(path.relative_to(ROOT)) for room in ROOMS for path in sorted((ROOT / room).rglob("*.py")))
    return [path for path in paths if not path.startswith(LEFT_OUT)]


def concerning(path: str) -> tuple[list[str], list[str]]:
    """The mirrored tests of a module, and the wider ones."""
    mirrored = Path("tests", *Path(path).parts[1:])
    own = str(mirrored.with_name(f"test_{mirrored.name}"))
    wider = [test for begin, tests in WIDER.items() if path.startswith(begin) for test in tests]
    wider += [CHECKS] if _codes(path) else []
    return ([own] if (ROOT / own).is_file() else [], [test for test in dict.fromkeys(wider) if test != own])


def _codes(path: str) -> set[str]:
    """Codes of the checks that a module has the laws of."""
    return {
        name.lower().replace("_", "-")
        for name in re.findall(r"\bCode\.(\w+)", (ROOT / path).read_text("utf-8"))
    }


def _tried(folder: Path, tests: Sequence[str], mutant: Mutant | None, loaded: Loaded) -> None:
    """In a process of its own: put the change in, and leave with the verdict of pytest, or when patience ends."""
    import pytest  # noqa: PLC0415
    from hypothesis import Phase, settings  # noqa: PLC0415

    codes = _codes(mutant.path) if mutant else set()

    class Quick:
        def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
            """Of the checks, each of which solves a bench, only those that the module has the laws of."""
            items[:] = [each for each in items if not each.nodeid.startswith(CHECKS) or _case(each) in codes]

        def pytest_collection(self) -> None:
            """After the common settings are loaded: the first example that fails is enough."""
            settings.register_profile(
                "mutation",
                deadline=None,
                database=None,
                derandomize=True,
                phases=(Phase.explicit, Phase.generate),
            )
            settings.load_profile("mutation")

    forget("tests")
    if mutant:
        resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, PATIENCE))
        file = folder / mutant.path
        if not loaded.put_in(str(file), (ROOT / mutant.path).read_text(encoding="utf-8"), mutant.source):
            forget("generator", but=(*BELOW, *(("calculators", "spec") if "/bench/" in mutant.path else ())))
    with open(os.devnull, "w") as nothing:  # noqa: PTH123
        os.dup2(nothing.fileno(), 1)
        os.dup2(nothing.fileno(), 2)
    # what was imported before the fork is said to be too late for a rewritten assert, which no library needs
    unasked = ("-W", "ignore::pytest.PytestAssertRewriteWarning")
    options = ["-x", "-q", "-p", "no:cacheprovider", "--no-header", *unasked, *tests]
    os._exit(int(pytest.main(options, plugins=[Quick()])))


def _case(item: pytest.Item) -> str:
    """The code of the check that a test is about; empty for one that is about none."""
    params = item.callspec.params if hasattr(item, "callspec") else {}
    return str(params["case"].code if "case" in params else params.get("code", ""))


def notices(folder: Path, tests: Sequence[str], mutant: Mutant | None, loaded: Loaded) -> bool:
    """Whether one of the tests fails, or does not end, with this change; or, without one, as it is."""
    if not tests:
        return False
    given = (folder, tests, mutant, loaded)
    process = multiprocessing.get_context("fork").Process(target=_tried, args=given)
    process.start()
    process.join()
    return process.exitcode != 0


def run(mutants: Sequence[Mutant], folder: Path, loaded: Loaded) -> list[Mutant]:
    """Try each; print a line for each, and return those that are alive."""
    alive = []
    for mutant in mutants:
        if (mutant.path.removeprefix("generator/"), mutant.before, mutant.after) in SAME:
            _tell("same  ", mutant)
            continue
        target = folder / mutant.path
        target.write_text(mutant.source, encoding="utf-8")
        own, wider = concerning(mutant.path)
        killed = notices(folder, own, mutant, loaded) or notices(folder, wider, mutant, loaded)
        shutil.copy2(ROOT / mutant.path, target)
        if not killed:
            alive.append(mutant)
        _tell("killed" if killed else "alive ", mutant)
    return alive


def _tell(verdict: str, mutant: Mutant) -> None:
    print(f"{verdict} {mutant.name} {mutant.kind}: {mutant.before!r} -> {mutant.after!r}", flush=True)  # noqa: T201


def main() -> None:
    """Read the options, copy the repository, try the sample, and count."""
    parser = argparse.ArgumentParser(description="Do the tests notice small changes?")
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="only modules whose path has this")
    parser.add_argument("--again", type=Path, help="a report: try those that were alive")
    given = parser.parse_args()
    os.nice(10)
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    sys.dont_write_bytecode = True
    for name in PRELOADED:
        __import__(name)
    if given.again:
        lines = given.again.read_text(encoding="utf-8").splitlines()
        names = {line.split()[1] for line in lines if line.startswith("alive")}
        every = (
            each for path in modules() for each in mutants_of(path, (ROOT / path).read_text(encoding="utf-8"))
        )
        mutants = [each for each in every if each.name in names]
    else:
        mutants = [each for each in sample(10**6, given.seed) if given.only in each.path][: given.count]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "copy"
        ignored = shutil.ignore_patterns(".git", "build", ".venv", ".hypothesis", "node_modules")
        shutil.copytree(ROOT, folder, ignore=ignored)
        os.chdir(folder)
        sys.path[:] = [str(folder), *(entry for entry in sys.path if entry not in ("", str(ROOT)))]
        loaded = Loaded("generator")
        tests = {test for mutant in mutants for some in concerning(mutant.path) for test in some}
        if notices(folder, sorted(tests), None, loaded):
            raise SystemExit("the tests fail as it is: nothing can be said of changes")
        alive = run(mutants, folder, loaded)
    share = 100 * len(alive) / max(1, len(mutants))
    print(f"{len(mutants)} tried, {len(alive)} alive ({share:.1f} %)")  # noqa: T201


if __name__ == "__main__":
    main()
