"""The law of names: zones, bays, goods, the file and the title may be called anything, and only names change.

The bench is first renamed to words that occur nowhere else, so that what each figure says of a name is known; then to
any text, by which every figure must be the same with the one word for the other.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.spec.cards import STANDARD
from generator.spec.load import read_spec
from generator.spec.references import REFERENCES
from generator.writers.figures_json import figures_data
from tests.effort import examples, sample
from tests.mutants import WORDS
from tests.strategies import plans, spec_text

pytestmark = pytest.mark.usefixtures("quick_plans")

SPECS = Path(__file__).parents[1] / "specs"
SHIPPED = {name: (SPECS / f"{name}.yml").read_text() for name in ("demo", "wall-bench", "starter")}
MEANT = (
    *(
        "front",
        "back",
        "rear",
        "left",
        "right",
        "middle",
        "left end",
        "right end frame",
        "The right one",
        "top",
    ),
    *(
        "saws, planes",
        "a {front} b",
        "a { b",
        "F1",
        "B1",
        "A1",
        "FD1",
        "PAN",
        "1",
        "12.5",
        "end",
        "post",
        "zone",
    ),
    *(
        "ply-12.5",
        "ply 12",
        "PLY-12",
        "birch ply 18",
        "a.b[0]",
        "bays.F1.width",
        "o'clock",
        "R&D",
        "#2",
        "a/b:c",
    ),
)
"""Words by which the program itself speaks, and such as have broken it."""

renamed = settings(
    phases=[Phase.explicit, Phase.generate],
    max_examples=examples(2, 4),
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)


def plain(text: str) -> str:
    """As the language reads a name: in one line, with single spaces."""
    return " ".join(text.split())[:60].strip()


#: What the language's defaults refer to is no name of one's own.
TAKEN = {name for section in STANDARD.values() for name in section}
CHARACTERS = st.characters(exclude_categories=("Cc", "Cs", "Cn", "Zl", "Zp"), exclude_characters="\ufeff")
ANY = (
    st.one_of(st.sampled_from(MEANT), st.sampled_from([*map(plain, WORDS)]), st.text(CHARACTERS, max_size=12))
    .map(plain)
    .filter(lambda text: text and text not in TAKEN and "\x85" not in text and "\ufeff" not in text)
)


def named(tree: dict[str, Any]) -> dict[tuple[Any, ...], str]:
    """The path of every name of the spec, and a word for it that occurs nowhere else."""
    paths: list[tuple[Any, ...]] = [("title",)]
    for section in STANDARD:
        paths += [(section, name) for name in tree.get(section) or ()]
    for number, zone in enumerate(tree["zones"]):
        paths.append(("zones", number, "name"))
        paths += [("zones", number, "bays", bay, "name") for bay in range(len(zone["bays"]))]
    return {path: f"qz{index:02}vx" for index, path in enumerate(paths)}


def with_names(tree: dict[str, Any], names: Mapping[tuple[Any, ...], str]) -> str:
    """The text of the same spec under other names, with all that refers to them."""
    new = deepcopy(tree)
    for each in REFERENCES:
        own = {old: names.get((each.section, old), old) for old in tree.get(each.section) or ()}
        _refer(new, each.steps, own, each.default)
    if remainder := tree["bench"].get("round_shares", {}).get("remainder"):
        # a bay is meant
        (path,) = (path for path in names if path[0] == "zones" and _at(tree, path) == remainder)
        new["bench"]["round_shares"]["remainder"] = names[path]
    for section in STANDARD:
        entries = tree.get(section) or {}
        if entries:
            new[section] = {names[section, old]: new[section][old] for old in entries}
    for path, name in names.items():
        if path[0] in ("title", "zones"):
            _at(new, path[:-1])[path[-1]] = name
    return yaml.dump(new, sort_keys=False, allow_unicode=True, width=10**6)


def _at(here: Any, path: tuple[Any, ...]) -> Any:
    for step in path:
        here = here[step]
    return here


def _refer(here: Any, steps: tuple[str, ...], new: Mapping[str, str], default: str) -> None:
    """Set a reference to its new name; one that the spec leaves to its default is written out."""
    step, rest = steps[0], steps[1:]
    if step == "*":
        for value in here.values() if isinstance(here, dict) else here:
            _refer(value, rest, new, default)
    elif rest:
        if step not in here and not default:
            return
        _refer(here.setdefault(step, {}), rest, new, default)
    elif (old := here.get(step, default)) in new:
        here[step] = new[old]


def figures_of(text: str, file: str) -> Any:
    """All figures and findings as plain data."""
    loaded = read_spec(text, file)
    figures, findings = compute(solve(loaded))
    data = figures_data(figures)
    del data["spec"]["checksum"]
    keys = [
        card["key"] for card in data["setups"]
    ]  # made from names, so only which ones are the same matters
    for card in data["setups"]:
        card["key"] = keys.index(card["key"])
    told = [
        [
            each.code,
            each.severity.name,
            each.message,
            each.found,
            each.allowed,
            each.where and each.where.line,
        ]
        for each in findings
    ]
    return {"figures": data, "findings": told}


def differences(old: Any, new: Any, words: Mapping[str, str], at: str = "") -> list[str]:
    """Where the new figures are other than the old ones with each word put for its name."""
    if isinstance(old, dict) and isinstance(new, dict):
        keys = [_said(key, words) for key in old]
        if keys != list(new):
            return [f"{at}: keys {keys} became {list(new)}"]
        pairs = zip(old, old.values(), new.values(), strict=True)
        return [line for key, a, b in pairs for line in differences(a, b, words, f"{at}.{key}")]
    if isinstance(old, list) and isinstance(new, list):
        if len(old) != len(new):
            return [f"{at}: {len(old)} items became {len(new)}"]
        pairs = enumerate(zip(old, new, strict=True))
        return [line for index, (a, b) in pairs for line in differences(a, b, words, f"{at}[{index}]")]
    expected = _said(old, words) if isinstance(old, str) else old
    return [] if expected == new else [f"{at}: {expected!r} became {new!r}"]


def _said(text: str, words: Mapping[str, str]) -> str:
    for word, name in words.items():
        text = text.replace(word, name)
    return text


@cache
def known(text: str) -> tuple[dict[str, Any], dict[tuple[Any, ...], str], Any]:
    """The tree of a spec, its words for names, and its figures under them."""
    tree = yaml.load(text, Loader=yaml.BaseLoader)
    words = named(tree)
    return tree, words, figures_of(with_names(tree, words), "qzfilevx.yml")


def check_names_only(text: str, chosen: list[str], file: str) -> None:
    tree, words, figures = known(text)
    # a name that was given away gets a number behind it: two of one kind cannot have one name
    names = {path: chosen[index % len(chosen)] for index, path in enumerate(words)}
    used: set[tuple[Any, ...]] = set()
    for index, (path, name) in enumerate(names.items()):
        kind = path[0] if path[0] != "zones" else ("zones", len(path))
        if (kind, name) in used:
            names[path] = f"{name} {index}"
        used.add((kind, names[path]))
    told = figures_of(with_names(tree, names), f"{file}.yml")
    assert differences(figures, told, {word: names[path] for path, word in words.items()}) == []


@pytest.mark.parametrize("name", sample(list(SHIPPED), 3))
@renamed
@example(chosen=["left", "right", "front", "rear"], file="my_bench")
@example(chosen=["right end frame", "a { b", "1", "B1"], file="12:30")
@given(chosen=st.lists(ANY, min_size=1, max_size=8, unique=True), file=ANY)
def test_other_names_change_names_only(name: str, chosen: list[str], file: str) -> None:
    check_names_only(SHIPPED[name], chosen, file)


@renamed
@given(plan=plans(), chosen=st.lists(ANY, min_size=1, max_size=8, unique=True), file=ANY)
def test_other_names_change_names_only_in_any_bench(plan: Any, chosen: list[str], file: str) -> None:
    check_names_only(spec_text(plan), chosen, file)
