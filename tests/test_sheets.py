"""Workbooks and CSV sets that the schema lays out: the template, words of both schools, the place of every fault.

Published sources: W3C CSV on the Web (checked with the library ``csvw``), Data Package (checked with ``frictionless``);
workbooks are opened with ``openpyxl``, as the curator's program opens them.
"""

from __future__ import annotations

import csv
import io
import json
import lzma
import warnings
import zipfile
import zlib
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings
from tests.formats_data import WHEN, example_records, reconciled, there_and_back, written
from tests.strategies import records

from chordae import cli
from chordae.canonical import canonical
from chordae.formats.opening import open_bytes
from chordae.formats.packing import unpack
from chordae.formats.recognise import KEYWORD, is_template
from chordae.formats.settings import Settings
from chordae.formats.sheets.cells import label, read_cell, write_cell
from chordae.formats.sheets.layout import sheets
from chordae.formats.table import FORMATS
from chordae.formats.xlsx.format import write_template
from chordae.model import class_slots, tables
from chordae.record import Record
from chordae.structure import check_structure

SCHOOLS = (None, "european", "north_american")
PARTS = [name for name, one in tables().classes.items() if "Part" in one.ancestors and not one.abstract]


def template(school: str | None = None) -> openpyxl.Workbook:
    return openpyxl.load_workbook(io.BytesIO(write_template(Settings(school=school, recorded=WHEN))))


def saved(book: openpyxl.Workbook) -> bytes:
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def columns(page: Any) -> dict[str, int]:
    return {page.cell(1, at).value: at for at in range(1, page.max_column + 1)}


def fill(book: openpyxl.Workbook, title: str, **cells: Any) -> int:
    """Fill the next row of a sheet as a curator does; its number."""
    page = book[title]
    row = next(number for number in range(2, 100) if page.cell(number, 1).value is None)
    for heading, value in cells.items():
        page.cell(row, columns(page)[heading.replace("_", " ")]).value = value
    return row


# --- the template ---


def test_every_slot_of_every_part_has_a_column() -> None:
    book = template()
    titles = {sheet.class_name: sheet for sheet in sheets().values() if sheet.is_part}
    assert set(titles) == set(PARTS)
    nodes = {"observed", "opens_into", "arises_from", "id", "type"}
    for name, sheet in titles.items():
        headings = {heading.replace(" ", "_") for heading in columns(book[sheet.title])}
        assert headings == {"record", "part", *class_slots(name)} - nodes
    assert book.sheetnames[0] == "Instructions" and "Words" in book.sheetnames
    assert not any(sheet.made and sheet.title in book.sheetnames for sheet in sheets().values())


@pytest.mark.parametrize("school", SCHOOLS)
def test_each_list_offers_just_the_words_of_its_slot(school: str | None) -> None:
    book = template(school)
    words = book["Words"]
    seen = 0
    for sheet in (one for one in sheets().values() if one.title in book.sheetnames):
        page = book[sheet.title]
        assert page.freeze_panes == page.cell(2, len(sheet.keys) + 1).coordinate
        rules = {str(one.sqref).split(":")[0]: one for one in page.data_validations.dataValidation}
        for column in sheet.columns:
            cell = page.cell(1, columns(page)[column.name.replace("_", " ")])
            assert column.slot.description in cell.comment.text
            if column.slot.kind != "enum":
                continue
            rule = rules[f"{cell.column_letter}2"]
            first, last = (int(one.rpartition("$")[2]) for one in rule.formula1.split(":"))
            offered = [words.cell(row, 2).value for row in range(first, last + 1)]
            assert [read_cell(one, column.slot) for one in offered] == [
                [one] if column.slot.multivalued else one for one in column.slot.values
            ]
            assert rule.showErrorMessage is not column.slot.multivalued
            seen += 1
    assert seen > 200


def test_both_schools_are_offered_and_understood() -> None:
    slot = tables().slots["state"]
    assert label(slot, "not_assessable", "european") == "not assessable"
    assert label(slot, "not_assessable", "north_american") == "cannot be assessed"
    for one in tables().slots.values():
        for school in ("european", "north_american"):
            for word in one.values:
                value = [word] if one.multivalued else word
                assert read_cell(write_cell(value, one, school), one) == value, (one.name, word)


def test_instructions_say_what_the_four_states_are_and_what_the_file_is_not_for() -> None:
    page = template("european")["Instructions"]
    text = " ".join(str(cell.value) for (cell,) in page.iter_rows(max_col=1))
    for word in ("present", "absent", "not_assessable", "not_examined", "never read as normal", "Not for diagnosis"):
        assert word in text
    assert "European school" in text
    # Seen in LibreOffice 7.4: rows are not made as high as the lines that a cell is broken into.
    width = page.column_dimensions["A"].width
    for row in range(1, page.max_row + 1):
        lines = -(-len(str(page.cell(row, 1).value)) // (width - 10))
        assert page.row_dimensions[row].height >= 15 * lines


def test_the_workbook_holds_every_part_that_its_format_asks_for() -> None:
    """ECMA-376 part 2: a package has content types and relationships; spreadsheet programs refuse one without them."""
    with zipfile.ZipFile(io.BytesIO(write_template(Settings(recorded=WHEN)))) as package:
        names = package.namelist()
    assert names[0] == "[Content_Types].xml" and {"_rels/.rels", "xl/workbook.xml", "docProps/core.xml"} <= set(names)
    assert not any("vbaProject" in name or "externalLink" in name for name in names)


def test_the_same_template_is_the_same_bytes() -> None:
    settings = Settings(recorded=WHEN)
    assert write_template(settings) == write_template(settings)


# --- filled in ---


def test_a_filled_template_is_read_by_either_school(tmp_path: Path) -> None:
    book = template("north_american")
    fill(book, "Records", id="0012", specimen_accession="0012", description_examination="naked eye | Probe")
    fill(book, "Atrium", record="0012", part="right_sided_atrium", pectinate_extent="to crux", side="right-sided")
    fill(book, "Atrial septum", record="0012", septal_integrity="Not assessable")
    fill(book, "Great arteries", record="0012", part="great_arteries", aorta_relation="aorta to the right")
    fill(book, "Commitments", record="0012", part="aorta", property="arises_from", per_cent=30)
    fill(book, "Arterial trunk", record="0012", part="aorta", gives_coronary_arteries="absent")
    path = tmp_path / "filled.xlsx"
    path.write_bytes(saved(book))
    assert is_template(str(path))
    readings, issues = open_bytes(path.read_bytes(), str(path), FORMATS["xlsx"])
    assert issues == []
    record = readings[0].record
    assert record["specimen"] == {"accession": "0012"}
    assert record["description"] == {"examination": ["naked_eye", "probe"]}
    assert {part["id"]: part for part in record["parts"]} == {
        "right_sided_atrium": {
            "id": "right_sided_atrium", "type": "Atrium", "side": "right_sided", "pectinate_extent": "to_crux",
        },
        "atrial_septum": {"id": "atrial_septum", "type": "AtrialSeptum", "septal_integrity": "not_assessable"},
        "great_arteries": {"id": "great_arteries", "type": "GreatArteries", "aorta_relation": "right"},
        "aorta": {
            "id": "aorta", "type": "ArterialTrunk", "gives_coronary_arteries": "absent",
            "arises_from": [{"per_cent": 30}],
        },
    }  # fmt: skip
    assert check_structure(readings[0]) == []
    # The command line knows the template by itself, without a crosswalk.
    assert cli.main(["read", str(path), "--to", "json", "--out", str(tmp_path / "out.json")]) == 0
    assert json.loads((tmp_path / "out.json").read_text(encoding="utf-8"))[0]["id"] == "0012"


def test_every_fault_is_told_with_sheet_row_and_column() -> None:
    book = template()
    fill(book, "Records", id="0012", description_described_on="last spring")
    fill(book, "Records", id="0012", collection="twice")
    fill(book, "Atrium", record="0012", part="right_sided_atrium", pectinate_extent="to the crust")
    fill(book, "Atrioventricular valve", record="0012", part="tricuspid_valve", leaflet_count="three")
    fill(book, "Observed", record="0012", part="mitral_valve", feature="cleft")
    fill(book, "Ventricle", record="", part="left_sided_ventricle", side="left_sided")
    fill(book, "Measurements", record="0013", id="m1", quantity="length", value=3)
    page = book["Atrium"]
    page.cell(1, page.max_column + 1).value = "colour"
    page.cell(2, page.max_column).value = "pale"
    book.create_sheet("Atriums").append(["record", "part"])
    readings, issues = open_bytes(saved(book), "filled.xlsx", FORMATS["xlsx"])
    faults = issues + [one for reading in readings for one in check_structure(reading)]
    found = {
        (one.rule, one.location.sheet, one.location.line, one.location.column and _heading(book, one.location))
        for one in faults
    }
    assert found == {
        ("S-PAT", "Records", 2, "description described on"),
        ("I-REC-01", "Records", 3, "id"),
        ("S-VAL", "Atrium", 2, "pectinate extent"),
        ("S-TYPE", "Atrioventricular valve", 2, "leaflet count"),
        ("I-SHE-05", "Observed", 2, "part"),
        ("I-SHE-03", "Ventricle", 2, "record"),
        ("I-SHE-04", "Measurements", 2, "record"),
        ("I-SHE-02", "Atrium", 1, "colour"),
        ("I-SHE-06", "Atriums", None, None),
    }
    remarks = {one["place"]: one["text"] for one in readings[0].record["remarks"]}
    assert remarks == {
        "Atrium: colour": "pale",
        "Records: line 3": "id: 0012; collection: twice",
        "Observed: line 2": "record: 0012; part: mitral_valve; feature: cleft",
    }


def _heading(book: openpyxl.Workbook, place: Any) -> Any:
    return book[place.sheet].cell(1, place.column).value


def test_words_that_look_like_formulas_stay_words() -> None:
    record: Record = {"id": "7", "remarks": [{"text": '=HYPERLINK("http://example.org")'}, {"text": "+1"}]}
    data, _ = written(FORMATS["xlsx"], [record])
    page = openpyxl.load_workbook(io.BytesIO(data))["Remarks"]
    assert [page.cell(row, 2).data_type for row in (2, 3)] == ["s", "s"]
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        assert not any(b"<f>" in package.read(name) for name in package.namelist() if "worksheets" in name)
    back, issues, _ = there_and_back(FORMATS["xlsx"], [record])
    assert back == {"7": record} and issues == []


def test_a_workbook_with_broken_properties_is_no_template(tmp_path: Path) -> None:
    """Whatever the damage to the zip: the reader that comes after names it."""
    text = b"<x>" + KEYWORD.encode() * 400
    for way, seen in ((zipfile.ZIP_DEFLATED, zlib.error), (zipfile.ZIP_LZMA, lzma.LZMAError)):
        path = tmp_path / f"{way}.xlsx"
        with zipfile.ZipFile(path, "w", way) as package:
            package.writestr("docProps/core.xml", text)
            at = package.getinfo("docProps/core.xml").header_offset + 30 + len("docProps/core.xml")
        data = bytearray(path.read_bytes())
        data[at + 4 : at + 12] = b"\xff" * 8
        path.write_bytes(data)
        with zipfile.ZipFile(path) as package, pytest.raises(seen):
            package.read("docProps/core.xml")
        assert not is_template(str(path))


def in_plain_words(value: Any) -> Any:
    """The same record with texts as people type them: printable, not empty, no space at the ends, no bar."""
    if isinstance(value, dict):
        return {key: in_plain_words(one) for key, one in value.items()}
    if isinstance(value, list):
        return [in_plain_words(one) for one in value]
    if not isinstance(value, str):
        return value
    return "".join(one if one.isprintable() and one != "|" else "-" for one in value).strip() or "-"


@pytest.mark.parametrize("name", ["xlsx", "csv"])
@settings(max_examples=25)
@given(record=records())
def test_any_record_in_plain_words_comes_back_whole(name: str, record: Record) -> None:
    record = canonical(in_plain_words(record))
    back, issues, carried = there_and_back(FORMATS[name], [record])
    assert issues == []
    assert back == {record["id"]: record}
    assert set(carried[record["id"]].values()) == {"coded"}


@pytest.mark.parametrize("name", ["xlsx", "csv"])
def test_how_two_descriptions_were_reconciled_comes_back(name: str) -> None:
    third = reconciled()
    back, issues, carried = there_and_back(FORMATS[name], [third])
    assert issues == [] and back == {third["id"]: third}
    places = [path for path in carried[third["id"]] if path.startswith("/reconciliation/")]
    assert {path.split("/")[2] for path in places} == {
        "derived_from", "settled_by", "settled_on", "origins", "open_questions",
    }  # fmt: skip


def test_a_second_row_where_there_can_be_one_is_kept_as_words() -> None:
    book = openpyxl.load_workbook(io.BytesIO(written(FORMATS["xlsx"], [reconciled()])[0]))
    row = fill(book, "Reconciliation", record=reconciled()["id"], settled_by="somebody else")
    readings, issues = open_bytes(saved(book), "third.xlsx", FORMATS["xlsx"])
    assert [(one.rule, one.location.sheet, one.location.line) for one in issues] == [
        ("I-SHE-08", "Reconciliation", row)
    ]
    assert readings[0].record["reconciliation"] == reconciled()["reconciliation"]
    assert "somebody else" in readings[0].record["remarks"][-1]["text"]


@pytest.mark.parametrize("name", ["xlsx", "csv"])
def test_what_a_cell_cannot_hold_is_not_said_to_be_carried_coded(name: str) -> None:
    record: Record = {
        "id": "7",
        "specimen": {"other_numbers": ["a|b"], "note": " with spaces ", "age_text": ""},
        "description": {"observer": "bell \x07", "note": "two\nlines"},
    }
    back, _, carried = there_and_back(FORMATS[name], [record])
    assert carried["7"] == {
        "/id": "coded",
        "/specimen/other_numbers/0": "text",
        "/specimen/note": "text",
        "/description/observer": "text",
        "/description/note": "coded",
    }
    assert back["7"] == {
        "id": "7",
        "specimen": {"other_numbers": ["a", "b"], "note": "with spaces"},
        "description": {"observer": "bell", "note": "two\nlines"},
    }


def test_an_independent_reader_sees_the_same_cells() -> None:
    """``python-calamine`` shares no code with ``openpyxl``; every cell is text or a number, none is a formula."""
    calamine = pytest.importorskip("python_calamine", reason="extra formats-test")
    found = list(example_records())
    book = calamine.CalamineWorkbook.from_filelike(io.BytesIO(written(FORMATS["xlsx"], found)[0]))
    rows = {name: book.get_sheet_by_name(name).to_python() for name in book.sheet_names}
    assert {row[0] for row in rows["Records"][1:]} == {one["id"] for one in found}
    heading = rows["Atrium"][0]
    extent = {(row[0], row[1]): row[heading.index("pectinate extent")] for row in rows["Atrium"][1:]}
    expected = {
        (one["id"], part["id"]): part.get("pectinate_extent", "")
        for one in found
        for part in one.get("parts", ())
        if part["type"] == "Atrium"
    }
    assert extent == expected and len(expected) > 20
    kinds = {type(cell) for name in rows if name != "Instructions" for row in rows[name] for cell in row}
    assert kinds <= {str, float, int}


@pytest.mark.parametrize("school", SCHOOLS)
def test_examples_come_back_whole_in_the_words_of_each_school(school: str | None) -> None:
    found = list(example_records())
    data, _ = written(FORMATS["xlsx"], found, school=school)
    readings, issues = open_bytes(data, "hearts.xlsx", FORMATS["xlsx"])
    assert issues == []
    assert [canonical(one.record) for one in readings] == found


# --- CSV sets ---


def _folder(tmp_path: Path) -> Path:
    data, _ = written(FORMATS["csv"], list(example_records()))
    for name, content in unpack(data, "hearts.zip").items():
        (tmp_path / name).write_bytes(content)
    return tmp_path


def _spoil(path: Path, heading: str, value: str) -> None:
    rows = list(csv.reader(path.read_text(encoding="utf-8").splitlines()))
    rows[1][rows[0].index(heading)] = value
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    path.write_text(out.getvalue(), encoding="utf-8")


def test_frictionless_accepts_the_package_and_finds_planted_faults(tmp_path: Path) -> None:
    frictionless = pytest.importorskip("frictionless", reason="extra formats-test")
    folder = _folder(tmp_path)

    def errors() -> set[tuple[str, str]]:
        report = frictionless.Package(str(folder / "datapackage.json")).validate()
        return {(task.name, error.type) for task in report.tasks for error in task.errors}

    assert errors() == set()
    _spoil(folder / "atrium.csv", "pectinate_extent", "to the crust")
    _spoil(folder / "measurements.csv", "record", "nobody")
    _spoil(folder / "commitments.csv", "per_cent", "120")
    assert errors() == {
        ("atrium", "constraint-error"), ("measurements", "foreign-key"), ("commitments", "constraint-error"),
    }  # fmt: skip


def test_csvw_accepts_the_metadata_and_finds_planted_faults(tmp_path: Path) -> None:
    csvw = pytest.importorskip("csvw", reason="extra formats-test")
    folder = _folder(tmp_path)
    metadata = folder / "csv-metadata.json"
    with warnings.catch_warnings(action="error"):
        group = csvw.TableGroup.from_file(metadata)
        rows = {table.local_name: list(table) for table in group.tables}
        assert group.check_referential_integrity()
    record = example_records()[0]
    first = next(row for row in rows["records.csv"] if row["id"] == record["id"])
    assert first["description_examination"] == record["description"]["examination"]
    _spoil(folder / "atrium.csv", "pectinate_extent", "to the crust")
    with pytest.raises(ValueError, match="to the crust"):
        list(next(one for one in csvw.TableGroup.from_file(metadata).tables if one.local_name == "atrium.csv"))


def test_faults_of_a_csv_set_have_file_line_and_column(tmp_path: Path) -> None:
    folder = _folder(tmp_path)
    _spoil(folder / "atrium.csv", "pectinate_extent", "to the crust")
    (folder / "ventricle.csv").write_bytes(b"")
    report = tmp_path / "report.json"
    words = ["read", str(folder), "--from", "csv", "--to", "ndjson", "--out", str(tmp_path / "out.ndjson")]
    assert cli.main([*words, "--report", "json", "--report-to", str(report)]) == 1
    found = [(one["rule"], one["location"]) for one in json.loads(report.read_text(encoding="utf-8"))]
    at = sheets()["atrium"].headings.index("pectinate_extent") + 1
    assert ("S-VAL", {"file": "atrium.csv", "line": 2, "column": at}) in found
    assert ("I-FMT-01", {"file": "ventricle.csv", "line": None, "column": None}) in found


def test_a_folder_without_our_tables_is_told(tmp_path: Path) -> None:
    (tmp_path / "hearts.csv").write_text("no,what\n1,2\n", encoding="utf-8")
    report = tmp_path / "r.json"
    words = ["read", str(tmp_path), "--from", "csv", "--report", "json", "--report-to", str(report)]
    assert cli.main(words) == 1
    assert [one["rule"] for one in json.loads(report.read_text(encoding="utf-8"))] == ["I-SHE-07"]
