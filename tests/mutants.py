"""Specs and records that somebody broke: the shipped ones and the one with every key, changed at random.

A mutant keeps the shape of what it was made from, so that most of its faults lie behind the reader: numbers that
cannot be, goods of a wrong kind, names that hold anything. `random` may come from a seed or from hypothesis.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

import yaml

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import Finding, SpecError
from generator.manual import compile_manual
from generator.spec.cards import typical_cards
from generator.spec.load import RecordText, read_spec

ROOT = Path(__file__).parents[1]
EVERY_KEY = ROOT / "tests" / "data" / "every-key.yml"
SPECS = (*(ROOT / "specs" / f"{name}.yml" for name in ("demo", "wall-bench", "starter")), EVERY_KEY)
RECORD = ROOT / "tests" / "data" / "every-key.record.yml"

Path_ = tuple[Any, ...]
Change = Callable[[Random, Any], Any]


@dataclass(frozen=True)
class Mutant:
    """The text of a spec and of its record; an empty record is none."""

    text: str
    record: str = ""


@dataclass(frozen=True)
class Outcome:
    """How far a mutant came: `refused`, `solved` or `built`; with every finding."""

    stage: str
    findings: tuple[Finding, ...]


def outcome(mutant: Mutant, whole: bool = False) -> Outcome:
    """What becomes of a mutant, up to its figures, or with its `whole` manual. Raises nothing but faults of ours."""
    record = RecordText(mutant.record, "mutant.record.yml") if mutant.record else None
    try:
        loaded = read_spec(mutant.text, "mutant.yml", record)
        figures, findings = compute(solve(loaded))
        if whole:
            compile_manual(loaded, figures, "mutant.yml")
    except SpecError as error:
        return Outcome("refused", error.findings)
    return Outcome("built" if whole else "solved", findings)


def unplaced(mutant: Mutant, found: Outcome) -> list[str]:
    """The findings that name no line and column of the spec or of its record."""
    sizes = {
        "mutant.yml": _widths(mutant.text),
        "mutant.record.yml": _widths(mutant.record),
    }
    return [str(finding) for finding in found.findings if not _is_placed(finding, sizes)]


def _widths(text: str) -> list[int]:
    """The length of every line, as the reader counts them."""
    for mark in ("\r\n", "\r", "\x85", "\u2028", "\u2029"):
        text = text.replace(mark, "\n")
    return [len(line) for line in text.split("\n")]


def _is_placed(finding: Finding, sizes: dict[str, list[int]]) -> bool:
    where = finding.where
    if not where or not finding.explained():
        return False
    widths = sizes.get(where.file, [])
    return 1 <= where.line <= len(widths) and 1 <= where.column <= widths[where.line - 1] + 1


# --- what a mutant is made from

# fmt: off
NUMBERS = (
    *("0", "-1", "-0", "1", "2", "3", "0.5", "0.001", "0.0000001", "7", "12.3", "40", "100", "333.333", "1000"),
    *("2440", "99999", "100000", "100001", "1e5", "1e-9", "1e400", "-1e400", "nan", "inf", "0x10", "1_000", "+5"),
    *("1/3", "1/7", "22/7", "1 1/3", "-1/3", "1/0", "0/0", "1/1000003", "23 5/8", "5 3", "1//2", "1 / 3", "½"),
    *("9" * 40, "0." + "0" * 40 + "1", "9" * 400, "1/" + "9" * 60, "0.1234567890123", "１２", "1,5", "1'000", "٣"),
)
UNITS = (
    *("mm", "cm", "m", "in", "ft", "km", "yd", '"', "'", "kg", "g", "lb", "N", "lbf", "GPa", "psi", "cm^4", "in^4"),
    *("kg/m", "lb/ft", "kg/m^3", "lb/ft^3", "mm mm", "°C", "%", "mm^-1", "µm", "ft 2 1/2 in", "in 3 mm", "parsec"),
)
WORDS = (
    *("share", "share 2", "share 1/3", "share 0", "share -1", "share 1e9", "shares", "true", "no", "maybe", "~"),
    *("null", "", " ", "none", "x", "y", "z", "M8", "M8x25", "M9x1", "5/16-18 x 1", "M8 x 1/3", "M8x0", "1/64"),
    *("1/3", "posts", "rails", "left", "right", "left end frame", "top grid", "top", "bar", "F1", "A1", "PAN"),
    *("2026-02-30", "2026-11-03", "profile 30", "profile 45", "plywood 9", "caster 100", "slide 300", "cut", "in"),
    *("sheet", "strip", "angle", "profile", "end clip", "through screw", "slot nut", "slide", "caster", "kind"),
    *("作業台", "Łódź", "🪚" * 3, "a\u0301" * 5, "\u200b", "\u202eabc", "\ufeffx", "\u2028", "a\nb", "a\tb", "\x85"),
    *("<script>alert(1)</script>", "&lt;", "](x)", "![a](b)", "`x`", "**b**", "# h", "- a", "1. a", "|a|b|"),
    *("{{ 7*7 }}", "{% raw %}", "{a: b}", "a { b", "}", "[1, 2", "*x", "&x", "!x", "%s", "{0}", "../../etc", "a/b"),
    *("C:\\x", "CON", ".", "..", "a b", "A B", "a, b", "a: b", "a #b", "'", '"', "\\", "\\N", "$x", "<b>", "=1+1"),
    *("x" * 200, "x" * 201, "x y " * 49, "W" * 90, "front", "back", "F 1", "bays", "bays.F1.width", "title"),
)
TOKENS = (
    *("&a ", "*a", "<<: *a\n", "!!python/object/apply:os.system ['x'] ", "!!int ", "! ", "---\n", "...\n"),
    *("%YAML 9.9\n", "? ", ": ", "- ", "|\n", ">-\n", "@", "`", "\t", "\0", "\x07", "\ufeff", "\u2028", "\r", "\r\n"),
    *("#", "{", "}", "[", "]", ",", "'", '"', '"\\UFFFFFFFF"', '"\\ud800"', "\\", "  ", "\n", "[" * 40, "{a: " * 40),
    *("[" * 3000, "- " * 500, "? " * 300, "&a [*a]", "x: &x [1]\ny: *x\n", "*nothing", '"\\x00"', "<<: {a: 1}\n"),
)
# fmt: on


def _tree(path: Path) -> Any:
    return yaml.load(path.read_text(), Loader=yaml.BaseLoader)


_TREES = {path: _tree(path) for path in (*SPECS, RECORD)}
_EVERY = _TREES[EVERY_KEY]


def places(here: Any, path: Path_ = ()) -> Iterator[Path_]:
    """The path of everything below, branches first."""
    pairs = here.items() if isinstance(here, dict) else enumerate(here) if isinstance(here, list) else ()
    for step, value in pairs:
        yield (*path, step)
        yield from places(value, (*path, step))


def _at(tree: Any, path: Path_) -> Any:
    for step in path:
        tree = tree[step]
    return tree


def _put(tree: Any, path: Path_, value: Any) -> None:
    _at(tree, path[:-1])[path[-1]] = value


def _scalars(tree: Any) -> list[Path_]:
    return [path for path in places(tree) if isinstance(_at(tree, path), str)]


def _branches(tree: Any, kind: type) -> list[Path_]:
    return [path for path in [(), *places(tree)] if isinstance(_at(tree, path), kind) and _at(tree, path)]


def _some(random: Random, of: Sequence[Any]) -> Any:
    return of[random.randrange(len(of))]


# --- changes of the tree; each takes it as it is and changes it in place


def change_number(random: Random, tree: Any) -> None:
    """A number becomes another one: a little or far beside it, of another unit, or none at all."""
    paths = [path for path in _scalars(tree) if any(char.isdigit() for char in _at(tree, path))]
    if not paths:
        return
    path = _some(random, paths)
    words = str(_at(tree, path)).split()
    try:
        value, rest = float(words[0]), words[1:]
    except ValueError:
        value, rest = 10.0, []
    near = [value * factor for factor in (0.1, 0.5, 0.9, 1.01, 1.5, 2, 10, 100, -1)] + [value + 1, value - 1]
    number = _some(random, NUMBERS) if random.random() < 0.3 else f"{_some(random, near):.9g}"
    unit = _some(random, UNITS) if random.random() < 0.1 else " ".join(rest)
    _put(tree, path, f"{number} {unit}".strip())


def change_numbers(random: Random, tree: Any) -> None:
    """All numbers of a group are scaled together, so that it stays in proportion."""
    path = _some(random, _branches(tree, dict))
    factor = _some(random, (0.01, 0.25, 0.5, 0.8, 1.25, 2, 3, 10))
    for below in _scalars(_at(tree, path)):
        try:
            value = float(_at(tree, (*path, *below)))
        except ValueError:
            continue
        if below[-1] not in ("spec", "count"):
            _put(tree, (*path, *below), f"{value * factor:.6g}")


def change_word(random: Random, tree: Any) -> None:
    if paths := _scalars(tree):
        _put(tree, _some(random, paths), _some(random, WORDS))


def refer_elsewhere(random: Random, tree: Any) -> None:
    """A name becomes that of other goods."""
    if not isinstance(tree, dict):
        return change_word(random, tree)
    goods = [name for key in ("materials", "hardware", "totes") for name in tree.get(key) or () if name]
    cards = [name for section in typical_cards().values() for name in section]
    names = [*goods, *cards]
    paths = [path for path in _scalars(tree) if _at(tree, path) in names]
    if paths and names:
        _put(tree, _some(random, paths), _some(random, names))
    return None


def swap_goods(random: Random, tree: Any) -> None:
    """Two cards change places, also between kinds and sections; or a typical card takes the place of one."""
    if not isinstance(tree, dict):
        return
    sections = [tree[key] for key in ("materials", "hardware", "totes") if isinstance(tree.get(key), dict)]
    cards = [(section, name) for section in sections for name in section]
    if not cards:
        return
    (here, one), (there, other) = _some(random, cards), _some(random, cards)
    if random.random() < 0.5:
        here[one], there[other] = there[other], here[one]
    else:
        names = [name for section in typical_cards().values() for name in section]
        here[one] = {"use": _some(random, names)}


def swap_values(random: Random, tree: Any) -> None:
    paths = list(places(tree))
    if len(paths) < 2:
        return
    one, other = _some(random, paths), _some(random, paths)
    if one[: len(other)] == other or other[: len(one)] == one:
        return
    first, second = _at(tree, one), _at(tree, other)
    _put(tree, one, deepcopy(second))
    _put(tree, other, deepcopy(first))


def delete(random: Random, tree: Any) -> None:
    if paths := list(places(tree)):
        path = _some(random, paths)
        del _at(tree, path[:-1])[path[-1]]


def duplicate(random: Random, tree: Any) -> None:
    """An item stands two or many times; an entry also under another name."""
    if random.random() < 0.5 and (branches := _branches(tree, list)):
        items = _at(tree, _some(random, branches))
        items[0:0] = [deepcopy(_some(random, items)) for _ in range(_some(random, (1, 2, 5, 40, 70)))]
    elif branches := _branches(tree, dict):
        here = _at(tree, _some(random, branches))
        here[_some(random, WORDS)] = deepcopy(here[_some(random, list(here))])


def rename_key(random: Random, tree: Any) -> None:
    """A key is misspelt, becomes another one of the language, or any text; in its place among the others."""
    if not (branches := _branches(tree, dict)):
        return
    here = _at(tree, _some(random, branches))
    old = _some(random, list(here))
    keys = [path[-1] for path in places(_EVERY) if isinstance(path[-1], str)]
    misspelt = old[1:] + old[:1]
    new = _some(random, [misspelt, old.upper(), f"{old}s", _some(random, keys), _some(random, WORDS)])
    entries = [(new if key == old else key, value) for key, value in here.items()]
    here.clear()
    here.update(entries)


def change_type(random: Random, tree: Any) -> None:
    if not (paths := list(places(tree))):
        return
    path = _some(random, paths)
    value = _at(tree, path)
    nest: Any = value
    for _ in range(_some(random, (1, 2, 8, 28, 29, 30, 31, 60))):
        nest = [nest] if random.random() < 0.5 else {"a": nest}
    others = [
        [],
        {},
        None,
        [value],
        {"a": value},
        [value, value],
        str(value)[:50],
        nest,
        [None],
        {"use": value},
    ]
    _put(tree, path, deepcopy(_some(random, others)))


def take_a_key(random: Random, tree: Any) -> None:
    """A key of the language comes in, with its group, at its own place or at another one."""
    path = _some(random, [each for each in places(_EVERY) if len(each) > 1])
    value = deepcopy(_at(_EVERY, path))
    if random.random() < 0.7:
        try:
            _put(tree, path, value)
        except (LookupError, TypeError):
            return
    elif branches := _branches(tree, dict):
        _at(tree, _some(random, branches))[path[-1]] = value


TREE: tuple[Change, ...] = (
    *(change_number,) * 5,
    *(change_numbers,) * 2,
    *(change_word,) * 2,
    *(refer_elsewhere, swap_goods, swap_values, delete, duplicate, rename_key, change_type, take_a_key),
)


# --- changes of the text


def insert_token(random: Random, text: str) -> str:
    at = random.randrange(len(text) + 1)
    return text[:at] + _some(random, TOKENS) + text[at:]


def drop_text(random: Random, text: str) -> str:
    at = random.randrange(len(text) + 1)
    return text[:at] + text[at + _some(random, (1, 1, 3, 20, 10**7)) :]


def shuffle_lines(random: Random, text: str) -> str:
    """A line goes, stands twice, changes places or its indent."""
    lines = text.split("\n")
    one, other = random.randrange(len(lines)), random.randrange(len(lines))
    act = random.randrange(5)
    if act == 0:
        del lines[one]
    elif act == 1:
        lines.insert(other, lines[one])
    elif act == 2:
        lines[one], lines[other] = lines[other], lines[one]
    elif act == 3:
        lines[one] = _some(random, ("\t", " ", "    ")) + lines[one]
    else:
        lines[one] = lines[one].lstrip()
    return "\n".join(lines)


def bomb(random: Random, text: str) -> str:
    """Much from little: aliases of aliases, a huge scalar, many keys, many lines."""
    doubling = "".join(f"b{n}: &b{n} [{', '.join([f'*b{n - 1}'] * 9)}]\n" for n in range(1, 30))
    many = "".join(f"k{n}: {n}\n" for n in range(_some(random, (50, 3000))))
    return text + _some(
        random,
        (
            f"b0: &b0 [1, 2]\n{doubling}",
            f"x: {'y' * _some(random, (10_000, 100_000, 1_000_001))}\n",
            f"x: [{'1, ' * 5000}1]\n",
            many,
            "\n" * 3000,
            f"{'x' * 3000}: 1\n",
            f"'{'q ' * 30_000}': 1\n",
        ),
    )


TEXT = (insert_token, insert_token, drop_text, shuffle_lines, shuffle_lines, bomb)


def mutant(random: Random) -> Mutant:
    """A broken spec, in one case of four with a record, which may be what is broken."""
    path = _some(random, (*SPECS, *SPECS[:-1]))  # the one with every key takes the longest
    original = path.read_text()
    record = RECORD.read_text() if path == EVERY_KEY or random.random() < 0.1 else ""
    if record and random.random() < 0.5:
        return Mutant(original, _broken(random, RECORD, record))
    return Mutant(_broken(random, path, original), record if random.random() < 0.5 else "")


def _broken(random: Random, path: Path, original: str) -> str:
    """Changes of the tree in four cases of five, else of the text as its author wrote it; sometimes both."""
    text = original
    of_tree = random.random() < 0.85
    if of_tree:
        tree = deepcopy(_TREES[path])
        for _ in range(_some(random, (1, 1, 1, 2, 2, 3, 5, 8))):
            _some(random, TREE)(random, tree)
        text = yaml.dump(tree, sort_keys=False, allow_unicode=True, width=10**6)
    if not of_tree or random.random() < 0.05:
        for _ in range(_some(random, (1, 1, 2, 4))):
            text = _some(random, TEXT)(random, text)
    return text
