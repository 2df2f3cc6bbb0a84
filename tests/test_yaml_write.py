"""The YAML of records is what PyYAML writes, byte for byte; and commands write it record by record."""

from __future__ import annotations

import io
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from chordae import cli
from chordae.intake import yaml_write
from chordae.intake.document_text import in_order, write_document
from chordae.intake.yaml_write import write_with_library, write_yaml
from generate_records import make_records

SIGNS = st.text(max_size=12) | st.text("ab \"\\'#:-?\n\t\u00e4\u2028\ufeff\x07\u2013\U0001f600", max_size=8)
WORDS = SIGNS | st.sampled_from(["no", "0012", "1:30", "~", "null", "Yes", "a b", "a  b", "x" * 200, "to: be"])
PLAIN = WORDS | st.integers() | st.booleans() | st.none() | st.floats(allow_nan=False)
VALUES = st.recursive(
    PLAIN, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3), max_leaves=12
)


@given(st.dictionaries(WORDS, VALUES, max_size=4))
@settings(max_examples=400, deadline=None)
def test_any_record_is_written_as_pyyaml_writes_it(record: dict[str, Any]) -> None:
    text = write_yaml(record)
    assert text == write_with_library(record)
    assert yaml.safe_load(io.StringIO(text)) == [record]


def test_records_do_not_need_the_library(monkeypatch: pytest.MonkeyPatch) -> None:
    records = [in_order(record) for record, _ in make_records(40, seed=3)]
    wanted = [write_with_library(record) for record in records]

    def fail(record: dict[str, Any]) -> str:
        raise AssertionError(record)

    monkeypatch.setattr(yaml_write, "write_with_library", fail)
    assert [write_yaml(record) for record in records] == wanted


@pytest.mark.parametrize("format", ["yaml", "json", "ndjson"])
def test_a_list_is_its_records_one_after_another(format: str) -> None:
    records = [record for record, _ in make_records(5, seed=1)]
    text = write_document(records, format)
    read = yaml.safe_load(text) if format != "ndjson" else [yaml.safe_load(line) for line in text.splitlines()]
    assert read == records
    assert write_document([], format) == ("" if format == "ndjson" else "[]\n")


@pytest.mark.parametrize("command", ["derive", "read"])
def test_records_are_written_as_they_come_and_a_file_whole_or_not_at_all(command: str, tmp_path: Path) -> None:
    """The first lines come out while the rest of the input has not been written; a stop leaves no file."""
    words = [sys.executable, "-m", "chordae", command, "-", "--format", "ndjson", "--to", "ndjson"]
    place = Path(cli.__file__).parents[1]
    line = b'{"id": "%d", "stated": {"av_connection": "concordant", "statement": "' + b"x" * 3000 + b'"}}\n'
    run = subprocess.Popen(words, cwd=place, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert run.stdin is not None and run.stdout is not None
    run.stdin.writelines(line % number for number in range(20))
    run.stdin.flush()
    first = run.stdout.readline()
    assert b'"0"' in first and run.poll() is None
    run.stdin.close()
    rest = run.stdout.read()
    assert run.wait(60) == 0
    assert len(rest.splitlines()) == 19
    out = tmp_path / "out.ndjson"
    run = subprocess.Popen([*words, "--out", str(out)], cwd=place, stdin=subprocess.PIPE, stderr=subprocess.PIPE)
    assert run.stdin is not None
    run.stdin.writelines(line % number for number in range(20))
    run.stdin.flush()
    end = time.monotonic() + 60
    while not list(tmp_path.glob(".out*.part")) and time.monotonic() < end:
        time.sleep(0.05)
    assert list(tmp_path.glob(".out*.part")), "it writes aside"
    run.send_signal(signal.SIGINT)
    _, said = run.communicate(timeout=60)
    assert (run.returncode, list(tmp_path.iterdir())) == (130, [])
    assert b"Interrupted" in said and b"Traceback" not in said
