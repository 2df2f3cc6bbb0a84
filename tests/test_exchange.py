"""Exchange: every row ends as a record or is refused; the deposit is whole, the same each time, or not there.

The steps that know hearts are tested where they are written; here they are small stand-ins
(``exchange_data.py``), except where the command itself is run. Outside checks: the RDF is read back by rdflib,
the package verified by GNU ``sha256sum``, sockets are blocked.
"""

from __future__ import annotations

import csv
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import orjson
import pytest
import yaml
from rdflib import Dataset, Graph

from chordae import deposit
from chordae.cli import main
from chordae.errors import ChordaeError, FormatError, InputError
from chordae.exchange import exchange, find_catalogue
from chordae.exchange import run as running
from chordae.report.words import caution, texts
from exchange_data import ROWS, STEPS, many_rows, write_collection

TESTS = Path(__file__).parent


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("exchange")
    catalogue = find_catalogue(write_collection(folder / "alder"))
    return exchange(catalogue, folder / "deposit", STEPS).folder


def _lines(path: Path) -> list[Any]:
    return [orjson.loads(line) for line in path.read_bytes().splitlines()]


def test_every_row_is_a_record_or_refused(made: Path) -> None:
    counts = orjson.loads((made / "data/report.json").read_bytes())
    assert (counts["rows"], counts["records"], counts["refused"], counts["hearts"]) == (5, 3, 2, 3)
    records = _lines(made / "data/records.ndjson")
    assert [one["id"] for one in records] == ["0012", "0013", "0014"]
    assert records == yaml.safe_load((made / "data/records.yaml").read_text(encoding="utf-8"))
    assert [one["record"] for one in _lines(made / "data/derived.ndjson")] == ["0012", "0013", "0014"]


def test_every_cell_has_a_meaning_or_an_issue(made: Path) -> None:
    cells = orjson.loads((made / "data/report.json").read_bytes())["coding"]["cells"]
    filled = sum(1 for row in csv.reader(ROWS.splitlines()[1:]) for cell in row if cell)
    assert cells["filled"] == filled == cells["mapped"] + cells["ignored"] + cells["without_meaning"]
    assert cells["ignored"] == 2  # Donor
    # mystery, many, three under Shelf, and the refused rows: 3 and 2 cells
    assert cells["without_meaning"] == 2 + 3 + 5


def test_issues_are_the_same_in_both_files(made: Path) -> None:
    issues = orjson.loads((made / "data/issues.json").read_bytes())
    assert {one["rule"] for one in issues} == {"I-CEL-01", "I-CEL-02", "I-CEL-06", "I-CEL-08", "I-REC-01", "S-REF"}
    with (made / "data/issues.tsv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream, delimiter="\t", quoting=csv.QUOTE_NONE))
    assert [(row["rule"], row["record"], row["line"]) for row in rows] == [
        (one["rule"], one["record"] or "", str(one["location"]["line"] or "")) for one in issues
    ]
    assert {one["location"]["file"] for one in issues if one["rule"] != "S-REF"} == {"catalogue.csv"}


def test_a_cell_that_a_spreadsheet_would_calculate_is_disarmed(tmp_path: Path) -> None:
    folder = write_collection(tmp_path / "one", ROWS.replace("mystery", "=1+1"))
    exchange(find_catalogue(folder), tmp_path / "out", STEPS)
    text = (tmp_path / "out/data/issues.tsv").read_text(encoding="utf-8")
    assert "\t'=1+1\t" in text
    assert "\t=1+1\t" not in text


@pytest.mark.filterwarnings("ignore:Dataset.default_context:DeprecationWarning")  # inside rdflib itself
def test_one_graph_a_record_and_the_same_triples_as_turtle(made: Path) -> None:
    data = Dataset()
    data.parse(made / "data/records.nq", format="nquads")
    graphs = {str(one.identifier): set(one) for one in data.graphs() if len(one)}
    base = "https://example.org/alder-house/"
    assert set(graphs) == {f"{base}0012", f"{base}0013", f"{base}0014"}
    together = Graph().parse(made / "data/records.ttl", format="turtle")
    assert set(together) == set().union(*graphs.values())
    assert (made / "data/records.ttl").read_text(encoding="utf-8").count("@prefix model:") == 1


def test_the_deposit_verifies_and_holds_what_its_readme_says(made: Path) -> None:
    assert deposit.verify(made) == []
    files = {one.relative_to(made).as_posix() for one in made.rglob("*") if one.is_file()}
    named = {one["name"] for one in texts()["files"]}
    told = {name for name in files if name in named or any(name.startswith(one) for one in named if one.endswith("/"))}
    assert told == files
    readme = (made / "README.txt").read_text(encoding="utf-8")
    for word in [*named, "not for diagnosis", "human remains", "CC-BY-4.0", "2 of 3 descriptions record it"]:
        assert word in " ".join(readme.split()), word
    assert max(len(line) for line in readme.splitlines()) <= 80
    for name in ("source/catalogue.csv", "crosswalk/columns.tsv", "crosswalk/values.tsv", "collection.yaml"):
        assert (made / "data" / name).read_bytes() == (made.parent / "alder" / Path(name).name).read_bytes()


def test_the_catalogue_itself_can_be_left_out(tmp_path: Path) -> None:
    folder = write_collection(tmp_path / "one")
    exchange(find_catalogue(folder), tmp_path / "out", STEPS, copy_source=False)
    assert not (tmp_path / "out/data/source").exists()
    assert "source/" not in (tmp_path / "out/README.txt").read_text(encoding="utf-8")
    assert deposit.verify(tmp_path / "out") == []


SCRIPT = """
import sys
from pathlib import Path
sys.path.insert(0, {tests!r})
from exchange_data import STEPS
from chordae.exchange import exchange, find_catalogue
exchange(find_catalogue(Path(sys.argv[1])), Path(sys.argv[2]), STEPS)
"""


def _start(folder: Path, out: Path, **environment: str) -> subprocess.Popen[bytes]:
    script = SCRIPT.format(tests=str(TESTS))
    paths = os.pathsep.join([str(TESTS.parent / "converters"), *filter(None, [os.environ.get("PYTHONPATH")])])
    return subprocess.Popen(
        [sys.executable, "-c", script, str(folder), str(out)],
        env={**os.environ, "PYTHONPATH": paths, **environment},
        stderr=subprocess.PIPE,
    )


def _bytes(folder: Path) -> dict[str, bytes]:
    return {one.relative_to(folder).as_posix(): one.read_bytes() for one in folder.rglob("*") if one.is_file()}


def test_the_same_bytes_under_other_hash_seeds_places_and_times(tmp_path: Path) -> None:
    for name, seed in (("a", "1"), ("b", "4242")):
        folder = write_collection(tmp_path / f"place-{name}" / "alder")
        run = _start(folder, tmp_path / name, PYTHONHASHSEED=seed)
        assert run.communicate(timeout=60)[1] == b""
        time.sleep(1.1)
    assert _bytes(tmp_path / "a") == _bytes(tmp_path / "b")


@pytest.mark.parametrize("stop", [signal.SIGINT, signal.SIGKILL], ids=["interrupted", "killed"])
def test_a_run_that_is_stopped_leaves_no_deposit(tmp_path: Path, stop: signal.Signals) -> None:
    folder = write_collection(tmp_path / "alder", many_rows(20_000))
    out = tmp_path / "out" / "deposit"
    run = _start(folder, out)
    end = time.monotonic() + 30
    while not any(out.parent.glob(".deposit.*/records.nq")) and run.poll() is None and time.monotonic() < end:
        time.sleep(0.01)
    assert run.poll() is None, "the run ended before it could be stopped"
    run.send_signal(stop)
    run.communicate(timeout=30)
    assert run.returncode != 0
    assert not out.exists()
    if stop is not signal.SIGKILL:
        assert list(out.parent.iterdir()) == []


def test_a_fault_in_the_middle_leaves_the_old_deposit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = write_collection(tmp_path / "alder")
    exchange(find_catalogue(folder), tmp_path / "out", STEPS)
    before = _bytes(tmp_path / "out")

    def fail(*_: object) -> None:
        raise OSError("no room left")

    monkeypatch.setattr(running, "_copy", fail)
    with pytest.raises(OSError, match="no room left"):
        exchange(find_catalogue(folder), tmp_path / "out", STEPS)
    assert _bytes(tmp_path / "out") == before
    assert sorted(one.name for one in tmp_path.iterdir()) == ["alder", "out"]


def test_a_sound_deposit_is_renewed(tmp_path: Path) -> None:
    folder = write_collection(tmp_path / "alder")
    exchange(find_catalogue(folder), tmp_path / "out", STEPS)
    write_collection(folder, many_rows(7))
    exchange(find_catalogue(folder), tmp_path / "out", STEPS)
    assert len(_lines(tmp_path / "out/data/records.ndjson")) == 7
    assert deposit.verify(tmp_path / "out") == []


def test_what_is_no_deposit_is_left_alone(tmp_path: Path) -> None:
    catalogue = find_catalogue(write_collection(tmp_path / "alder"))
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / "thesis.txt").write_text("years of work", encoding="utf-8")
    with pytest.raises(InputError, match="is no deposit"):
        exchange(catalogue, mine, STEPS)
    with pytest.raises(InputError, match="is no deposit"):
        exchange(catalogue, mine / "thesis.txt", STEPS)
    assert _bytes(mine) == {"thesis.txt": b"years of work"}


def test_a_deposit_with_something_of_the_users_in_it_is_left_alone(tmp_path: Path) -> None:
    catalogue = find_catalogue(write_collection(tmp_path / "alder"))
    exchange(catalogue, tmp_path / "out", STEPS)
    (tmp_path / "out/data/notes.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match=r"notes\.txt"):
        exchange(catalogue, tmp_path / "out", STEPS)
    assert (tmp_path / "out/data/notes.txt").read_text(encoding="utf-8") == "mine"


def test_no_socket_is_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("a socket was asked for")

    for name in ("socket", "create_connection", "getaddrinfo"):
        monkeypatch.setattr(socket, name, refuse)
    exchange(find_catalogue(write_collection(tmp_path / "alder")), tmp_path / "out", STEPS)
    assert deposit.verify(tmp_path / "out") == []


def test_the_page_shows_the_worst_hearts_when_there_are_too_many(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(running, "SHOWN", 2)
    page = exchange(find_catalogue(write_collection(tmp_path / "alder")), tmp_path / "out", STEPS).page
    assert [name for name in ("0012", "0013", "0014") if f'id="heart-{name}"' in page] == ["0013", "0014"]
    assert "2 of 3 descriptions are shown" in page


def test_a_document_of_records_needs_no_crosswalk(tmp_path: Path) -> None:
    source = tmp_path / "hearts.yaml"
    source.write_text(
        '- id: "7"\n  stated: {va_connection: discordant}\n- 5\n- id: "8"\n  nonsense: 1\n', encoding="utf-8"
    )
    done = exchange(find_catalogue(source), tmp_path / "out", STEPS)
    assert (done.counts["rows"], done.counts["records"], done.counts["refused"]) == (3, 2, 1)
    assert {one["rule"] for one in done.counts["by_rule"]} == {"I-DOC-05", "S-KEY", "S-REF"}
    assert (tmp_path / "out/data/source/hearts.yaml").read_bytes() == source.read_bytes()


def test_a_record_of_another_vocabulary_is_told_so(tmp_path: Path) -> None:
    source = tmp_path / "hearts.yaml"
    source.write_text('- {id: "7", vocabulary_version: "99.0.0"}\n', encoding="utf-8")
    done = exchange(find_catalogue(source), tmp_path / "out", STEPS)
    assert [one["rule"] for one in done.counts["by_rule"]] == ["I-VOC-03"]


def _without(name: str) -> Any:
    return lambda folder: (folder / name).unlink()


def _another_table(folder: Path) -> None:
    (folder / "catalogue.csv").rename(folder / "one.csv")
    shutil.copy(folder / "one.csv", folder / "two.csv")


def _about(text: str) -> Any:
    return lambda folder: (folder / "collection.yaml").write_text(text, encoding="utf-8")


BROKEN: dict[str, tuple[Any, str]] = {
    "no table": (_without("catalogue.csv"), "There is no table"),
    "no crosswalk": (_without("columns.tsv"), "columns.tsv"),
    "two tables": (_another_table, "several tables"),
    "a way out of the folder": (_about('catalogue: "../secret.csv"\n'), "leads out of the folder"),
    "unknown key": (_about("nmae: x\n"), "'nmae' is no key"),
    "not text": (_about("name: [x]\n"), "should be plain text"),
    "two collections": (_about("- name: x\n- name: y\n"), "one mapping"),
    "aliases": (_about("name: &a x\nnote: *a\n"), "alias or anchor"),
    "no IRI": (_about("base_iri: here\n"), "cannot be the base"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_collection_is_refused_with_a_reason(tmp_path: Path, name: str) -> None:
    break_it, words = BROKEN[name]
    folder = write_collection(tmp_path / "alder")
    break_it(folder)
    with pytest.raises(ChordaeError) as caught:
        exchange(find_catalogue(folder), tmp_path / "out", STEPS)
    assert words in str(caught.value)
    assert caught.value.hint
    assert not (tmp_path / "out").exists()


def test_options_override_the_collection_file(tmp_path: Path) -> None:
    folder = write_collection(tmp_path / "alder")
    shutil.move(folder / "columns.tsv", tmp_path / "columns.tsv")
    shutil.move(folder / "values.tsv", tmp_path / "values.tsv")
    catalogue = find_catalogue(folder / "catalogue.csv", crosswalk=tmp_path, base="https://example.org/other#")
    exchange(catalogue, tmp_path / "out", STEPS)
    assert b"<https://example.org/other#0012> ." in (tmp_path / "out/data/records.nq").read_bytes()
    with pytest.raises(FormatError):
        find_catalogue(folder / "catalogue.csv", crosswalk=tmp_path, base="here")


EXAMPLES = TESTS.parent / "examples"


@pytest.fixture(scope="module")
def examples(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Run the command of the README from another folder, and check that it ends with 1: faults were planted."""
    place = tmp_path_factory.mktemp("elsewhere")
    run = _command(place, "exchange", str(EXAMPLES / "veyhaven"), str(EXAMPLES / "tolliver_bay"), "--out", "deposits")
    assert run.returncode == 1, run.stderr
    assert run.stderr == ""
    for name in ("Veyhaven Cabinet of Hearts", "Tolliver Bay Cardiac Library", caution()[:40]):
        assert name in run.stdout
    assert max(len(line) for line in run.stdout.splitlines()) <= 80
    return place / "deposits"


def _command(place: Path, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    paths = os.pathsep.join([str(TESTS.parent / "converters"), *filter(None, [os.environ.get("PYTHONPATH")])])
    return subprocess.run(
        [sys.executable, "-m", "chordae", *words],
        cwd=place,
        env={**os.environ, "PYTHONPATH": paths, **environment},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )


@pytest.mark.parametrize("name", ["veyhaven", "tolliver_bay"])
def test_example_rows_are_records_or_refused(examples: Path, name: str) -> None:
    folder = examples / name
    counts = orjson.loads((folder / "data/report.json").read_bytes())
    records = _lines(folder / "data/records.ndjson")
    assert counts["rows"] == counts["records"] + counts["refused"] > 50
    assert len(records) == len(_lines(folder / "data/derived.ndjson")) == counts["records"]
    assert counts["hearts"] == len({one["specimen"]["accession"] for one in records})
    cells = counts["coding"]["cells"]
    assert cells["filled"] == cells["mapped"] + cells["ignored"] + cells["without_meaning"]
    issues = orjson.loads((folder / "data/issues.json").read_bytes())
    by_severity = {severity: sum(one["severity"] == severity for one in issues) for severity in counts["issues"]}
    assert by_severity == counts["issues"]
    refusing = {"I-CEL-08", "I-REC-01", "I-TAB-01"}
    assert sum(one["rule"] in refusing and one["severity"] == "violation" for one in issues) == counts["refused"]


@pytest.mark.parametrize("name", ["veyhaven", "tolliver_bay"])
def test_example_deposits_verify(examples: Path, name: str) -> None:
    assert deposit.verify(examples / name) == []


@pytest.mark.parametrize("name", ["veyhaven", "tolliver_bay"])
def test_example_issues_have_sentence_remedy_and_place(examples: Path, name: str) -> None:
    for one in orjson.loads((examples / name / "data/issues.json").read_bytes()):
        assert one["message"], one
        assert one["hint"] or one["severity"] == "info", one
        assert one["location"]["file"] in {"catalogue.xlsx", "catalogue.csv", "columns.tsv", "values.tsv"}, one
        assert one["location"]["line"] or one["rule"].startswith("I-BOOK"), one
        assert "http" not in one["message"] + one["hint"], one


@pytest.mark.parametrize("name", ["veyhaven", "tolliver_bay"])
def test_example_pages_need_nothing_else(examples: Path, name: str) -> None:
    page = (examples / name / "data/report.html").read_text(encoding="utf-8")
    assert not re.search(r"""(?:src|href)=["'](?!#)""", page)
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    records = {one["id"] for one in _lines(examples / name / "data/records.ndjson")}
    assert {one.removeprefix("heart-") for one in ids if one.startswith("heart-")} == records


def test_example_deposits_are_the_same_under_another_hash_seed(examples: Path, tmp_path: Path) -> None:
    run = _command(tmp_path, "exchange", str(EXAMPLES / "veyhaven"), "--out", "again", PYTHONHASHSEED="4242")
    assert run.returncode == 1, run.stderr
    again, before = _bytes(tmp_path / "again"), _bytes(examples / "veyhaven")
    assert [name for name in before if again.get(name) != before[name]] == []
    assert set(again) == set(before)


def test_the_command_opens_no_socket(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("a socket was asked for")

    for name in ("socket", "create_connection", "getaddrinfo"):
        monkeypatch.setattr(socket, name, refuse)
    out = tmp_path / "out"
    assert main(["exchange", str(EXAMPLES / "tolliver_bay"), "--out", str(out), "--report", "json"]) == 1
    assert orjson.loads(capsys.readouterr().out)["collection"]["id"] == "tolliver_bay"
    assert main(["exchange", str(EXAMPLES / "tolliver_bay"), "--out", str(out), "--fail-on", "never"]) == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["nowhere"], "There is no file"),
        (["{a}", "{b}", "--sheet", "Hearts"], "--sheet is for one catalogue"),
        (["{a}", "{b}", "--report", "html"], "--report html is for one catalogue"),
        (["{a}", "{a}"], "have the same name"),
        (["{a}", "--base", "here"], "cannot be the base"),
        (["{a}", "--crosswalk", "."], "There is no columns.tsv"),
    ],
)
def test_the_command_says_why_it_cannot_run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], words: list[str], said: str
) -> None:
    monkeypatch.chdir(tmp_path)
    folders = {"a": str(EXAMPLES / "veyhaven"), "b": str(EXAMPLES / "tolliver_bay")}
    assert main(["exchange", *(word.format(**folders) for word in words), "--out", "out"]) == 2
    assert said in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []
