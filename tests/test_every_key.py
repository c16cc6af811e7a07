"""Two specs have every key of the language, by the schema itself, and they build without an error."""

from __future__ import annotations

from collections.abc import Iterator
from types import NoneType, UnionType
from typing import Annotated, Any, Union, get_args, get_origin

import yaml
from pydantic import BaseModel, Tag

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import Finding, Severity
from generator.manual import compile_manual
from generator.spec.cards import typical_cards
from generator.spec.load import LoadedSpec, RecordText, read_spec
from generator.spec.record import KEYS
from generator.spec.schema import Spec
from tests.mutants import EVERY_KEY, RECORD

Key = tuple[str, str]


def keys_of(kind: Any) -> Iterator[Key]:
    """Every key of the language below an annotation, with the name of its group."""
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        for name, field in kind.model_fields.items():
            yield kind.__name__, name
            yield from keys_of(field.annotation)
    for member in get_args(kind):
        yield from keys_of(member)


def written(kind: Any, data: Any) -> Iterator[Key]:
    """The keys of the language that stand in the data, which has the annotation's shape."""
    origin, members = get_origin(kind), get_args(kind)
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        for name, value in (
            data.items() if isinstance(data, dict) else ()
        ):  # one word may stand for all its keys
            yield kind.__name__, name
            yield from written(kind.model_fields[name].annotation, value)
    elif origin is Annotated:
        yield from written(members[0], data)
    elif origin in (Union, UnionType):
        member = [each for each in members if each is not NoneType and _suits(each, data)]
        if member and isinstance(data, dict | list):
            yield from written(member[0], data)
    elif origin is dict:
        for value in data.values():
            yield from written(members[1], value)
    elif origin is tuple and isinstance(data, list):
        for value in data:
            yield from written(members[0], value)


def _suits(member: Any, data: Any) -> bool:
    """Whether a member of a union is what the data names by its kind, or by its card's."""
    tags = [note.tag for note in get_args(member) if isinstance(note, Tag)]
    if not tags:
        return True
    cards = [cards[data["use"]] for cards in typical_cards().values() if data.get("use") in cards]
    return tags[0] in (data.get("kind"), *(card.get("kind") for card in cards))


#: Keys that exclude those of the other.
OTHER_KEYS = EVERY_KEY.with_name("other-keys.yml")
#: Those of a frame of timber; it is built in test_timber.
TIMBER = EVERY_KEY.with_name("timber.yml")
#: Those of its laps, screws and pockets; it is among the samples.
LUMBER = EVERY_KEY.parents[2] / "specs" / "samples" / "lumber.yml"
#: Those of its bridles; it is among the samples too.
JOINER = LUMBER.with_name("joiner.yml")
#: Those of a plinth; it is built in tests/bench/stands/test_plinth.py.
PLINTH = EVERY_KEY.with_name("plinth.yml")


def loaded() -> LoadedSpec:
    record = RecordText(RECORD.read_text(), RECORD.name)
    return read_spec(EVERY_KEY.read_text(), EVERY_KEY.name, record)


def test_every_key_of_the_language_stands_in_the_specs() -> None:
    data = [
        yaml.load(path.read_text(), Loader=yaml.BaseLoader)
        for path in (EVERY_KEY, OTHER_KEYS, TIMBER, LUMBER, JOINER, PLINTH)
    ]
    found = {key for each in data for key in written(Spec, each)}
    assert set(keys_of(Spec)) - found == set()


def test_every_key_of_a_record_stands_in_its_record() -> None:
    entries = yaml.load(RECORD.read_text(), Loader=yaml.BaseLoader)
    assert {key for entry in entries for key in entry} == set(KEYS)


def test_the_spec_with_every_key_builds_without_an_error() -> None:
    spec = loaded()
    figures, findings = compute(solve(spec))
    assert [str(each) for each in findings if each.severity is Severity.ERROR] == []
    assert all(isinstance(each, Finding) and each.where for each in findings)
    files = compile_manual(spec, figures, EVERY_KEY.name)
    assert "Bench with every key" in files["docs/index.md"].decode()


def test_the_spec_with_the_other_keys_builds_without_an_error() -> None:
    spec = read_spec(OTHER_KEYS.read_text(), OTHER_KEYS.name)
    figures, findings = compute(solve(spec))
    assert [str(each) for each in findings if each.severity is Severity.ERROR] == []
    files = compile_manual(spec, figures, OTHER_KEYS.name)
    assert "Bench with the other keys" in files["docs/index.md"].decode()
