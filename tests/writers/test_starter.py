"""The first spec: whatever it is asked for, it reads, solves and has nothing worse than a note."""

from __future__ import annotations

import json

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import Severity
from generator.resources import bundled
from generator.spec.cards import typical_cards
from generator.spec.editor_schema import schema_json
from generator.spec.load import read_spec
from generator.writers.starter import SCHEMA_FILE, starter_text
from generator.writers.starter_goods import UnsuitedCardsError
from tests.effort import quick_or, sample


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("bays", quick_or([3], [2, 8]))
@pytest.mark.parametrize("cards", [(), ("tote 145",)])
def test_a_starter_has_no_error_and_warns_of_open_drawers_and_weight_alone(
    units: str, bays: int, cards: tuple[str, ...]
) -> None:
    if cards and bays > 3:
        bays = 4
    loaded = read_spec(starter_text(units, bays, cards), "starter.yml")
    figures, findings = compute(solve(loaded))
    worse = {finding.code for finding in findings if finding.severity > Severity.NOTE}
    assert worse <= {"drawers-open", "lift-weight", "caster-in-the-air", "tips-under-load"}
    assert Severity.ERROR not in {finding.severity for finding in findings}
    assert (figures.spec.units, len(figures.layout.bays)) == (units, bays)
    assert bool(figures.totes) == bool(cards)


CARDS = [card for entries in typical_cards().values() for card in entries]


@pytest.mark.parametrize("card", sample(CARDS, 5))
def test_a_starter_of_any_card_has_no_error(card: str) -> None:
    """Units and bays take turns along the list of cards, so that all of them are met."""
    index = CARDS.index(card)
    loaded = read_spec(starter_text(("mm", "in")[index % 2], (2, 3, 5)[index % 3], (card,)), "starter.yml")
    _, findings = compute(solve(loaded))
    assert [str(finding) for finding in findings if finding.severity == Severity.ERROR] == []


#: Bars and what is tapped into their ends by the trade: a core of 5 is the drill for M6, of 8.5 that for M10.
BARS = {"profile 30": "M6", "profile 40": "M8", "profile 45": "M10", "profile 1 1/2 in": "5/16-18"}


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("bar", BARS)
def test_fasteners_follow_the_bar(bar: str, units: str) -> None:
    spec = read_spec(starter_text(units, 2, (bar,)), "starter.yml").spec
    assert spec.hardware["end-clip"].screw.thread == BARS[bar]
    assert spec.hardware["through-screw"].screw.thread == BARS[bar]
    assert spec.hardware["slot-nut"].thread == BARS[bar]


def test_the_bar_follows_the_fasteners() -> None:
    spec = read_spec(starter_text("mm", 2, ("slot nut M10",)), "starter.yml").spec
    assert (spec.materials["bar"].section, spec.materials[spec.drawers.packing].thickness) == (45, 20)


@pytest.mark.parametrize(
    ("cards", "words"),
    [
        (("profile 30", "end clip M8"), "has the thread M8"),
        (("profile 30", "profile 45"), "leave one of them out"),
        (("end clip M6", "slot nut M10"), "has the thread"),
        (("profile 45", "strip 50 x 15"), "take 'strip 50 x 20'"),
        (("profile 45", "bracket 40"), "no standard M10 bolt fits 'bracket 40'"),
    ],
)
def test_cards_that_do_not_go_together_are_refused(cards: tuple[str, ...], words: str) -> None:
    with pytest.raises(UnsuitedCardsError, match=words):
        starter_text("mm", 2, cards)


@pytest.mark.parametrize("card", CARDS)
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
    # the first bench of timber has a glue that stays open for as long as its largest glue-up takes
    exclude = {"use", *({"open_time"} if written.spec.frame.system == "timber" else ())}
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
    """Hovering over a key in an editor must say something, and not the name of a class."""
    data = json.loads(schema_json())
    silent = [
        f"{name}.{key}"
        for name, model in {**data["$defs"], "Spec": data}.items()
        for key, entry in model.get("properties", {}).items()
        if not entry.get("description") or "title" in entry
    ]
    assert silent == []
    assert [
        model["title"] for model in data["$defs"].values() if model["title"] != model["title"].lower()
    ] == []


def test_an_editor_offers_the_names_of_cards_and_of_a_spec_s_own_goods() -> None:
    """`.ci/try-editor` asks a language server the same."""
    hardware = {"my-clip": {"use": "end clip M8"}, "box": {"use": "slide 500"}}
    data = json.loads(schema_json({"hardware": hardware, "totes": {"crate": {}}}))
    _, *of_kinds = data["properties"]["materials"]["additionalProperties"]["anyOf"]
    forms = [data["$defs"][each["$ref"].rpartition("/")[2]] for each in of_kinds]
    cards = [name for form in forms for name in form["properties"]["use"]["enum"]]
    assert "profile 40" in cards
    assert "slide 500" not in cards
    default = data["$defs"]["JointChoice"]["properties"]["default"]
    assert default["examples"] == ["my-clip", "end-clip", "through-screw"]
    (kind,) = [kind for kind in data["$defs"].values() if "totes" in kind.get("properties", {})]
    assert kind["properties"]["totes"]["examples"][0] == "crate"
    assert data["$id"] == json.loads(schema_json())["$id"]
