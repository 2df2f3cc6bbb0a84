"""``chordae derive``: its forms, its order, its exit codes, and the account in words."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml

from chordae import cli

HEARTS = """\
- id: A
  facts: {atrial_arrangement: usual, topology: right_hand, av_connection: concordant, va_connection: discordant,
    aorta_relation: anterior_right}
- id: B
  stated: {notation: "D-TGA {S,L,L}"}
  parts:
  - {id: right_sided_atrium, type: Atrium, side: right_sided, pectinate_extent: not_assessable,
     observed: [{feature: pectinate_extent, state: not_assessable, state_reason: removed_at_dissection}]}
  - {id: left_sided_atrium, type: Atrium, side: left_sided, pectinate_extent: confined_to_appendage,
     observed: [{feature: pectinate_extent, certainty: certain, evidence_refs: [plate]}]}
  evidence: [{id: plate, source_file: plate_12.jpg}]
"""
KEYS = [
    "record", "notation", "arrangement", "topology", "av_connection", "va_connection", "statement", "identities",
    "diagnoses", "undetermined",
]  # fmt: skip


def run(*words: str, stdin: str = "", code: int = 0) -> subprocess.CompletedProcess[str]:
    done = subprocess.run(
        [sys.executable, "-m", "chordae", "derive", *words],
        input=stdin,
        capture_output=True,
        text=True,
        cwd=Path(cli.__file__).parents[1],
        check=False,
        timeout=60,
    )
    assert done.returncode == code, done.stderr
    assert "Traceback" not in done.stderr
    return done


@pytest.fixture
def hearts(tmp_path: Path) -> str:
    path = tmp_path / "hearts.yaml"
    path.write_text(HEARTS, encoding="utf-8")
    return str(path)


def test_one_object_a_line_in_the_order_of_the_records(hearts: str) -> None:
    done = run(hearts)
    found = [json.loads(line) for line in done.stdout.splitlines()]
    assert [one["record"] for one in found] == ["A", "B"]
    assert [one["notation"] for one in found] == ["TGA {S,D,D}", "TGA {S,L,L}"]
    for one in found:
        assert list(one)[: len(KEYS)] == KEYS
        assert list(one["statement"]) == ["european", "north_american"]
        assert all({"part", "identity", "basis", "confidence"} <= set(row) for row in one["identities"])
        assert all(list(row) == ["term", "label", "codes", "premises"] for row in one["diagnoses"])
        assert all(list(row) == ["what", "why"] for row in one["undetermined"])


@pytest.mark.parametrize(
    ("form", "read"), [("json", json.loads), ("yaml", lambda text: list(yaml.safe_load_all(text)))]
)
def test_the_other_forms_hold_the_same(hearts: str, form: str, read: Any) -> None:
    lines = [json.loads(line) for line in run(hearts).stdout.splitlines()]
    assert read(run(hearts, "--to", form).stdout) == lines


def test_standard_input_and_several_files(hearts: str, tmp_path: Path) -> None:
    second = tmp_path / "more.json"
    second.write_text('[{"id": "C", "stated": {"va_connection": "concordant"}}]', encoding="utf-8")
    assert run(stdin=HEARTS).stdout == run(hearts).stdout
    names = [json.loads(line)["record"] for line in run(hearts, str(second)).stdout.splitlines()]
    assert names == ["A", "B", "C"]


def test_notation_that_was_read_otherwise_is_an_issue(hearts: str) -> None:
    done = run(hearts)
    assert "I-NOT-04" in done.stderr
    assert "hearts.yaml:5:" in done.stderr
    run(hearts, "--fail-on", "info", code=1)


def test_the_account_in_words(hearts: str) -> None:
    text = run(hearts, "--explain").stdout
    assert run(hearts, "--to", "text").stdout == text
    for words in (
        "A  TGA {S,D,D}",
        "ventriculoarterial connection: discordant (as the observer stated it)",
        "left-sided atrium: morphologically left atrium (decided)",
        "+ pectinate extent = confined to appendage  (decides, U95)  [plate_12.jpg; certain]",
        "? pectinate extent (not assessable, removed at dissection)",
        "would decide: pectinate extent: to crux = morphologically right atrium",
        "because ventriculoarterial connection = discordant (stated)",
        "Not determined",
    ):
        assert words in text, words


def test_bad_input_gives_an_issue_and_no_traceback(tmp_path: Path) -> None:
    path = tmp_path / "bad.yaml"
    path.write_text(
        "- id: A\n  parts: 7\n- id: B\n  stated: {topology: sideways, notation: '{Q,Q,Q}'}\n", encoding="utf-8"
    )
    done = run(str(path), code=1)
    assert [json.loads(line)["record"] for line in done.stdout.splitlines()] == ["A", "B"]
    assert "I-NOT-02" in done.stderr
    run(str(tmp_path / "missing.yaml"), code=2)


def test_the_same_bytes_for_every_hash_seed(hearts: str) -> None:
    texts = set()
    for seed in ("0", "1", "77"):
        done = subprocess.run(
            [sys.executable, "-m", "chordae", "derive", hearts],
            capture_output=True,
            cwd=Path(cli.__file__).parents[1],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(cli.__file__).parents[1])},
            check=True,
        )
        texts.add(done.stdout)
    assert len(texts) == 1
