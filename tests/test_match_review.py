"""Review by table: written, filled in, read back; decisions become a crosswalk and a mapping set.

Checks from outside: the workbook as openpyxl reads it; the mapping set as sssom-pydantic reads it; the crosswalk as the
intake applies it.
"""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from chordae.cli import main
from chordae.formulas import unguarded
from chordae.intake.crosswalk import read_crosswalk
from chordae.issues import Issue
from chordae.match.decisions import DECISIONS, in_force, read_decisions, rejected
from chordae.match.local import LocalWord, read_collection, read_list
from chordae.match.offers import offers
from chordae.match.review import HEADINGS, PROPOSALS, one_line, write_review
from chordae.match.review_read import read_review
from chordae.sssom import read_mappings

COLUMNS = """\
column\tpart\tproperty\tkind\tstyle\tunit\tnote
No.\tspecimen\taccession\tidentifier\t\t\t
Topology\tstated\ttopology\tvalue\t\t\t
Spleen\tabdominal_organs\tspleen\tvalue\t\t\t
Names\tstated\tdiagnoses\tvalue\tlist_comma\t\t
"""
VALUES = """\
column\tlocal\tpart\tproperty\tvalue\tstate\tmatch\treviewer\tnote
Topology\tD\tstated\ttopology\tright_hand\t\texact\tA. Hand\twritten by hand
Topology\tlefthand\t\t\t\t\t\t\t
"""
CATALOGUE = """\
No.,Topology,Spleen,Names
001,D,polysplennia,Fallot's tetrad
002,lefthand,polysplennia,"cusp, right arch"
003,lefthand,=cmd|' /C calc'!A0,TGA
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in (("columns.tsv", COLUMNS), ("values.tsv", VALUES), ("catalogue.csv", CATALOGUE)):
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def write(folder: Path, name: str = "review.tsv") -> Path:
    found = read_collection(folder)
    ruled_out = rejected(read_decisions(folder))
    path = folder / name
    write_review(path, offers(found.words, found.crosswalk, rejected=ruled_out), read_decisions(folder))
    return path


def rows_of(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8")), delimiter="\t"))


def decide(path: Path, **chosen: tuple[str, str, str]) -> None:
    """Fill in decisions: word -> (number of the row, decision, note)."""
    rows = rows_of(path)
    for row in rows:
        number, decision, note = chosen.get(row["word"], ("", "", ""))
        if row["no."] == number:
            row["decision"], row["note"] = decision, note
    save(path, rows)


def save(path: Path, rows: list[dict[str, str]]) -> None:
    out = io.StringIO()
    writer = csv.DictWriter(out, HEADINGS, delimiter="\t", lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    path.write_text(out.getvalue(), encoding="utf-8")


def read(folder: Path, path: Path, *more: str) -> int:
    args = ["match", "--crosswalk", str(folder), "--read", str(path), "--author", "A. Reader", "--date", "2026-11-25"]
    return main([*args, *more])


# --- words that are not mapped ---------------------------------------------------------------------------------------


def test_words_come_with_column_count_and_places(folder: Path) -> None:
    words = {one.word: one for one in read_collection(folder).words}
    assert words["polysplennia"] == LocalWord("polysplennia", "Spleen", 2, ("001, line 2", "002, line 3"))
    assert words["lefthand"].count == 2
    assert "D" not in words


def test_a_list_is_read_from_a_report_a_table_and_plain_text(tmp_path: Path) -> None:
    report = tmp_path / "report.json"
    report.write_text('{"unmapped_words": [{"column": "Spleen", "word": "big", "count": 3}]}', encoding="utf-8")
    table = tmp_path / "words.csv"
    table.write_text("word,column,count\nbig,Spleen,3\n", encoding="utf-8")
    plain = tmp_path / "words.txt"
    plain.write_text("big\n\n small  one\n", encoding="utf-8")
    assert read_list(str(report)) == read_list(str(table)) == [LocalWord("big", "Spleen", 3)]
    assert read_list(str(plain)) == [LocalWord("big"), LocalWord("small one")]


# --- the table as written --------------------------------------------------------------------------------------------


def test_each_candidate_is_a_row_with_reasons_and_each_word_has_a_row_of_its_own(folder: Path) -> None:
    rows = rows_of(write(folder))
    spleen = [row for row in rows if row["word"] == "polysplennia"]
    assert (spleen[0]["target"], spleen[0]["part"], spleen[0]["value"]) == (
        "multiple_spleens",
        "abdominal_organs",
        "multiple",
    )
    assert spleen[0]["why"]
    assert spleen[-1]["no."] == "own"
    assert [row["no."] for row in rows if row["word"] == "TGA"] == ["question", "own"]


def test_a_workbook_offers_the_decisions_and_keeps_cells_as_text(folder: Path) -> None:
    book = load_workbook(write(folder, "review.xlsx"))
    sheet = book[PROPOSALS]
    (validation,) = sheet.data_validations.dataValidation
    assert validation.formula1 == '"' + ",".join(DECISIONS) + '"'
    assert len(validation.formula1) <= 255  # Excel's limit for a list written out
    assert "O2" in validation.sqref
    words = {str(row[0].value): row[0] for row in sheet.iter_rows(min_row=2)}
    harmful = words["=cmd|' /C calc'!A0"]
    assert (harmful.data_type, harmful.quotePrefix) == ("s", True)
    assert not [cell for row in sheet.iter_rows() for cell in row if cell.data_type == "f"]
    assert book.sheetnames == [PROPOSALS, "History", "What to do"]


def test_a_text_table_guards_against_formulas(folder: Path) -> None:
    text = write(folder).read_text(encoding="utf-8")
    cells = [cell for line in text.splitlines() for cell in line.split("\t")]
    assert "'=cmd|' /C calc'!A0" in cells
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]


@given(st.text(max_size=40))
def test_guarding_is_undone_when_read_back(text: str) -> None:
    plain = " ".join(text.split())
    if plain.isprintable():
        assert unguarded(one_line(text)) == plain
    assert not one_line(text).startswith(("=", "+", "-", "@", "\t", "\r"))


# --- read back -------------------------------------------------------------------------------------------------------


def test_accepted_rows_become_a_crosswalk_that_the_intake_applies(folder: Path) -> None:
    path = write(folder)
    decide(path, polysplennia=("1", "same", "spelling"), lefthand=("1", "same", ""))
    assert read(folder, path) == 0
    crosswalk, issues = read_crosswalk(folder / "columns.tsv", folder / "values.tsv")
    assert [one.rule for one in issues] == []
    (spleen,) = crosswalk.decisions("Spleen", "Polysplennia")
    assert (spleen.value, spleen.match, spleen.reviewer, spleen.note) == ("multiple", "exact", "A. Reader", "spelling")
    (hand,) = crosswalk.decisions("Topology", "lefthand")
    assert hand.value == "left_hand"
    assert crosswalk.decisions("Topology", "D")[0].note == "written by hand"
    assert (folder / "values.tsv").read_text(encoding="utf-8").count("lefthand") == 1


def test_the_same_decisions_stand_in_sssom_with_author_and_date(folder: Path) -> None:
    path = write(folder)
    decide(path, polysplennia=("1", "same", ""))
    read(folder, path)
    mappings, issues = read_mappings((folder / "local.sssom.tsv").read_bytes(), "local.sssom.tsv")
    assert issues == []
    (row,) = mappings.rows
    assert dict(row.cells) == {
        "subject_id": "local:Spleen/polysplennia",
        "subject_label": "polysplennia",
        "predicate_id": "skos:exactMatch",
        "object_id": "term:multiple_spleens",
        "object_label": "multiple spleens",
        "mapping_justification": "semapv:ManualMappingCuration",
        "author_label": "A. Reader",
        "mapping_date": "2026-11-25",
        "other": "column=Spleen",
    }


def test_sssom_pydantic_reads_every_row(folder: Path) -> None:
    sssom = pytest.importorskip("sssom_pydantic", reason="sssom-pydantic (extra test) is the oracle here")
    path = write(folder)
    decide(path, polysplennia=("1", "not this", ""), lefthand=("1", "same", ""))
    read(folder, path, "--author", "0000-0002-1825-0097")
    found, _, _, errors = sssom.read(folder / "local.sssom.tsv", return_errors=True)
    assert not errors
    assert {(str(one.predicate_modifier or ""), one.object.identifier) for one in found} == {
        ("Not", "multiple_spleens"),
        ("", "left_hand_topology"),
    }


def test_what_is_ruled_out_becomes_a_negative_mapping_and_is_not_proposed_again(folder: Path) -> None:
    path = write(folder)
    decide(path, polysplennia=("1", "not this", "the spleen was whole"))
    read(folder, path)
    mappings, _ = read_mappings((folder / "local.sssom.tsv").read_bytes(), "local.sssom.tsv")
    assert [(row.negative, row.positive) for row in mappings.rows] == [(True, False)]
    again = [row for row in rows_of(write(folder)) if row["word"] == "polysplennia"]
    assert "multiple_spleens" not in [row["target"] for row in again]
    assert "polysplennia" not in (folder / "values.tsv").read_text(encoding="utf-8")


def test_a_changed_decision_takes_its_row_out_again_and_keeps_its_history(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = write(folder)
    decide(path, polysplennia=("1", "same", ""))
    read(folder, path)
    decide(path, polysplennia=("1", "not this", ""))
    capsys.readouterr()
    assert read(folder, path) == 0
    assert "I-RVW-05" in capsys.readouterr().err
    assert "polysplennia" not in (folder / "values.tsv").read_text(encoding="utf-8")
    history = read_decisions(folder)
    assert [one.decision for one in history] == ["same", "not this"]
    assert [one.decision for one in in_force(history)] == ["not this"]
    book = load_workbook(write(folder, "again.xlsx"))
    assert [row[10].value for row in book["History"].iter_rows(min_row=2)] == ["same", "not this"]


def test_reading_the_same_table_twice_changes_nothing(folder: Path) -> None:
    path = write(folder)
    decide(path, polysplennia=("1", "same", ""))
    read(folder, path)
    before = [(one.name, one.read_bytes()) for one in sorted(folder.iterdir())]
    read(folder, path)
    assert [(one.name, one.read_bytes()) for one in sorted(folder.iterdir())] == before


def test_a_filled_in_workbook_is_read_as_text(folder: Path) -> None:
    path = write(folder, "review.xlsx")
    book = load_workbook(path)
    sheet = book[PROPOSALS]
    for row in sheet.iter_rows(min_row=2):
        if row[0].value == "polysplennia" and row[4].value == "1":
            row[HEADINGS.index("decision")].value = "same"
    book.save(path)
    assert read(folder, path) == 0
    assert [one.word for one in read_decisions(folder)] == ["polysplennia"]


def test_a_question_is_answered_in_the_row_of_ones_own(folder: Path) -> None:
    path = write(folder)
    rows = rows_of(path)
    question = ""
    for row in rows:
        if row["word"] == "TGA" and row["no."] == "own":
            row |= {"part": "stated", "property": "diagnoses", "value": "transposition", "decision": "same"}
        if row["word"] == "cusp" and row["no."] == "question":
            row["decision"] = "ask"
            question = row["candidate"]
    save(path, rows)
    assert read(folder, path) == 0
    crosswalk, _ = read_crosswalk(folder / "columns.tsv", folder / "values.tsv")
    assert crosswalk.decisions("Names", "TGA")[0].value == "transposition"
    (asked,) = crosswalk.decisions("Names", "cusp")
    assert (asked.match, asked.note) == ("ambiguous", question)


# --- mistakes --------------------------------------------------------------------------------------------------------


def mistakes(folder: Path, change: dict[str, str], number: str = "1") -> list[Issue]:
    path = write(folder)
    rows = rows_of(path)
    row = next(row for row in rows if row["word"] == "polysplennia" and row["no."] == number)
    row |= change
    save(path, rows)
    crosswalk = read_collection(folder).crosswalk
    new, issues = read_review(path, crosswalk, [], "A. Reader", "2026-11-25")
    assert new == []
    assert all(one.location.line is not None for one in issues)
    return issues


@pytest.mark.parametrize(
    ("change", "number", "rule"),
    [
        ({"decision": "yes"}, "1", "I-RVW-01"),
        ({"decision": "same", "word": ""}, "1", "I-RVW-02"),
        ({"decision": "same", "part": "", "property": "", "value": ""}, "1", "I-RVW-02"),
        ({"decision": "not this", "target": ""}, "1", "I-RVW-02"),
        ({"decision": "ask"}, "1", "I-RVW-02"),
        ({"value": "multiple"}, "own", "I-RVW-02"),
        ({"decision": "same", "target": "no_such_term"}, "1", "I-RVW-04"),
        ({"decision": "same", "column": "Splean"}, "1", "I-XW-19"),
        ({"decision": "same", "part": "abdomen"}, "1", "I-XW-03"),
        ({"decision": "same", "property": "spleens"}, "1", "I-XW-04"),
        ({"decision": "same", "value": "many"}, "1", "I-XW-05"),
        ({"decision": "same", "value": "", "state": "gone"}, "1", "I-XW-08"),
    ],
    ids=lambda value: value if isinstance(value, str) else next(iter(value)),
)
def test_each_mistake_is_an_issue_at_its_line(folder: Path, change: dict[str, str], number: str, rule: str) -> None:
    assert [one.rule for one in mistakes(folder, change, number)] == [rule]


def test_decisions_that_exclude_each_other_are_both_refused(folder: Path) -> None:
    path = write(folder)
    rows = rows_of(path)
    same = [row for row in rows if row["word"] == "lefthand"]
    same[0]["decision"] = "same"
    own = next(row for row in same if row["no."] == "own")
    own |= {"part": "stated", "property": "topology", "value": "right_hand", "decision": "same"}
    save(path, rows)
    new, issues = read_review(path, read_collection(folder).crosswalk, [], "A. Reader", "2026-11-25")
    assert new == []
    assert [one.rule for one in issues] == ["I-RVW-03"]


def test_who_decided_has_to_be_said(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = write(folder)
    assert main(["match", "--crosswalk", str(folder), "--read", str(path)]) == 2
    assert "Who decided?" in capsys.readouterr().err


def test_another_table_is_refused(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert read(folder, folder / "catalogue.csv") == 2
    assert "no column 'word'" in capsys.readouterr().err
