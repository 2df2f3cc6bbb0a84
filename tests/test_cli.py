"""The command line: commands, exit codes, where data and issues go, and no traceback for bad input."""

from __future__ import annotations

import argparse
import io
import json
import subprocess
import sys
from pathlib import Path

import pyoxigraph
import pytest
import yaml

from chordae import __version__, cli
from chordae.commands import options, read
from chordae.issues import Issue, Location
from chordae.report.listing import REPORTS, list_issues

RECORDS = """\
- id: "0012"
  specimen: {accession: "0012"}
- id: "0013"
  specimen: {accession: 13}
"""


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """A table with a crosswalk beside it and one word that is not mapped."""
    (tmp_path / "hearts.csv").write_text("Cat. no.,VA\n0012,TGA\n0013,odd\n", encoding="utf-8")
    (tmp_path / "columns.tsv").write_text(
        "column\tpart\tproperty\tkind\nCat. no.\tspecimen\taccession\tidentifier\nVA\tstated\tva_connection\tvalue\n",
        encoding="utf-8",
    )
    (tmp_path / "values.tsv").write_text(
        "column\tlocal\tvalue\tmatch\treviewer\nVA\tTGA\tdiscordant\texact\tA. Reader\n", encoding="utf-8"
    )
    return tmp_path / "hearts.csv"


def fresh(*words: str, stdin: str = "") -> subprocess.CompletedProcess[str]:
    """Run the command line in a fresh process, as a user does."""
    return subprocess.run(
        [sys.executable, "-m", "chordae", *words],
        input=stdin,
        capture_output=True,
        text=True,
        cwd=Path(cli.__file__).parents[1],
        check=False,
        timeout=60,
    )


def test_help_names_every_command_and_the_caution() -> None:
    shown = fresh("--help")
    assert shown.returncode == 0 and shown.stderr == ""
    parser = cli.make_parser()
    actions = [one for one in parser._actions if isinstance(one, argparse._SubParsersAction)]
    assert "read" in actions[0].choices
    for name in actions[0].choices:
        assert f"\n    {name}" in shown.stdout
    assert "not for diagnosis" in " ".join(shown.stdout.split())


def test_help_loads_none_of_the_heavy_libraries() -> None:
    shown = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "chordae", "--help"],
        capture_output=True,
        text=True,
        cwd=Path(cli.__file__).parents[1],
        check=True,
    )
    loaded = {line.rpartition("|")[2].strip() for line in shown.stderr.splitlines()}
    assert "chordae.cli" in loaded
    heavy = {"rdflib", "pyshacl", "shacl", "yaml", "openpyxl", "rich", "pyoxigraph", "jsonschema_rs", "bagit", "orjson"}
    assert loaded & heavy == set()


def test_every_command_has_help_and_the_version_is_told() -> None:
    assert fresh("--version").stdout == f"chordae {__version__}\n"
    for name in cli.COMMANDS:
        if (Path(read.__file__).parent / f"{name}.py").exists():
            assert cli.main([name, "--help"]) == 0


def test_no_command_and_a_wrong_one_are_told_apart_from_issues(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main([]) == 2
    assert cli.main(["reed"]) == 2
    assert cli.main(["read", "--fail-on", "sometimes"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_read_writes_data_to_stdout_and_issues_to_stderr(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["read", str(table), "--crosswalk", str(table.parent)]) == 0
    shown = capsys.readouterr()
    records = yaml.safe_load(shown.out)
    assert [one["id"] for one in records] == ["0012", "0013"]
    assert records[0]["stated"] == {"va_connection": "discordant"}
    assert '"odd"' in shown.err and "hearts.csv:3:2" in shown.err


@pytest.mark.parametrize(("threshold", "code"), [("violation", 0), ("warning", 1), ("info", 1), ("never", 0)])
def test_fail_on_decides_the_exit_code(table: Path, threshold: str, code: int) -> None:
    assert cli.main(["read", str(table), "--crosswalk", str(table.parent), "--fail-on", threshold]) == code


@pytest.mark.parametrize("form", ["yaml", "json", "ndjson"])
def test_what_read_writes_it_reads_again(table: Path, tmp_path: Path, form: str) -> None:
    first, second = tmp_path / f"a.{form}", tmp_path / f"b.{form}"
    assert cli.main(["read", str(table), "--crosswalk", str(table.parent), "--to", form, "--out", str(first)]) == 0
    assert cli.main(["read", str(first), "--to", form, "--out", str(second)]) == 0
    assert first.read_bytes() == second.read_bytes() != b""


def test_standard_input(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b'{"id":"a"}\n{"id":"b"}\n')))
    assert cli.main(["read", "--to", "ndjson"]) == 0
    assert [json.loads(line)["id"] for line in capsys.readouterr().out.splitlines()] == ["a", "b"]


def test_the_report_as_json_goes_to_a_file(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(RECORDS, encoding="utf-8")
    report = tmp_path / "issues.json"
    out = str(tmp_path / "out.yaml")
    words = ["read", str(tmp_path / "a.yaml"), "--out", out, "--report", "json", "--report-to", str(report)]
    assert cli.main(words) == 1
    found = json.loads(report.read_text(encoding="utf-8"))
    keys = {"rule", "severity", "record", "part", "path", "value", "message", "hint", "source", "location"}
    assert [set(one) for one in found] == [keys]
    assert found[0]["record"] == "0013" and found[0]["path"] == "/specimen/accession"
    assert found[0]["location"] == {"file": str(tmp_path / "a.yaml"), "line": 4, "column": 25}


ISSUE = Issue(
    "R-AV-13", "violation", 'He said "no" <b>', "Look\nagain.", record="0012", location=Location("a.csv", 3, 2)
)


def test_every_report_tells_every_issue() -> None:
    for form in REPORTS:
        text = list_issues([ISSUE, Issue("I-CEL-01", "info", "Other words")], form)
        assert "Other words" in text and "R-AV-13" in text and text.endswith("\n")
        assert "<b>" not in text if form == "html" else True
        assert list_issues([], form)


def test_the_report_in_turtle_is_a_validation_report() -> None:
    """Parsed by pyoxigraph, an RDF library that did not write it."""
    store = pyoxigraph.Store()
    store.load(list_issues([ISSUE, ISSUE], "ttl").encode(), format=pyoxigraph.RdfFormat.TURTLE)
    shacl = "http://www.w3.org/ns/shacl#"
    results = store.query(
        f"SELECT ?text ?shape WHERE {{ ?report a <{shacl}ValidationReport> ; <{shacl}conforms> false ; "
        f"<{shacl}result> ?one . ?one <{shacl}resultMessage> ?text ; <{shacl}sourceShape> ?shape }}"
    )
    assert isinstance(results, pyoxigraph.QuerySolutions)
    found = [(one["text"].value, one["shape"].value) for one in results]
    assert found == [('He said "no" <b>', "https://w3id.org/chordae/rule/R-AV-13")]
    assert not [quad for quad in store if isinstance(quad.subject, pyoxigraph.BlankNode)]


def test_an_error_is_a_sentence_with_a_remedy(capsys: pytest.CaptureFixture[str], table: Path) -> None:
    assert cli.main(["read", "no such file.yaml"]) == 2
    assert (
        capsys.readouterr().err
        == "chordae: There is no file no such file.yaml.\n         Look at the name and the folder.\n"
    )
    assert cli.main(["read", str(table)]) == 2
    assert "--crosswalk" in capsys.readouterr().err


def test_a_fault_of_our_own_is_one_line_and_with_debug_a_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], table: Path
) -> None:
    def broken(args: argparse.Namespace) -> int:
        raise RuntimeError("a fault\nof two lines")

    monkeypatch.setattr(read, "run", broken)
    assert cli.main(["read", str(table)]) == 2
    shown = capsys.readouterr().err
    assert "Internal error: RuntimeError: a fault of two lines" in shown and "Traceback" not in shown
    for words in (["--debug", "read", str(table)], ["read", str(table), "--debug"]):
        with pytest.raises(RuntimeError):
            cli.main(words)


def test_an_interruption_leaves_nothing_half_written(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path, table: Path
) -> None:
    def interrupted(*args: object, **more: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("pathlib.Path.replace", interrupted)
    out = tmp_path / "out.yaml"
    assert cli.main(["read", str(table), "--crosswalk", str(table.parent), "--out", str(out)]) == 130
    assert not out.exists() and not list(tmp_path.glob(".out*"))
    assert "Interrupted" in capsys.readouterr().err


def test_a_reader_that_goes_away_is_no_fault() -> None:
    text = "".join(f'{{"id":"a{number}","remarks":[{{"text":"{"x" * 200}"}}]}}\n' for number in range(5000))
    running = subprocess.Popen(
        [sys.executable, "-m", "chordae", "read", "--to", "ndjson"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=Path(cli.__file__).parents[1],
    )
    assert running.stdin is not None and running.stdout is not None and running.stderr is not None
    running.stdout.close()
    running.stdin.write(text)
    running.stdin.close()
    said = running.stderr.read()
    running.wait(timeout=60)
    running.stderr.close()
    assert "Traceback" not in said and "Exception" not in said


def test_drafts_of_a_crosswalk_are_read_back(table: Path, tmp_path: Path) -> None:
    drafts = tmp_path / "drafts"
    assert cli.main(["read", "--suggest-crosswalk", str(table), "--out", str(drafts)]) == 0
    assert cli.main(["read", str(table), "--crosswalk", str(drafts), "--out", str(tmp_path / "out.yaml")]) == 0
    assert cli.main(["read", "--suggest-crosswalk", str(table)]) == 2


def test_a_delimiter_may_be_named_in_words(tmp_path: Path) -> None:
    parser = argparse.ArgumentParser()
    options.add_input(parser)
    assert options.source_of(parser.parse_args(["a.csv", "--delimiter", "tab"])).delimiter == "\t"
