"""Goods that the spec names win over the standard cards, and nothing that it names is passed over."""

from __future__ import annotations

from functools import cache

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.hardware import hardware
from generator.figures.model import Figures
from generator.figures.unused import unused
from generator.findings import Finding
from generator.resources import bundled
from generator.spec.load import read_spec

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
HARDWARE = (
    "end-clip: {use: end clip M8}, through-screw: {use: through screw M8}, slot-nut: {use: slot nut M8}, "
    "slide: {use: slide 500}, caster: {use: caster 100}"
)


@cache
def made(more: str) -> tuple[Figures, tuple[Finding, ...]]:
    """The starter with more keys at its end."""
    loaded = read_spec(f"{STARTER}\n{more}\n", "bench.yml")
    return compute(solve(loaded))


def row(figures: Figures, kind: str) -> tuple[str, int, int, str]:
    (found,) = [each for each in figures.hardware if each.kind == kind]
    return found.item, found.count, found.spare, found.size


def test_the_specs_own_nut_takes_bolts_and_washers_of_its_thread() -> None:
    figures, _ = made("hardware: {nut: {kind: slot nut, thread: M10, height: 5, entry: slide-in}}")
    # two rails with two brackets each and as many spare, four plates with four bolts each
    assert row(figures, "slot nut") == ("nut", 24, 3, "M10, slide-in")
    assert row(figures, "washer")[3] == "10.5 x 2"
    assert row(figures, "caster plate bolt")[3] == "M10x20"
    assert row(figures, "caster screw")[3] == "M10x16"
    assert {
        op.size for each in figures.parts for op in each.operations if op.purpose.startswith("bolt to")
    } == {11}


@pytest.mark.parametrize(
    ("kind", "entry", "key"),
    [
        ("end clip", "{use: end clip M8}", "frame.joints.default"),
        ("through screw", "{use: through screw M8}", "frame.joints.inner_post_tops"),
        ("slot nut", "{use: slot nut M8}", "frame.slot_nut"),
        ("slide", "{use: slide 500}", "drawers.slide"),
        ("caster", "{use: caster 100}", "base.casters"),
    ],
)
def test_own_hardware_needs_no_key_of_its_own(kind: str, entry: str, key: str) -> None:
    figures, findings = made(f"hardware: {{my own: {entry}}}")
    assert row(figures, kind)[0] == "my own"
    (told,) = [each for each in figures.assumed if each.path == key]
    assert (told.value, told.reason) == ("my own", "the first of its kind under `hardware`")
    assert not [each for each in findings if each.severity.name == "ERROR"]


def test_an_own_profile_and_strip_win() -> None:
    text = STARTER.replace("bar: {use: profile 40}", "alu: {use: profile 40}\n  lath: {use: strip 50 x 15}")
    loaded = read_spec(text, "bench.yml")
    figures, _ = compute(solve(loaded))
    assert {part.material for part in figures.parts if part.kind in ("profile", "strip")} == {"alu", "lath"}


def test_a_name_that_the_spec_gives_the_standard_goods_stays() -> None:
    figures, _ = made(f"hardware: {{other: {{use: caster 100, rating: 90 kg}}, {HARDWARE}}}")
    assert row(figures, "caster")[0] == "caster" and figures.casters.rating == 180


def test_spares_go_by_the_kind_of_goods() -> None:
    figures, _ = made("hardware: {wheel: {use: caster 100}, washer: {use: slide 500}}")
    assert row(figures, "caster") == ("wheel", 4, 0, "")
    assert row(figures, "slide")[:3] == ("washer", 3, 0)
    assert row(figures, "washer")[:3] == ("washer", 4, 2)
    assert [each.quantity for each in figures.purchases if each.item == "wheel"] == [4]
    # every fixing is told in its own step, by what it is
    (casters,) = [step for step in figures.assembly.steps if "casters" in step.title.lower()]
    assert ("wheel", 4) in {(each.item, each.count) for each in casters.fixings}


def test_caster_plates_are_bought_once_and_casters_by_their_brakes() -> None:
    figures, _ = made("")
    assert [each.item for each in figures.purchases if "plate" in each.item and "bolt" not in each.item] == [
        "caster plate"
    ]
    assert row(figures, "caster plate") == ("caster plate", 4, 0, "170 x 170 x 10 mm")
    text = STARTER.replace("{count: 4}", "{count: 6}")
    loaded = read_spec(text, "bench.yml")
    six, _ = compute(solve(loaded))
    bought = {each.item: each.quantity for each in six.purchases if each.item.startswith("caster,")}
    assert bought == {"caster, swivel with brake": 4, "caster, swivel without brake": 2}


def passed_over(text: str) -> tuple[Finding, ...]:
    loaded = read_spec(text, "bench.yml")
    return unused(loaded, hardware(solve(loaded)))


@pytest.mark.parametrize(
    ("old", "new", "place", "advice"),
    [
        # the same card as the sheet that takes its place: these keys are meant
        ("  ply-12: {use", "  birch: {use: plywood 12, thickness: 11.5}\n  ply-12: {use", "materials.birch",
         "`panels.material: birch` (or tray.material, drawers.box)"),
        ("  ply-12: {use", "  rim: {use: angle 15}\n  ply-12: {use", "materials.rim", "`tray.trim: rim`"),
        ("  ply-12: {use", "  alu: {use: profile 30}\n  ply-12: {use", "materials.alu", "`frame.material: alu`"),
        ("zones:", "hardware: {one: {use: slot nut M8}, two: {use: slot nut M8}}\nzones:", "hardware.two",
         "`frame.slot_nut: two`"),
        ("zones:", "hardware: {one: {use: caster 100}, two: {use: caster 100}}\nzones:", "hardware.two",
         "`base.casters: two`"),
        ("zones:", "totes: {bin: {use: tote 145}}\nzones:", "totes.bin", "`{totes: bin}` in the `stack` of a bay"),
        ("zones:", "packs: {slide scrw: {pack: 100}}\nzones:", "packs.slide scrw", "Or delete the entry."),
    ],
)  # fmt: skip
def test_what_nothing_uses_is_told_with_the_key_that_could(
    old: str, new: str, place: str, advice: str
) -> None:
    assert STARTER.count(old) == 1
    (finding,) = passed_over(STARTER.replace(old, new))
    assert finding.severity.name == "WARNING"
    assert finding.where and finding.where.path == place
    assert advice in finding.advice


def test_the_advice_for_an_unused_name_mends_it() -> None:
    text = STARTER.replace("  ply-12: {use", "  birch: {use: plywood 12, thickness: 11.5}\n  ply-12: {use")
    keys = "panels: {material: birch}\ntray: {material: birch}\ndrawers: {box: birch}\n"
    # now it is the other sheet that nothing uses
    (finding,) = passed_over(text + keys)
    assert finding.found == "ply-12"
    assert not passed_over(text.replace("  ply-12: {use: plywood 12} ", "  ") + keys)


@pytest.mark.parametrize("spec", ["demo.yml", "wall-bench.yml", "starter.yml"])
def test_the_shipped_specs_use_all_that_they_name(spec: str) -> None:
    assert not passed_over((bundled("specs") / spec).read_text(encoding="utf-8"))


def test_a_check_tells_what_nothing_uses() -> None:
    assert "unused-name" in {each.code for each in made("totes: {bin: {use: tote 145}}")[1]}


def test_a_name_that_a_default_would_take_may_mean_something_else() -> None:
    figures, _ = made("hardware: {through-screw: {use: caster 100}, slide: {use: bracket 40}}")
    assert row(figures, "caster")[:2] == ("through-screw", 4)
    assert row(figures, "through screw")[0] == "through screw M8"
    assert row(figures, "slide")[0] == "slide 500"


def test_the_strip_of_an_edging_is_no_packing() -> None:
    """The only strip of a spec is its packing, unless it is named for the edging."""
    oak = "materials: {oak: {use: strip 50 x 20}, bar: {use: profile 40}}\ntop: {edging: {material: oak}}\n"
    head = "spec: 1\ntitle: Edged\nbench: {length: 1500, depth: 700, height: 900}\n"
    zones = "zones: [{name: front, bays: [{name: A, stack: [{drawer: share}]}, {name: B}]}]\n"
    spec = read_spec(head + oak + zones, "bench.yml").spec
    assert (spec.top.edging and spec.top.edging.material, spec.drawers.packing) == ("oak", "poplar-20")
    alone = read_spec(head + oak.split("top:", maxsplit=1)[0] + zones, "bench.yml").spec
    assert alone.drawers.packing == "oak"
