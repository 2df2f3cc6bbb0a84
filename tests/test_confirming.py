"""``chordae check --confirm``: the document comes back with one confirmation in it, and the warning is settled."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from chordae.cli import main
from chordae.intake.document import read_document

HEARTS = """\
- id: "0021"
  facts: {atrial_arrangement: usual, av_connection: concordant, topology: left_hand}
- id: "0022"
  evidence: [{id: e1, source_file: a.jpg}]
  stated: {atrial_arrangement: usual, av_connection: concordant, topology: left_hand}
"""
WHY = ["--by", "Reader A", "--reason", "Looked at again.", "--on", "2026-05-04"]


@pytest.fixture
def hearts(tmp_path: Path) -> Path:
    """A document of two hearts, one in the short form."""
    path = tmp_path / "hearts.yaml"
    path.write_text(HEARTS, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", ["0021", "0022"])
def test_the_document_comes_back_with_the_confirmation_in_it(
    hearts: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    before = [one.record for one in read_document(hearts)[0]]
    assert main(["check", str(hearts), "--fail-on", "warning"]) == 1
    assert main(["check", str(hearts), "--confirm", "R-TOPO-01", "--record", name, *WHY, "--out", str(hearts)]) == 0
    after = {one.record["id"]: one.record for one in read_document(hearts)[0]}
    (waiver,) = after[name].pop("waivers")
    assert list(after.values()) == before
    assert (waiver["confirmed_by"], waiver["confirmed_on"], waiver["rule"]) == ("Reader A", "2026-05-04", "R-TOPO-01")
    capsys.readouterr()
    main(["check", str(hearts), "--report", "json"])
    told = {one["record"]: one for one in json.loads(capsys.readouterr().out) if one["rule"] == "R-TOPO-01"}
    other = "0022" if name == "0021" else "0021"
    assert told[name]["severity"] == "info" and told[name]["confirmed"]["by"] == "Reader A"
    assert told[other]["severity"] == "warning" and "confirmed" not in told[other]


def test_evidence_is_named_and_has_to_be_there(hearts: Path, capsys: pytest.CaptureFixture[str]) -> None:
    command = ["check", str(hearts), "--confirm", "R-TOPO-01", "--record", "0022", *WHY, "--evidence"]
    assert main([*command, "e1"]) == 0
    assert "evidence_refs:\n    - e1" in capsys.readouterr().out
    assert main([*command, "e2"]) == 2
    assert "It has: e1." in capsys.readouterr().err


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--confirm", "R-TOPO-01", "--record", "0021", "--by", "A"], "needs --reason"),
        (["--confirm", "R-TOPO-01", "--record", "7", *WHY], "no record '7'"),
        (["--confirm", "R-TOP-01", "--record", "0021", *WHY], 'Did you mean "R-TOPO-01"?'),
        (["--confirm", "R-AV-13", "--record", "0021", *WHY], "does not speak of heart 0021"),
        (["--confirm", "R-TOPO-01", "--record", "0021", *WHY[:4], "--on", "yesterday"], "which is no day"),
    ],
)
def test_what_is_wrong_is_told_and_nothing_is_written(
    hearts: Path, options: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(hearts), *options, "--out", str(hearts)]) == 2
    assert words in capsys.readouterr().err
    assert hearts.read_text(encoding="utf-8") == HEARTS


def test_no_record_is_lost_because_it_could_not_be_read(hearts: Path, capsys: pytest.CaptureFixture[str]) -> None:
    broken = HEARTS + "- 17\n"
    hearts.write_text(broken, encoding="utf-8")
    assert main(["check", str(hearts), "--confirm", "R-TOPO-01", "--record", "0021", *WHY, "--out", str(hearts)]) == 2
    assert "Not every record could be read" in capsys.readouterr().err
    assert hearts.read_text(encoding="utf-8") == broken


def test_the_deposit_shows_it_in_every_report(
    hearts: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Page, JSON and table of an exchange; and the record that travels holds the confirmation."""
    main(["check", str(hearts), "--confirm", "R-TOPO-01", "--record", "0022", *WHY, "--out", str(hearts)])
    assert main(["exchange", str(hearts), "--out", str(tmp_path / "deposit"), "--fail-on", "never"]) == 0
    sentence = "Confirmed by Reader A on 2026-05-04: Looked at again."
    data = tmp_path / "deposit/data"
    for name in ("report.html", "report.json", "issues.json", "issues.tsv"):
        assert sentence in (data / name).read_text(encoding="utf-8"), name
    assert ">confirmed</span>" in (data / "report.html").read_text(encoding="utf-8")
    records = {one.record["id"]: one.record for one in read_document(data / "records.ndjson")[0]}
    assert records["0022"]["waivers"][0]["reason"] == "Looked at again."
    assert "/waiver/1> <https://w3id.org/chordae/model/reason>" in (data / "records.nq").read_text(encoding="utf-8")
    capsys.readouterr()
    main(["check", str(tmp_path / "deposit"), "--report", "json"])
    told = {one["record"]: one["severity"] for one in json.loads(capsys.readouterr().out) if one["rule"] == "R-TOPO-01"}
    assert told == {"0021": "warning", "0022": "info"}
