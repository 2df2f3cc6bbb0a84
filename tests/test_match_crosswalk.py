"""A crosswalk judged, a catalogue translated, and the command on the examples.

Check from outside: what a translation loses is not asked of the translator, but found by reading its table again with
the intake; a collection translated into its own words loses nothing.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import pytest

from chordae.cli import main
from chordae.facts import each_fact
from chordae.intake.source import Source, find_crosswalk, read_source
from chordae.match.local import read_collection
from chordae.match.quality import Quality, judge
from chordae.match.translate import NOT_CARRIED, Translation, translate_collection

EXAMPLES = Path(__file__).parents[1] / "examples"
VEYHAVEN, TOLLIVER = EXAMPLES / "veyhaven", EXAMPLES / "tolliver_bay"

COLUMNS = """\
column\tpart\tproperty\tkind\tstyle\tunit\tnote
No.\tspecimen\taccession\tidentifier\t\t\t
Old topology\tstated\ttopology\tvalue\t\t\t
New topology\tstated\ttopology\tvalue\t\t\t
Spleen\tabdominal_organs\tspleen\tvalue\t\t\t
Weight\trecord\tweight\tmeasurement\t\tg\t
"""
VALUES = """\
column\tlocal\tpart\tproperty\tvalue\tstate\tmatch\treviewer\tnote
Old topology\tturned\t\t\tleft_hand\t\texact\tA.\t
New topology\tturned\t\t\tright_hand\t\texact\tA.\t
Spleen\tleft, small\tabdominal_organs\tspleen\tleft_sided\t\tbroad\tA.\tsize not kept
Spleen\tleft\tabdominal_organs\tspleen\tleft_sided\t\texact\tA.\t
Spleen\tnever met\tabdominal_organs\tspleen\tabsent\t\texact\tA.\t
Spleen\t?\t\t\t\t\tambiguous\tA.\twhat does the mark mean?
"""
CATALOGUE = (
    "No.,Old topology,New topology,Spleen,Weight,Colour\n1,turned,,left,20,red\n2,,turned,?,21,\n3,,,huge,22,blue\n"
)


@cache
def judged(folder: Path) -> Quality:
    return judge(read_collection(folder))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in (("columns.tsv", COLUMNS), ("values.tsv", VALUES), ("catalogue.csv", CATALOGUE)):
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


# --- quality ---------------------------------------------------------------------------------------------------------


def test_coverage_counts_cells_and_words_and_leaves_numbers_out(folder: Path) -> None:
    found = judge(read_collection(folder))
    assert list(found.columns) == ["Old topology", "New topology", "Spleen"]
    spleen = found.columns["Spleen"]
    assert dict(spleen.cells) == {"decided": 1, "asked": 1, "open": 1}
    assert spleen.share("cells") == pytest.approx(1 / 3)
    assert found.whole.cells.total() == 5
    assert found.open_columns == {"Colour": 2}


def test_words_never_seen_are_named(folder: Path) -> None:
    assert judge(read_collection(folder)).unseen == (("Spleen", "left, small"), ("Spleen", "never met"))


def test_one_word_in_two_ways_is_a_conflict(folder: Path) -> None:
    (found,) = [one for one in judge(read_collection(folder)).issues if one.rule == "I-QUA-01"]
    assert found.value == "turned"
    assert "left_hand" in found.message
    assert "right_hand" in found.message


def test_what_is_lost_is_named(folder: Path) -> None:
    found = judge(read_collection(folder)).issues
    (lossy,) = [one for one in found if one.rule == "I-QUA-03"]
    assert "small" in lossy.message
    assert "size not kept" in lossy.message
    (merged,) = [one for one in found if one.rule == "I-QUA-04"]
    assert '"left, small", "left"' in merged.message


def test_a_term_that_is_given_up_is_named_with_its_successor(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from chordae import terms

    table = terms.vocabulary()
    given_up = dict(table._raw)
    given_up["left_hand_topology"] = {
        **given_up["left_hand_topology"],
        "deprecated": "0.1.0",
        "replaced_by": "topology",
    }
    monkeypatch.setattr(table, "_raw", given_up)
    monkeypatch.setattr(table, "_made", {})
    (found,) = [one for one in judge(read_collection(folder)).issues if one.rule == "I-QUA-02"]
    assert (found.value, "0.1.0" in found.message) == ("turned", True)


def test_the_examples_leave_open_what_their_list_of_planted_faults_says() -> None:
    for name, folder in (("veyhaven", VEYHAVEN), ("tolliver_bay", TOLLIVER)):
        lines = (EXAMPLES / "planted_faults.tsv").read_text(encoding="utf-8").splitlines()
        planted = [line.split("\t") for line in lines if line.startswith(f"{name}\t")]
        unmapped = [row for row in planted if "I-CEL-02" in row]
        found = judged(folder)
        assert found.whole.words["open"] == len(unmapped)
        assert found.whole.share("cells") == pytest.approx(1, abs=0.01)


def test_quality_as_json_and_text(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["match", "--crosswalk", str(folder), "--quality", "--to", "json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["columns"]["Spleen"]["cells"] == {"decided": 1, "asked": 1, "open": 1}
    assert main(["match", "--crosswalk", str(folder), "--quality", "--fail-on", "warning"]) == 1
    assert "Mapped but never seen: 'never met' in Spleen." in capsys.readouterr().out


# --- translation -----------------------------------------------------------------------------------------------------


@cache
def translated(folder: Path, into: Path) -> Translation:
    return translate_collection(folder, into)


@pytest.mark.parametrize("folder", [VEYHAVEN, TOLLIVER], ids=["veyhaven", "tolliver_bay"])
def test_a_collection_in_its_own_words_loses_nothing(folder: Path) -> None:
    found = translated(folder, folder)
    assert (found.lost, found.by_place) == (0, {})
    assert found.kept > 4000


@pytest.mark.parametrize(
    ("folder", "into", "share"), [(VEYHAVEN, TOLLIVER, 0.88), (TOLLIVER, VEYHAVEN, 0.86)], ids=["there", "back"]
)
def test_most_survives_in_the_words_of_the_other_collection(folder: Path, into: Path, share: float) -> None:
    found = translated(folder, into)
    assert found.kept / (found.kept + found.lost) > share
    lost = [one for one in found.issues if one.rule == "I-TRA-01"]
    assert len(lost) == found.lost


@pytest.mark.parametrize(("folder", "into"), [(VEYHAVEN, TOLLIVER), (TOLLIVER, VEYHAVEN)], ids=["there", "back"])
def test_nothing_is_said_that_was_not_recorded(folder: Path, into: Path, tmp_path: Path) -> None:
    """Read the translated table with the other crosswalk: every fact in it is a fact of the record it was made of."""
    path = tmp_path / "translated.tsv"
    path.write_text(translated(folder, into).table, encoding="utf-8")
    columns, values = find_crosswalk(into)
    back = read_source(Source(str(path), columns, values))
    source = Source(str(next(folder.glob("catalogue.*"))), *find_crosswalk(folder))
    there = {str(one.record["id"]): one.record for one in read_source(source).readings}
    by_number = {str(one["specimen"]["accession"]): one for one in reversed(there.values())}
    checked = 0
    for reading in back.readings:
        record = there.get(str(reading.record["id"])) or by_number[str(reading.record["id"])]
        facts = {(fact.place, str(fact.value)) for fact in each_fact(record)}
        for fact in each_fact(reading.record):
            # What the other crosswalk says of every heart (constants, the way of measuring) is its own.
            if fact.area in ("description", "measurements") or fact.slot in ("consent", "consent_scope", "accession"):
                continue
            assert (fact.place, str(fact.value)) in facts, (record["id"], fact)
            checked += 1
    assert checked > 3000


def test_each_row_says_what_was_not_carried_over() -> None:
    found = translated(TOLLIVER, VEYHAVEN)
    head, first, *_ = found.table.splitlines()
    assert head.split("\t")[-1] == NOT_CARRIED
    assert "stated: notation: {S,D,S}" in first.split("\t")[-1]


def test_the_reason_for_a_loss_is_given() -> None:
    messages = {one.message for one in translated(TOLLIVER, VEYHAVEN).issues if one.rule == "I-TRA-01"}
    assert any("no column of the other collection speaks of it" in one for one in messages)
    assert any("also say what was not recorded of this heart" in one for one in messages)


# --- the command -----------------------------------------------------------------------------------------------------


def test_words_on_the_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["match", "right aortic arches", "cusp"]) == 0
    out = capsys.readouterr().out
    assert "right aortic arch   [right_aortic_arch, normalised, sure]" in out
    assert "    ?  " in out


def test_a_list_as_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    report = tmp_path / "report.json"
    report.write_text(
        '{"unmapped_words": [{"column": "Spleen", "word": "polysplennia", "count": 3}]}', encoding="utf-8"
    )
    assert main(["match", "--unmapped", str(report), "--crosswalk", str(TOLLIVER), "--to", "json"]) == 0
    (found,) = json.loads(capsys.readouterr().out)
    assert (found["column"], found["count"]) == ("Spleen", 3)
    assert found["candidates"][0]["row"] == {"part": "abdominal_organs", "property": "spleen", "value": "multiple"}
    assert found["sure"] is False


def test_a_misspelt_short_form_is_found_by_the_words_the_crosswalk_has(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["match", "--crosswalk", str(VEYHAVEN), "--to", "json"]) == 0
    found = {one["word"]: one for one in json.loads(capsys.readouterr().out)}
    assert [one["target"] for one in found["cocn."]["candidates"]][:1] == ["concordant_atrioventricular_connections"]


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["match"], "no word to match"),
        (["match", "--quality"], "needs a crosswalk"),
        (["match", "x", "--most", "0"], "at least 1"),
        (["match", "x", "--ontology", "nowhere.obo"], "no file nowhere.obo"),
        (["match", "x", "--out", "table.docx"], "not written as table.docx"),
        (["match", "--quality", "--into", "x", "--crosswalk", "y"], "do not go together"),
        (["match", "--unmapped", "nowhere.txt"], "no file nowhere.txt"),
    ],
    ids=lambda value: value if isinstance(value, str) else None,
)
def test_what_cannot_be_done_is_said_in_words(args: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(args) == 2
    assert said in capsys.readouterr().err
