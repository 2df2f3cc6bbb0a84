"""``chordae write --to`` and ``chordae read --from``: every format of the table, and the losses beside each."""

from __future__ import annotations

import io
import json
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest
from tests.formats_data import EXAMPLES, record_formats

from chordae import cli
from chordae.formats.table import FORMATS, Format
from chordae.intake.document_text import write_document

HEART = EXAMPLES / "ebstein_malformation.yaml"
HOW_CONFIRMED = {
    (True, True): "by reading each record again",
    (True, False): "by reading the file again",
    (False, False): "as marked by the writer",
}
"""By whether the format is read, and whether it should hold everything."""


def run(*words: object) -> int:
    return cli.main([str(word) for word in words])


def named(format: Format) -> str:
    return format.name


@pytest.mark.parametrize("format", record_formats(), ids=named)
def test_every_format_is_written_and_read_by_the_commands(format: Format, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run("write", HEART, "--to", format.name, "--out", out, "--losses", tmp_path / "losses.json") == 0
    assert out.is_dir() is format.several
    losses = json.loads((tmp_path / "losses.json").read_text(encoding="utf-8"))
    assert losses["format"] == format.name
    assert losses["confirmed"] == HOW_CONFIRMED[format.reads, format.lossless]
    totals = losses["totals"]
    assert totals["statements"] == totals["coded"] + totals["text"] + totals["dropped"] == 141
    assert (totals["coded"] == 141) or not format.lossless
    if not format.reads:
        assert run("read", out, "--from", format.name) == 2
        return
    report = tmp_path / "issues.json"
    words = ["--to", "json", "--out", tmp_path / "back.json", "--report", "json", "--report-to", report]
    run("read", out, "--from", format.name, *words)
    back = json.loads((tmp_path / "back.json").read_text(encoding="utf-8"))
    assert [one["id"] for one in back] == ["EX-12"]
    told = {one["rule"] for one in json.loads(report.read_text(encoding="utf-8"))}
    assert told <= {"S-REF"}, "what a format leaves out may leave a reference without its part, nothing else"


def test_the_losses_stand_beside_a_file_that_cannot_hold_everything(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("write", HEART, "--to", "phenopackets", "--out", tmp_path / "packets") == 0
    said = capsys.readouterr().err
    assert ", dropped " in said and "dropped 0" not in said
    beside = json.loads((tmp_path / "packets.losses.json").read_text(encoding="utf-8"))
    dropped = {one["path"]: one["value"] for one in beside["records"][0]["dropped"]}
    assert "/vocabulary_version" in dropped and len(dropped) == beside["totals"]["dropped"] > 0
    assert sum(row["dropped"] for row in beside["kinds"]) == beside["totals"]["dropped"]
    assert run("write", HEART, "--to", "turtle", "--out", tmp_path / "a.ttl") == 0
    assert capsys.readouterr().err == "", "nothing was lost, so nothing is said"
    totals = json.loads((tmp_path / "a.ttl.losses.json").read_text(encoding="utf-8"))["totals"]
    assert totals == {"statements": 141, "coded": 141, "text": 0, "dropped": 0}


def test_a_format_that_should_hold_everything_is_held_to_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The losses of a lossless format are found by reading each record again, not claimed."""
    module = FORMATS["turtle"].load()
    sound = module.read

    def forgetful(data: bytes, name: str, format: str) -> Any:
        readings, issues = sound(data, name, format)
        del readings[0].record["description"]["observer"]
        return readings, issues

    monkeypatch.setattr(module, "read", forgetful)
    assert run("write", HEART, "--to", "turtle", "--out", tmp_path / "a.ttl") == 0
    assert ", dropped 1;" in capsys.readouterr().err
    told = json.loads((tmp_path / "a.ttl.losses.json").read_text(encoding="utf-8"))
    assert [one["path"] for one in told["records"][0]["dropped"]] == ["/description/observer"]


def test_several_files_come_as_a_zip_where_there_is_no_folder(
    tmp_path: Path, capsysbinary: pytest.CaptureFixture[bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert run("write", HEART, "--to", "csv") == 0
    shown = capsysbinary.readouterr().out
    assert run("write", HEART, "--to", "csv", "--out", tmp_path / "a.zip", "--losses", tmp_path / "l") == 0
    assert (tmp_path / "a.zip").read_bytes() == shown
    with zipfile.ZipFile(io.BytesIO(shown)) as package:
        assert {"records.csv", "datapackage.json", "csv-metadata.json"} <= set(package.namelist())
    assert run("read", tmp_path / "a.zip", "--from", "csv", "--out", tmp_path / "a.yaml") == 0
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    assert run("write", HEART, "--to", "csv") == 2


def test_a_folder_that_is_filled_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "mine.txt").write_text("mine", encoding="utf-8")
    assert run("write", HEART, "--to", "dwca", "--out", tmp_path) == 2
    assert "is not empty" in capsys.readouterr().err
    assert [one.name for one in tmp_path.iterdir()] == ["mine.txt"]


def test_formats_are_found_from_the_name(tmp_path: Path) -> None:
    for name, to in (("a.fhir.json", "fhir"), ("a.dwca.zip", "dwca"), ("a.annotations.jsonld", "annotations")):
        assert run("write", HEART, "--to", to, "--out", tmp_path / name) == 0
        out = tmp_path / "back.json"
        assert run("read", tmp_path / name, "--to", "json", "--out", out, "--fail-on", "never") == 0
        assert json.loads(out.read_text(encoding="utf-8"))[0]["id"] == "EX-12"


def test_records_of_any_format_can_be_derived_and_checked(tmp_path: Path) -> None:
    assert run("write", HEART, "--to", "fhir", "--out", tmp_path / "a.fhir.json") == 0
    for command in ("derive", "check"):
        mine, theirs = (tmp_path / f"{command}-{name}.json" for name in ("mine", "theirs"))
        for source, out in ((HEART, mine), (tmp_path / "a.fhir.json", theirs)):
            words = {"derive": ["--out", out, "--to", "json"], "check": ["--report", "json", "--report-to", out]}
            run(command, source, *words[command])
        told = [_without_places(json.loads(one.read_text(encoding="utf-8"))) for one in (mine, theirs)]
        assert told[0] == told[1]


def _without_places(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _without_places(one) for key, one in value.items() if key not in ("location", "file", "path")}
    return [_without_places(one) for one in value] if isinstance(value, list) else value


def test_a_mapping_set_is_never_written_as_records_nor_the_other_way(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    mappings = EXAMPLES.parents[1] / "mappings" / "chordae-bspo.sssom.tsv"
    assert run("write", mappings, "--to", "sssom-json", "--out", tmp_path / "a.json") == 0
    assert run("write", mappings, "--to", "fhir") == 2 and "holds records, not mappings" in capsys.readouterr().err
    assert run("write", HEART, "--to", "sssom") == 2 and "holds mappings, not records" in capsys.readouterr().err
    assert run("read", mappings) == 2


def test_a_template_is_written_for_formats_that_have_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("write", "--template", "--to", "xlsx", "--school", "european", "--out", tmp_path / "a.xlsx") == 0
    assert run("read", tmp_path / "a.xlsx") == 0
    assert run("write", "--template", "--to", "fhir") == 2 and "no template" in capsys.readouterr().err


def test_a_format_that_was_not_installed_is_named_with_its_extra(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "phenopackets.schema.v2", None)
    assert run("write", HEART, "--to", "phenopackets") == 2
    said = capsys.readouterr().err
    assert "'phenopackets' is needed" in said and "pip install 'chordae[phenopackets]'" in said


def test_interrupted_writing_leaves_nothing_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: Any) -> Any:
        raise KeyboardInterrupt

    monkeypatch.setattr("chordae.formats.xlsx.format.flatten", stop)
    monkeypatch.setattr("chordae.formats.csvset.format.flatten", stop)
    for to in ("xlsx", "csv"):
        assert run("write", HEART, "--to", to, "--out", tmp_path / to) == 130
    assert list(tmp_path.iterdir()) == []


def test_two_records_of_one_id_stay_two_files_apart(tmp_path: Path) -> None:
    """Ids that differ only in capitals must not end in one file where the system sees no difference."""
    path = tmp_path / "a.json"
    path.write_text(write_document([{"id": "a.b"}, {"id": "A.b"}], "json"), encoding="utf-8")
    assert run("write", path, "--to", "phenopackets", "--out", tmp_path / "out") == 0
    assert sorted(one.name for one in (tmp_path / "out").iterdir()) == ["A.b~2.json", "a.b.json"]


def test_every_name_of_the_table_is_offered_by_help(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("write", "--help") == 0
    shown = " ".join(capsys.readouterr().out.split())
    for one in FORMATS.values():
        assert one.name in shown.replace("- ", "-")
    assert all(one.reads or one.writes for one in FORMATS.values())
