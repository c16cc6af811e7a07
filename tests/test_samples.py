"""The samples: they use the language together, and each can be written in another size."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from generator.figures.compute import figures_of
from generator.figures.model import Figures
from generator.findings import Finding, Severity
from generator.spec.load import read_spec
from generator.spec.samples import AS_IT_IS, SAMPLES, STACKS, like, sample_size, sample_text
from generator.spec.schema import Spec
from generator.verbs.new import LIKE, STORE, new
from tests.benchmarks.advice import specs, tried
from tests.test_every_key import keys_of, written

#: A sample has no picture file beside it. Where a bench comes from is written by `adapt`; a sample begins the chain.
NOT_IN_A_SAMPLE = {
    ("Site", "image"),
    # a sample is one file: another bench of a row is one of the same spec
    ("Join", "to"),
    ("Spec", "adapted_from"),
    *(("Source", key) for key in ("title", "url", "revision", "checksum", "designer", "licence")),
}


@cache
def made(name: str) -> tuple[Figures, tuple[Finding, ...]]:
    return figures_of(read_spec(sample_text(name), "sample.yml"))


def test_the_command_offers_what_there_is() -> None:
    assert tuple(SAMPLES) == LIKE
    assert (AS_IT_IS, *STACKS) == STORE


def test_together_they_use_every_key_of_the_language() -> None:
    data = [yaml.load(sample_text(name), Loader=yaml.BaseLoader) for name in SAMPLES]
    used = {key for each in data for key in written(Spec, each)}
    assert set(keys_of(Spec)) - used == NOT_IN_A_SAMPLE, "write the key in a sample of specs/samples"


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_checks_without_an_error(name: str) -> None:
    assert [str(each) for each in made(name)[1] if each.severity is Severity.ERROR] == []


def test_a_bench_with_leg_room_takes_one_more_support_behind() -> None:
    """Its own side has supports beside the leg room, so that six add one to the rear alone."""
    advised = {each.code: [str(change) for change in each.remedy] for each in made("desk")[1]}
    assert advised["sag-base"] == advised["sag-top-bar"] == ["`base.count: 6`"]


@pytest.mark.thorough
@pytest.mark.parametrize("spec", specs(), ids=lambda spec: f"{spec.parent.name}, {spec.stem}")
def test_advice_that_names_keys_cures(spec: Path) -> None:
    assert [str(each.finding) for each in tried(spec) if each.left] == []


def test_a_top_of_several_boards_is_called_by_all_of_them() -> None:
    (step,) = (each for each in made("assembly")[0].assembly.steps if each.key == "top")
    assert [motion.called for motion in step.motions] == ["TB1 to TB5"]


def test_each_has_names_of_its_own() -> None:
    specs = [read_spec(sample_text(name), f"{name}.yml").spec for name in SAMPLES]
    assert len({spec.title for spec in specs}) == len({spec.designer for spec in specs}) == len(SAMPLES)
    assert {spec.units for spec in specs} == {"mm", "in"}


def test_a_sample_in_another_size_for_other_things() -> None:
    spec = read_spec(like("cart", {"length": "1300 mm", "height": "34"}, "sheets"), "cart.yml").spec
    assert (spec.bench.length, spec.bench.height) == (1300, 34 * Fraction(254, 10))
    assert [[item.slots for item in bay.stack] for zone in spec.zones for bay in zone.bays] == [[4], [4]]
    assert sample_size("cart")["height"] == "35 1/2"


def test_what_does_not_fit_is_not_written(tmp_path: Path) -> None:
    file = tmp_path / "mine.yml"
    result = CliRunner().invoke(
        new, [str(file), "--like", "cart", "--length", "200 mm"], standalone_mode=False
    )
    assert result.return_value not in (0, None)
    assert not file.exists()
    result = CliRunner().invoke(new, [str(file), "--height", "900"], standalone_mode=False)
    assert result.return_value not in (0, None)


def test_answers_write_a_spec_without_an_error(tmp_path: Path) -> None:
    file = tmp_path / "mine.yml"
    asked = ["--like", "cart", "--length", "50", "--depth", "31", "--height", "36", "--store", "tools"]
    result = CliRunner().invoke(new, [str(file), *asked], standalone_mode=False)
    assert result.return_value == 0, result.output
    size = read_spec(file.read_text(encoding="utf-8"), "mine.yml").spec.bench
    assert (size.length, size.depth, size.height) == tuple(each * Fraction(254, 10) for each in (50, 31, 36))
