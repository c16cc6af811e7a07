"""Files and texts that are no spec."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.findings import SpecError
from generator.spec.load import read_spec_file
from generator.spec.reader import read_document
from generator.spec.unreadable import MAX_SIZE
from tests.test_spec_faults import faults

# --- files


def file_code(path: Path) -> tuple[str, str]:
    with pytest.raises(SpecError) as caught:
        read_spec_file(path)
    (finding,) = caught.value.findings
    return finding.code, finding.nearest


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "bench.yml").write_bytes(b"title: caf\xe9\n")
    (tmp_path / "large.yml").write_bytes(b"#" * (MAX_SIZE + 1))
    assert file_code(tmp_path) == ("is-a-folder", "")
    assert file_code(tmp_path / "bensh.yml") == ("no-file", "bench.yml")
    assert file_code(tmp_path / "none" / "bench.yml") == ("no-file", "")
    assert file_code(tmp_path / "bench.yml") == ("not-utf8", "")
    assert file_code(tmp_path / "large.yml") == ("too-large", "")
    assert file_code(tmp_path / ("x" * 5000)) == ("not-readable", "")


@pytest.mark.parametrize(
    ("text", "code"), [("", "not-a-mapping"), ("- a\n", "not-a-mapping"), ("just text", "not-a-mapping")]
)
def test_texts_that_are_no_spec(text: str, code: str) -> None:
    assert [finding.code for finding in faults(text)] == [code]


def test_a_record_must_be_a_list() -> None:
    with pytest.raises(SpecError) as caught:
        read_document("a: 1\n", "bench.record.yml", top="list")
    assert [finding.code for finding in caught.value.findings] == ["not-a-list"]
