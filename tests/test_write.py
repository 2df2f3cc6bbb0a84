"""``chordae write``: from any format to any other, whole or not at all."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from chordae.cli import main
from chordae.commands.write import FORMATS
from chordae.rdf.parse import FORMATS as RDF
from generate_records import make_records

ENDINGS = {"turtle": "ttl", "ntriples": "nt", "nquads": "nq"}
BASE = "https://example.org/collection/"


@pytest.fixture
def hearts(tmp_path: Path) -> Path:
    path = tmp_path / "hearts.ndjson"
    path.write_text("".join(json.dumps(record) + "\n" for record, _ in make_records(4, seed=8)), encoding="utf-8")
    return path


def run(*words: object) -> int:
    return main([str(word) for word in words])


@pytest.mark.parametrize("format", ["yaml", "json", "ndjson", *RDF])
def test_there_and_back_again(
    hearts: Path, tmp_path: Path, format: str, capsysbinary: pytest.CaptureFixture[bytes]
) -> None:
    there, back = tmp_path / f"there.{ENDINGS.get(format, format)}", tmp_path / "back.ndjson"
    assert run("write", hearts, "--to", format, "--out", there, "--base", BASE) == 0
    assert run("write", there, "--to", "ndjson", "--out", back) == 0
    read = [json.loads(line) for line in back.read_text(encoding="utf-8").splitlines()]
    assert read == [record for record, _ in make_records(4, seed=8)]
    assert capsysbinary.readouterr() == (b"", b"")


def test_every_format_is_offered() -> None:
    assert {"yaml", "json", "ndjson", "turtle", "ntriples", "nquads", "trig", "jsonld"} <= set(FORMATS)


def test_a_short_record_is_expanded_and_faults_become_remarks(
    tmp_path: Path, capsysbinary: pytest.CaptureFixture[bytes]
) -> None:
    path = tmp_path / "short.yaml"
    path.write_text("- id: '1'\n  facts: {topology: D-loop}\n  stated: {av_connection: concordnat}\n", encoding="utf-8")
    assert run("write", path, "--to", "json") == 1
    out, err = capsysbinary.readouterr()
    assert json.loads(out) == [
        {
            "id": "1",
            "stated": {"topology": "right_hand"},
            "remarks": [{"text": "concordnat", "place": "stated.av_connection"}],
        }
    ]
    assert b"S-VAL" in err and b"I-SHO-01" in err and b"short.yaml:3" in err


def test_derived_statements_come_when_asked_for(hearts: Path, capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    assert run("write", hearts, "--to", "ntriples", "--derived", "--base", BASE) == 0
    with_derived = capsysbinary.readouterr().out.decode()
    assert f"<{BASE}INV-000000> <https://w3id.org/chordae/model/derived> <{BASE}INV-000000/derived> ." in with_derived
    assert run("write", hearts, "--to", "ntriples", "--base", BASE) == 0
    without = capsysbinary.readouterr().out.decode()
    assert "/derived" not in without
    assert set(without.split("\n")) < set(with_derived.split("\n"))


@pytest.mark.parametrize("format", ["yaml", "turtle", "jsonld"])
def test_derived_statements_are_read_back(hearts: Path, tmp_path: Path, format: str) -> None:
    there = tmp_path / f"there.{ENDINGS.get(format, format)}"
    again = tmp_path / "again.nt"
    straight = tmp_path / "straight.nt"
    assert run("write", hearts, "--to", format, "--out", there, "--derived") == 0
    assert run("write", there, "--to", "ntriples", "--out", again) == 0
    assert run("write", hearts, "--to", "ntriples", "--out", straight, "--derived") == 0
    assert again.read_bytes() == straight.read_bytes()


def test_a_base_that_is_no_iri_stops_the_command(
    hearts: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out.nt"
    assert run("write", hearts, "--to", "ntriples", "--base", "here", "--out", out) == 2
    assert "cannot be the base" in capsys.readouterr().err
    assert not out.exists()


def test_rdf_that_is_broken_is_an_issue_with_its_line(
    tmp_path: Path, capsysbinary: pytest.CaptureFixture[bytes]
) -> None:
    path = tmp_path / "broken.ttl"
    path.write_text(
        "@prefix m: <https://w3id.org/chordae/model/> .\n<https://e/1> a m:Record ; .\n<x", encoding="utf-8"
    )
    assert run("write", path, "--to", "ndjson") == 1
    out, err = capsysbinary.readouterr()
    assert json.loads(out) == {"id": "1"}
    assert b"I-RDF-01" in err and b"broken.ttl:3" in err


def test_rdf_on_standard_input_needs_its_format(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    out = tmp_path / "out.ndjson"
    import io
    import sys

    class Input:
        buffer = io.BytesIO(b"<https://e/9> a <https://w3id.org/chordae/model/Record> .\n")

    monkeypatch.setattr(sys, "stdin", Input())
    assert run("write", "-", "--format", "turtle", "--to", "ndjson", "--out", out) == 0
    assert json.loads(out.read_text(encoding="utf-8")) == {"id": "9"}
