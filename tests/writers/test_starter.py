"""The first spec: whatever it is asked for, it reads, solves and has nothing worse than a note."""

from __future__ import annotations

import json

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import Severity
from generator.resources import bundled
from generator.spec.cards import typical_cards
from generator.spec.json_schema import schema_json
from generator.spec.load import read_spec
from generator.writers.starter import SCHEMA_FILE, starter_text


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("bays", [2, 3, 8])
@pytest.mark.parametrize("cards", [(), ("tote 145",)])
def test_a_starter_has_nothing_worse_than_a_note(units: str, bays: int, cards: tuple[str, ...]) -> None:
    if cards and bays > 3:
        bays = 4
    loaded = read_spec(starter_text(units, bays, cards), "starter.yml")
    figures, findings = compute(loaded, solve(loaded))
    assert [str(finding) for finding in findings if finding.severity > Severity.NOTE] == []
    assert (figures.spec.units, len(figures.layout.bays)) == (units, bays)
    assert bool(figures.totes) == bool(cards)


@pytest.mark.parametrize("card", [card for entries in typical_cards().values() for card in entries])
def test_every_card_can_be_written_out_with_the_same_values(card: str) -> None:
    written = read_spec(starter_text("mm", 2, (card,)), "starter.yml")
    assert f"'{card}'" in written.text
    section = next(section for section, entries in typical_cards().items() if card in entries)
    entries = getattr(written.spec, section)
    changed = {key for key, entry in entries.items() if (section, key) not in written.typical}
    used = read_spec(
        f"spec: 1\ntitle: x\nbench: {{length: 1, depth: 1, height: 1}}\n{section}: {{it: {{use: {card}}}}}\n"
        "zones: [{name: front, bays: [{}]}]",
        "used.yml",
    )
    (own,) = changed
    exclude = {"use"}
    assert entries[own].model_dump(exclude=exclude) == getattr(used.spec, section)["it"].model_dump(
        exclude=exclude
    )


def test_the_shipped_starter_is_what_new_writes() -> None:
    assert (bundled("specs") / "starter.yml").read_text(encoding="utf-8") == starter_text()
    assert starter_text().splitlines()[0] == f"# yaml-language-server: $schema={SCHEMA_FILE}"


def test_defaults_in_the_schema_carry_their_unit() -> None:
    kinds = json.loads(schema_json())["$defs"]
    assert kinds["BarSaw"]["properties"]["kerf"]["default"] == "4 mm"
    assert kinds["BaySpec"]["properties"]["width"]["default"] == "share"
    assert kinds["ClampAccess"]["properties"]["opening"]["default"] == ["16 mm", "40 mm"]
    assert kinds["Angle"]["properties"]["density"]["default"] == "2700 kg/m^3"


def test_every_key_of_the_schema_is_explained() -> None:
    """Hovering over a key in an editor must say something; `kind` is explained by its model."""
    data = json.loads(schema_json())
    silent = [
        f"{name}.{key}"
        for name, model in {**data["$defs"], "Spec": data}.items()
        for key, entry in model.get("properties", {}).items()
        if key != "kind" and "$ref" not in entry and not entry.get("description")
    ]
    assert silent == []
