"""A name of goods means nothing: whatever the spec calls its materials and hardware, only names change."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.spec.load import read_spec
from generator.spec.references import REFERENCES, values
from generator.writers.figures_json import figures_data

SPECS = Path(__file__).resolve().parents[2] / "specs"
SECTIONS = ("materials", "hardware", "totes")
#: Names that the trade or the language has for something else, and what a text can be.
TEMPTING = (
    "caster plate", "top bracket", "slide", "caster", "washer", "slot-nut", "end-clip", "through-screw", "wheel",
    "slide screw", "strip screw", "aluminium plate",
    "bracket", "bar", "ply-12", "ply-6", "poplar-15", "none", "12",
    "ö & <b> \"x\" ' *_[]", "a.b",
)  # fmt: skip


def written(name: str) -> dict[str, Any]:
    """A shipped spec as data, with every name of goods that the language would take by default written out."""
    data: dict[str, Any] = yaml.load((SPECS / name).read_text(encoding="utf-8"), yaml.BaseLoader)
    if name == "starter.yml":
        data["hardware"] = {"corner": {"use": "bracket 40"}, "wheel": {"use": "caster 100"}}
        data["top"]["bracket"], data["base"]["casters"] = "corner", "wheel"
    for each in REFERENCES:
        here: Any = data
        if each.default and each.default in data.get(each.section, {}) and not any(values(data, each.steps)):
            for step in each.steps[:-1]:
                here = here.setdefault(step, {})
            here[each.steps[-1]] = each.default
    return data


def renamed(data: dict[str, Any], names: dict[str, dict[str, str]]) -> dict[str, Any]:
    copy: dict[str, Any] = json.loads(json.dumps(data))
    for each in REFERENCES:
        for path, name in values(data, each.steps):
            here: Any = copy
            for step in path[:-1]:
                here = here[step]
            here[path[-1]] = names[each.section].get(name, name)
    for section in SECTIONS:
        if section in copy:
            copy[section] = {names[section][old]: entry for old, entry in copy[section].items()}
    return copy


def outcome(data: dict[str, Any]) -> tuple[Any, list[str]]:
    # JSON is YAML, and every scalar of the reader is a text anyway
    loaded = read_spec(yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=1000), "bench.yml")
    figures, findings = compute(solve(loaded))
    return figures_data(figures), [f"{each.severity.name} {each.code}" for each in findings]


def bare(here: Any) -> Any:
    """Figures without any text but those that count: only numbers, marks and the order of rows are left."""
    if isinstance(here, dict):
        return [
            bare(value)
            if key not in ("mark", "marks", "kind", "group", "code", "size", "severity")
            else value
            for key, value in here.items()
        ]
    if isinstance(here, list):
        return [bare(each) for each in here]
    return None if isinstance(here, str) else here


@pytest.mark.parametrize("spec", ["demo.yml", "starter.yml"])
@given(chance=st.randoms(use_true_random=False))
@settings(max_examples=2, deadline=None)
def test_names_of_goods_change_names_only(spec: str, chance: Any) -> None:
    data = written(spec)
    names = {}
    for section in SECTIONS:
        old = list(data.get(section, {}))
        names[section] = dict(zip(old, chance.sample(TEMPTING, len(old)), strict=True))
    plain, plain_codes = outcome(data)
    other, other_codes = outcome(renamed(data, names))
    assert other_codes == plain_codes
    for section in (
        "layout",
        "parts",
        "joints",
        "hardware",
        "checks",
        "mass",
        "casters",
        "cutting",
        "assembly",
    ):
        assert bare(other[section]) == bare(plain[section]), (section, names)
