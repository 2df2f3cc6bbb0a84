"""What holds for every command alike: standard input, forms of the list of issues, refusals, an interruption."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import pyoxigraph
import pytest

from chordae import cli
from generate_records import make_records

CODE = Path(cli.__file__).parents[1]
EXAMPLES = CODE.parent / "examples"
SHORT = EXAMPLES / "short.yaml"
CSV = EXAMPLES / "tolliver_bay" / "catalogue.csv"
HEART, OTHER = EXAMPLES / "valid" / "tricuspid_atresia.yaml", EXAMPLES / "valid" / "common_trunk.yaml"
Ran = tuple[int, str, str]
Run = Callable[..., Ran]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run the command line in an empty folder: exit code, standard output, standard error."""
    monkeypatch.chdir(tmp_path)

    def run(*words: object, stdin: bytes | None = None) -> Ran:
        if stdin is not None:
            monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        code = cli.main([str(one) for one in words])
        shown = capsys.readouterr()
        assert "Traceback" not in shown.err and "Internal error" not in shown.err
        return code, shown.out, shown.err

    return run


@pytest.mark.parametrize(
    "words",
    [("explain", "?"), ("match", "?"), ("read", "?"), ("check", "?"), ("exchange", SHORT, "--out", "?")],
    ids=lambda words: str(words[0]),
)
def test_a_word_that_is_no_text_is_refused(run: Run, words: Sequence[object]) -> None:
    code, out, said = run(*("\udcff\udcfe.yaml" if one == "?" else one for one in words))
    assert (code, out) == (2, "") and "is not text in UTF-8" in said and not list(Path().iterdir())


@pytest.mark.parametrize(
    "text", ['{"id": "a\\ud800"}', '{"id": "a", "x\\ud800": 1}', '{"id": "a", "facts": {"apex": "\\udfff"}}']
)
@pytest.mark.parametrize("command", ["read", "derive", "check", "write"])
def test_half_a_character_in_a_record_is_an_issue(run: Run, command: str, text: str) -> None:
    Path("a.json").write_text(text, encoding="utf-8")
    for form in ("text", "json", "ttl", "html"):
        code, _, _ = run(command, "a.json", "--report", form, "--report-to", "issues")
        assert code == 1 and "I-DOC-07" in Path("issues").read_text(encoding="utf-8")


def test_every_command_that_reads_records_reads_standard_input(run: Run) -> None:
    heart = HEART.read_bytes()
    for command in ("read", "derive", "check", "write"):
        assert run(command, "-", stdin=heart)[:2] == run(command, stdin=heart)[:2] != (0, "")
        assert run(command, HEART)[0] == 0
    assert run("compare", "-", HEART, stdin=heart)[1].count("The two descriptions agree.") == 1
    turtle = run("write", HEART, "--to", "ttl")[1].encode()
    assert run("write", "-", "--from", "ttl", stdin=turtle)[1] == run("write", HEART)[1]
    assert "agree." in run("compare", "-", HEART, "--from", "turtle", stdin=turtle)[1]
    catalogue = EXAMPLES / "tolliver_bay"
    given = (catalogue / "catalogue.csv").read_bytes()
    whole = run("read", catalogue / "catalogue.csv", "--crosswalk", catalogue)
    assert run("read", "-", "--crosswalk", catalogue, stdin=given)[:2] == whole[:2]


def test_standard_input_is_read_once_and_is_no_catalogue(run: Run) -> None:
    for command in ("compare", "check", "derive"):
        code, out, said = run(command, "-", "-", stdin=HEART.read_bytes())
        assert (code, out) == (2, "") and "read only once" in said
    code, out, said = run("exchange", "-", "--out", "out", stdin=HEART.read_bytes())
    assert (code, out) == (2, "") and "has a name" in said and not Path("out").exists()
    assert "Standard input is empty" in run("read", "-", stdin=b"")[2]


def test_words_come_from_standard_input_one_a_line(run: Run) -> None:
    given = b"L-TGA\n\n  tricuspid   valve \n"
    for command in ("explain", "match"):
        assert run(command, "-", stdin=given) == run(command, "L-TGA", "tricuspid valve")
        assert run(command, "-", stdin=b"\n")[0] == 2
    assert run("explain", "zzzz", "--fail-on", "never")[0] == 0 and run("explain", "zzzz")[0] == 1


def _conforms(text: str) -> bool:
    """What a validation report says, read by pyoxigraph, which did not write it."""
    store = pyoxigraph.Store()
    store.load(text.encode(), format=pyoxigraph.RdfFormat.TURTLE)
    found = list(store.quads_for_pattern(None, pyoxigraph.NamedNode("http://www.w3.org/ns/shacl#conforms"), None))
    assert len(found) == 1 and isinstance(found[0].object, pyoxigraph.Literal)
    return found[0].object.value == "true"


KEYS = {"rule", "severity", "record", "part", "path", "value", "message", "hint", "source", "location"}


@pytest.mark.parametrize("command", ["read", "derive", "check", "write", "compare"])
def test_the_list_of_issues_has_four_forms(run: Run, command: str) -> None:
    Path("bad.yaml").write_text("- {id: a, facts: {apex: left}}\n- 7\n", encoding="utf-8")
    words = [command, "bad.yaml", *(["bad.yaml"] if command == "compare" else []), "--report-to", "issues", "--report"]
    told = {}
    for form in ("text", "json", "ttl", "html"):
        code, _, said = run(*words, form)
        assert code == 1 and "I-DOC-05" not in said
        told[form] = Path("issues").read_text(encoding="utf-8")
        assert "I-DOC-05" in told[form]
    found = json.loads(told["json"])
    assert found and all(set(one) >= KEYS and set(one["location"]) >= {"file", "line", "column"} for one in found)
    assert not _conforms(told["ttl"]) and told["html"].startswith("<!doctype html>")


def test_the_issues_of_an_exchange_as_turtle_are_those_of_its_deposit(run: Run) -> None:
    code, out, _ = run("exchange", SHORT, "--out", "out", "--report", "ttl")
    found = json.loads(Path("out/data/issues.json").read_bytes())
    Path("other").mkdir()
    assert {one.stat().st_mode for one in (Path("out"), Path("out/data"))} == {Path("other").stat().st_mode}
    assert (code, _conforms(out)) == (0, True) and found
    assert out.count("a sh:ValidationResult") == len({json.dumps(one, sort_keys=True) for one in found})


def test_a_form_that_means_nothing_is_refused_in_a_sentence(run: Run) -> None:
    code, out, said = run("explain", "L-TGA", "--report", "ttl")
    assert (code, out) == (2, "") and "is not written as Turtle" in said
    page = run("explain", "L-TGA", "<b>", "--report", "html")[1]
    assert "<h2>L-TGA</h2>" in page and "<b>" not in page
    assert run("explain", "L-TGA", "--out", "a.txt")[1] == "" and Path("a.txt").read_text().startswith("L-TGA\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("read", SHORT, "--sheet", "x"), "--sheet is for catalogues in tables"),
        (("read", SHORT, "--crosswalk", EXAMPLES / "veyhaven"), "--crosswalk is for catalogues in tables"),
        (("read", EXAMPLES / "veyhaven/catalogue.xlsx", "--crosswalk", EXAMPLES / "veyhaven", "--encoding", "cp1252"),
         "--encoding is for tables that are text"),
        (("exchange", EXAMPLES / "veyhaven", "--encoding", "no such", "--out", "x"), "--encoding is for tables"),
        (("exchange", SHORT, "--crosswalk", EXAMPLES / "veyhaven", "--out", "x"), "--crosswalk is for tables"),
        (("check", SHORT, "--record", "1"), "belongs to a confirmation"),
        (("check", SHORT, "--out", "a", "--report-to", "b"), "both name a file"),
        (("check", SHORT, "--threads", "0"), "must be at least 1"),
        (("check", SHORT, "--audit", "x"), "is no share"),
        (("check", SHORT, "--mappings"), "about mapping sets"),
        (("derive", SHORT, "--explain", "--to", "json"), "--explain gives words"),
        (("write", SHORT, "--vocabulary"), "reads no input"),
        (("write", SHORT, "--template"), "reads no input"),
        (("write", SHORT, "--to", "owl"), "Add --vocabulary"),
        (("write", "--vocabulary", "--to", "ttl"), "skos is in Turtle"),
        (("write", SHORT, "--to", "sssom"), "An SSSOM table holds mappings"),
        (("compare", HEART, OTHER, "--agreement", "--rounds", "-1"), "must be at least 1"),
        (("compare", HEART, OTHER, "--agreement", "--rounds", "many"), "is not a whole number"),
        (("compare", HEART, OTHER, "--nearest", "x", "--most", "0"), "must be at least 1"),
        (("read", "--suggest-crosswalk", CSV, "--out", SHORT), "cannot be a folder"),
        (("read", "--suggest-crosswalk", CSV, "--out", EXAMPLES / "veyhaven"), "There is a columns.tsv"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_what_can_do_nothing_is_refused(run: Run, words: Sequence[object], said: str) -> None:
    code, out, told = run(*words)
    assert (code, out) == (2, "") and said in told and not list(Path().iterdir())


def test_the_format_may_be_named_by_the_ending_of_its_files(run: Run) -> None:
    for ending, name in (
        ("ttl", "turtle"),
        ("nt", "ntriples"),
        ("nq", "nquads"),
        ("jsonld", "jsonld"),
        ("trig", "trig"),
    ):
        written = run("write", HEART, "--to", ending)[1]
        assert written == run("write", HEART, "--to", name)[1] != ""
        again = run("read", "-", "--from", ending, stdin=written.encode())
        assert again[0] == 0 and again[:2] == run("read", "-", "--from", f".{ending}", stdin=written.encode())[:2]


def test_check_writes_its_issues_to_out(run: Run) -> None:
    shown = run("check", SHORT)
    assert run("check", SHORT, "--out", "issues.txt")[:2] == (0, "")
    assert Path("issues.txt").read_text(encoding="utf-8") == shown[1] != ""


def test_compare_tells_why_a_file_could_not_be_read(run: Run) -> None:
    Path("bad.yaml").write_text("id: [", encoding="utf-8")
    code, out, said = run("compare", "bad.yaml", HEART)
    assert (code, out) == (2, "") and "I-DOC-01" in said and "No description could be read from bad.yaml" in said
    code, _, said = run("compare", "bad.yaml", HEART, "--report", "json", "--report-to", "issues.json")
    assert [one["rule"] for one in json.loads(Path("issues.json").read_bytes())] == ["I-DOC-01"]


@pytest.mark.parametrize(
    ("command", "stop"),
    [("exchange", "SIGINT"), ("exchange", "SIGTERM"), ("check", "SIGINT"), ("write", "SIGINT")],
)
def test_an_interrupted_command_leaves_nothing(tmp_path: Path, command: str, stop: str) -> None:
    source = tmp_path / "many.ndjson"
    source.write_text("".join(json.dumps(one) + "\n" for one, _ in make_records(2000)), encoding="utf-8")
    out = tmp_path / "made"
    words = [sys.executable, "-m", "chordae", command, str(source), "--out", str(out)]
    with subprocess.Popen(words, cwd=CODE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        end = time.monotonic() + 60
        # exchange and write have something aside as soon as they work; check takes long from the first record on
        while command != "check" and not list(tmp_path.glob(".made*")) and time.monotonic() < end:
            time.sleep(0.02)
        time.sleep(1 if command == "check" else 0.2)
        os.kill(running.pid, signal.Signals[stop])
        shown, said = running.communicate(timeout=60)
    assert running.returncode == 130, said
    assert (shown, said) == ("", "chordae: Interrupted; nothing half-written was left.\n")
    assert [one.name for one in tmp_path.iterdir()] == ["many.ndjson"]


def test_a_draft_takes_no_catalogue_number_for_a_year(run: Run) -> None:
    """The first column has two equal numbers, so that it is not taken for the identifier."""
    Path("a.csv").write_text("jar,shelf,seen\n0012,1203,1998\n0012,0044,2004\n", encoding="utf-8")
    assert run("read", "--suggest-crosswalk", "a.csv", "--out", "drafts")[0] == 0
    rows = [line.split("\t") for line in Path("drafts/columns.tsv").read_text(encoding="utf-8").splitlines()]
    assert [(row[0], row[3], row[4]) for row in rows[1:]] == [("jar", "", ""), ("shelf", "", ""), ("seen", "date", "y")]


@pytest.mark.parametrize("text", ["2-3", "2 - 3", "2–3 mm", "5 x 3", "5x3 mm"])
def test_a_range_or_an_area_is_no_measurement(run: Run, text: str) -> None:
    Path("columns.tsv").write_text(
        "column\tpart\tproperty\tkind\tunit\nno\tspecimen\taccession\tidentifier\t\n"
        "hole\tinterventricular_communication\tdiameter\tmeasurement\tmm\n",
        encoding="utf-8",
    )
    Path("a.csv").write_text(f"no,hole\n0012,{text}\n", encoding="utf-8")
    code, out, said = run("read", "a.csv", "--crosswalk", ".")
    assert code == 1 and "measurements" not in out
    assert f'"{text}" in column "hole" is not a number. (I-CEL-06)' in said
