"""Safe YAML with the place of every key and value."""

from __future__ import annotations

import os
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from generator.findings import Finding, SpecError
from generator.spec.document import Document, path_text
from generator.spec.reader import read_document
from generator.spec.text_file import read_text

SPEC = """\
title: Rolling bench
revision: {number: B, date: 2026-11-02}
zones:
  - name: front
    bays: [{name: F1, width: 33 1/4}, {name: F2, width: share}]
panels:
  tongue: 10
  # nothing here
  note:
"""


def read(text: str, **options: Any) -> Document:
    return read_document(text, "bench.yml", **options)


def findings(text: str, **options: Any) -> tuple[Finding, ...]:
    with pytest.raises(SpecError) as caught:
        read(text, **options)
    return caught.value.findings


def only_finding(text: str, **options: Any) -> Finding:
    (finding,) = findings(text, **options)
    return finding


@pytest.mark.parametrize(
    "word",
    ["No", "On", "yes", "true", "1e3", "2026-11-02", "33 1/4", "0x1F", "012", "1_000", ".inf", "12:30", "="],
)
def test_a_scalar_stays_as_it_is_written(word: str) -> None:
    assert read(f"name: {word}").data == {"name": word}
    assert read(f"{word}: name").data == {word: "name"}


@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("", None),
        ("~", None),
        ("null", None),
        ("''", ""),
        ('"~"', "~"),
        ("'null'", "null"),
        ("!!str null", "null"),
    ],
)
def test_only_an_empty_plain_scalar_is_none(written: str, value: str | None) -> None:
    assert read(f"name: {written}").data == {"name": value}


@pytest.mark.parametrize("length", ['23 5/8"', "3'2-1/2\"", "23-5/8 in"])
def test_lengths_need_no_quotes(length: str) -> None:
    assert read(f"bench: {{width: {length}}}").data == {"bench": {"width": length}}


def test_nested_data() -> None:
    data = read(SPEC).data
    assert data["zones"][0]["bays"][1] == {"name": "F2", "width": "share"}
    assert data["panels"] == {"tongue": "10", "note": None}


@pytest.mark.parametrize(
    ("path", "of_key", "place"),
    [
        (("title",), False, (1, 8)),
        (("title",), True, (1, 1)),
        (("revision", "date"), False, (2, 29)),
        (("zones", 0), False, (4, 5)),
        (("zones", 0, "bays", 1, "width"), False, (5, 57)),
        (("zones", 0, "bays", 1, "width"), True, (5, 50)),
        (("panels", "note"), True, (9, 3)),
        ((), False, (1, 1)),
    ],
)
def test_every_key_and_value_has_its_place(path: Any, of_key: bool, place: tuple[int, int]) -> None:
    where = read(SPEC).where(path, of_key)
    assert (where.line, where.column) == place
    assert where.path == path_text(path)


def test_what_is_missing_is_placed_at_the_key_around_it() -> None:
    where = read(SPEC).where(("panels", "material", "name"))
    assert (where.line, where.column, where.path) == (6, 1, "panels.material.name")
    assert str(read(SPEC).where(("bench",))) == "bench.yml:1:1"


def test_a_quoted_place_has_a_caret_below_it() -> None:
    document = read("bench:\n  width: 33 inn\n")
    assert document.quote(document.where(("bench", "width"))) == "  width: 33 inn\n         ^"
    wide = read("list: [" + ", ".join(f"item{n}" for n in range(100)) + "]")
    line, caret = wide.quote(wide.where(("list", 70))).split("\n")
    assert len(line) <= 120
    assert line[caret.index("^") :].startswith("item70")


def test_paths() -> None:
    assert path_text(("zones", 0, "bays", 2, "width")) == "zones[0].bays[2].width"
    assert path_text(()) == ""
    assert path_text((3, "cut")) == "[3].cut"


def test_aliases_are_written_out_and_placed_where_they_are_used_by_key() -> None:
    document = read("a: &size {length: 5}\nb: *size\n")
    assert document.data["b"] == {"length": "5"}
    assert document.data["b"] is not document.data["a"]
    assert document.where(("b",), of_key=True).line == 2


def test_a_byte_order_mark_and_other_line_ends_count_right() -> None:
    document = read("\ufeffa: 1\r\nb: 2\r\n")
    assert document.lines[:2] == ("a: 1", "b: 2")
    assert (document.where(("a",)).column, document.where(("b",)).line) == (4, 2)


def test_a_list_at_the_top() -> None:
    assert read("- {note: dry fit}\n- note: again\n", top="list").data == [
        {"note": "dry fit"},
        {"note": "again"},
    ]
    assert read("# no entry yet\n", top="list").data == []
    assert only_finding("a: 1", top="list").code == "not-a-list"


# --- findings

BOMB = "a0: &a0 [x, x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]\n" for n in range(1, 25))
CHAIN = "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [*a{n - 1}]\n" for n in range(1, 40))

FAULTS = {
    "a: [1, 2": ("yaml-syntax", 1),
    "a: 'open\nb: 1\n": ("yaml-syntax", 1),
    "a: b: c": ("yaml-syntax", 1),
    "a: 1\n  b: 2\n c: 3": ("yaml-syntax", 2),
    "a:\n\tb: 1\n": ("yaml-syntax", 2),
    "a:\n  b: 1\n\tc: 2\n": ("yaml-syntax", 3),
    "a: *nowhere": ("yaml-syntax", 1),
    "a: &a [*a]": ("yaml-syntax", 1),
    "a: &a 1\nb: &a 2": ("yaml-syntax", 2),
    "a: @home": ("yaml-syntax", 1),
    "a: %5": ("yaml-syntax", 1),
    "a: !x!y 1": ("yaml-syntax", 1),
    'a: "\\UFFFFFFFF"': ("yaml-syntax", 1),
    'a: "\\q"': ("yaml-syntax", 1),
    "a: - b": ("yaml-syntax", 1),
    "%YAML 9.9\n---\na: 1": ("yaml-syntax", 1),
    "a: 1\nb: 2\na: 3": ("duplicate-key", 3),
    "": ("not-a-mapping", 1),
    "# a comment alone\n": ("not-a-mapping", 1),
    "- a\n": ("not-a-mapping", 1),
    "\njust text": ("not-a-mapping", 2),
    "a: &a {x: 1}\nb:\n  <<: *a": ("merge-key", 3),
    "a: !!python/object/apply:os.system [ls]": ("custom-tag", 1),
    "a: !!int 5": ("custom-tag", 1),
    "a: !mine {b: 1}": ("custom-tag", 1),
    "a: ! text": ("custom-tag", 1),
    "a: !!str {b: 1}": ("custom-tag", 1),
    "a: 1\n---\nb: 2": ("several-documents", 2),
    "? {a: 1}\n: b": ("bad-key", 1),
    "? [a]\n: b": ("bad-key", 1),
    "a: 1\n~: b": ("bad-key", 2),
    "'': b": ("bad-key", 1),
    "a: {{name}}": ("bad-key", 1),
    '"a\\nb": 1': ("bad-key", 1),
    "a: 1\nb: \x07": ("control-character", 2),
    'a: "\\0"': ("control-character", 1),
    'a: "\\ud800"': ("control-character", 1),
    "a: \ud800": ("control-character", 1),
    "[" * 2000: ("too-large", 1),
    "? " * 2000: ("too-large", 1),
    "a: " + "[" * 31 + "]" * 31: ("too-large", 1),
    "a: [" + "1, " * 20_000 + "]": ("too-large", 1),
    "a: " + "1" * 1_000_000: ("too-large", 1),
    BOMB: ("too-large", 13),
    CHAIN: ("too-large", 30),
}


@pytest.mark.parametrize(("text", "expected"), FAULTS.items(), ids=[text[:20] for text in FAULTS])
def test_a_fault_has_its_code_and_its_line(text: str, expected: tuple[str, int]) -> None:
    finding = only_finding(text)
    assert finding.where is not None
    assert (finding.code, finding.where.line) == expected
    assert str(finding).startswith("bench.yml:")


def test_all_faults_but_syntax_are_told_at_once() -> None:
    text = "a: 1\na: 2\nb: {c: 1, c: 2, {x}: 3, d: !!int 1}\n<<: {}\na: 3\n"
    told = [(finding.code, finding.where.line) for finding in findings(text) if finding.where]
    assert told == [
        ("duplicate-key", 2),
        ("duplicate-key", 3),
        ("bad-key", 3),
        ("custom-tag", 3),
        ("merge-key", 4),
        ("duplicate-key", 5),
    ]
    assert [finding.code for finding in findings(text + "x: [")] == ["yaml-syntax"]


def test_a_duplicate_names_the_line_of_the_first() -> None:
    finding = only_finding("frame:\n  material: bar\n  through: posts\n  material: tube\n")
    assert "first in line 2" in finding.message
    assert finding.where is not None
    assert finding.where.path == "frame.material"


def test_a_tab_has_its_own_advice() -> None:
    finding = only_finding("a:\n\tb: 1\n")
    assert "tab" in finding.message
    assert "spaces" in finding.advice


def test_where_an_open_bracket_began_is_told() -> None:
    assert "begins in line 2" in only_finding("a: 1\nb: [1, 2\nc: 3\n").message


def test_nothing_is_executed(tmp_path: Path) -> None:
    victim = tmp_path / "made"
    findings(f"a: !!python/object/apply:pathlib.Path.touch [!!python/object/apply:pathlib.Path ['{victim}']]")
    assert not victim.exists()


@pytest.mark.parametrize(
    "text",
    [
        BOMB,
        "[" * 999_999,
        "- " * 499_999,
        "a: 1\n" * 199_999,
        "\n" * 999_999,
        "{a: " * 249_999,
        '"' * 999_999,
    ],
)
def test_a_hostile_text_is_refused_soon(text: str) -> None:
    start = time.perf_counter()
    findings(text)
    assert time.perf_counter() - start < 20


# fmt: off
PIECES = [
    "a", "b", ": ", ":\n", "\n", "  ", "- ", "[", "]", "{", "}", ", ", "&x ", "*x", "!!", "!t ", "<<", "? ",
    "|\n", ">-\n", "'", '"', "\\U", "\\x", "#", "%", "@", "\t", "---\n", "...\n", "~",
    "%YAML 1", "\ufeff", "\u2028",
]
# fmt: on
pieces = st.lists(st.sampled_from(PIECES), max_size=25).map("".join)


@given(st.text(max_size=60) | pieces, st.sampled_from(["mapping", "list"]))
@example("%YAML " + "9" * 5000, "mapping")
@example("a: !<%ff> b", "mapping")
def test_no_text_raises_anything_but_a_spec_error(text: str, top: Any) -> None:
    document, told = read_or_findings(text, top)
    assert (document is None) == bool(told)
    assert all(finding.where and finding.where.line >= 1 for finding in told)
    if document is not None:
        check_places(document, document.data, ())


def read_or_findings(text: str, top: Any) -> tuple[Document | None, tuple[Finding, ...]]:
    try:
        return read(text, top=top), ()
    except SpecError as error:
        return None, error.findings


def check_places(document: Document, data: Any, path: tuple[str | int, ...]) -> None:
    where = document.where(path)
    assert 1 <= where.line <= len(document.lines)
    assert document.quote(where).endswith("^")
    if not isinstance(data, dict | list):
        assert data is None or isinstance(data, str)
        return
    for step, child in data.items() if isinstance(data, dict) else enumerate(data):
        assert (*path, step) in document.places
        check_places(document, child, (*path, step))


names = st.text("abcdefgh-_ ", min_size=1, max_size=8).map(lambda text: " ".join(text.split())).filter(bool)
"""Names as they are read: white space in a key is one space."""
trees = st.recursive(
    st.text("abc019 /.", max_size=8),
    lambda inner: st.lists(inner) | st.dictionaries(names, inner),
    max_leaves=12,
)


@given(st.dictionaries(names, trees))
def test_what_is_written_is_read_back(data: dict[str, Any]) -> None:
    assert read(flow(data)).data == data


def flow(data: Any) -> str:
    if isinstance(data, dict):
        return "{" + ", ".join(f"'{key}': {flow(value)}" for key, value in data.items()) + "}"
    if isinstance(data, list):
        return "[" + ", ".join(flow(item) for item in data) + "]"
    return f"'{data}'"


# --- files


def file_finding(path: Path) -> Finding:
    with pytest.raises(SpecError) as caught:
        read_text(path)
    (finding,) = caught.value.findings
    return finding


def test_a_file_is_read_with_or_without_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "bench.yml"
    path.write_bytes(b"\xef\xbb\xbftitle: \xc3\xa9tabli\r\n")
    assert read_text(path) == "title: établi\r\n"


def test_a_missing_file_names_the_nearest(tmp_path: Path) -> None:
    (tmp_path / "bench.yml").write_text("a: 1")
    finding = file_finding(tmp_path / "bnech.yml")
    assert (finding.code, finding.nearest) == ("no-file", "bench.yml")
    assert file_finding(tmp_path / "none" / "bench.yml").code == "no-file"
    (tmp_path / ".shelf.record.yml.lock").write_text("")
    assert file_finding(tmp_path / "shelf.record.yml").nearest != ".shelf.record.yml.lock"


def test_what_is_not_readable_is_told(tmp_path: Path) -> None:
    assert file_finding(tmp_path).code == "is-a-folder"
    assert file_finding(tmp_path / "a\0b").code in ("no-file", "not-readable")
    assert file_finding(tmp_path / ("x" * 5000)).code == "not-readable"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with a name are not known here")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    assert file_finding(tmp_path / "pipe").code == "not-readable"


def test_a_locked_file_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The lock is played: a superuser, as in a container, may read everything."""
    path = tmp_path / "locked.yml"
    path.write_text("a: 1")

    def locked(*_: object, **__: object) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", locked)
    monkeypatch.setattr(Path, "open", locked)
    assert file_finding(path).code == "not-readable"


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_what_is_not_utf8_names_its_line(tmp_path: Path, mark: bytes) -> None:
    path = tmp_path / "bench.yml"
    path.write_bytes(mark + b"a: 1\nb: \xc3\xa9\xe9\n")
    finding = file_finding(path)
    assert finding.code == "not-utf8"
    assert finding.where is not None
    assert (finding.where.line, finding.where.column) == (2, 5)


def test_a_huge_file_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "bench.yml"
    path.write_bytes(b"#" * 1_000_001)
    assert file_finding(path).code == "too-large"
