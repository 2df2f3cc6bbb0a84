"""Workbooks: every cell as text, merged headings, formulas, errors, dates, hidden things; and files that are traps.

The workbooks are written by openpyxl, a general-purpose library, and broken by hand where a program would not.
"""

from __future__ import annotations

import datetime
import io
import zipfile
from typing import Any

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from chordae.errors import InputError
from chordae.intake.grid import Table
from chordae.intake.table import read_table
from chordae.intake.workbook import number_as_shown
from chordae.issues import Issue, Location


def book(lines: list[list[Any]], *, merge: tuple[str, ...] = (), title: str = "Hearts") -> openpyxl.Workbook:
    made = openpyxl.Workbook()
    sheet = made.active
    assert isinstance(sheet, Worksheet)
    sheet.title = title
    for line in lines:
        sheet.append(line)
    for one in merge:
        sheet.merge_cells(one)
    return made


def saved(made: openpyxl.Workbook) -> bytes:
    stream = io.BytesIO()
    made.save(stream)
    return stream.getvalue()


def read(made: openpyxl.Workbook, **options: str) -> tuple[Table, list[Issue]]:
    return read_table("hearts.xlsx", data=saved(made), **options)


def rules(issues: list[Issue]) -> list[tuple[str, int | None, int | None]]:
    return [(one.rule, one.location.line, one.location.column) for one in issues]


def repacked(data: bytes, name: str, change: Any) -> bytes:
    """Return a workbook with one part changed (``change`` gets its bytes) or added (it gets none)."""
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.infolist():
            content = old.read(part.filename)
            new.writestr(part.filename, change(content) if part.filename == name else content)
        if name not in old.namelist():
            new.writestr(name, change(b""))
    return stream.getvalue()


def test_numbers_and_text_stay_as_they_are_shown() -> None:
    made = book([["no", "a", "b", "c", "d"], ["0012", 12, 12.5, 0.3, True], [12, 0.1 + 0.2, -3, 1e20, "NA"]])
    made["Hearts"]["D2"].number_format = "0%"
    made["Hearts"]["A3"].number_format = "0000"
    table, issues = read(made)
    assert [row.cells for row in table.rows] == [
        ("0012", "12", "12.5", "30%", "TRUE"),
        ("0012", "0.3", "-3", "1e+20", "NA"),
    ]
    assert issues == []


@pytest.mark.parametrize(
    ("value", "shape", "text"),
    [
        (12, "General", "12"),
        (12, "0000", "0012"),
        (1.5, "0.00", "1.50"),
        (1.256, "0.00", "1.256"),
        (0.125, "0%", "0.125"),
        (0.125, "0.0%", "12.5%"),
        (-4, "0000", "-4"),
        (1234567890123456, "0", "1234567890123456"),
        (10**17 + 1, "0", "100000000000000001"),
        (0.1 + 0.2, "0.00", "0.3"),
        (2.0, "[Red]0.0", "2"),
    ],
)
def test_a_number_format_is_followed_where_no_digit_is_lost(value: float, shape: str, text: str) -> None:
    assert number_as_shown(value, shape) == text


def test_headings_over_two_rows_are_joined() -> None:
    made = book(
        [
            ["Hearts of the invented collection"],
            ["Cat. no.", "Tricuspid valve", None, "Date"],
            [None, "leaflets", "cords\nto septum", None],
            ["0012", 3, "yes", "1998"],
        ],
        merge=("A1:D1", "A2:A3", "B2:C2"),
    )
    table, issues = read(made)
    assert table.headings == ("Cat. no.", "Tricuspid valve / leaflets", "Tricuspid valve / cords to septum", "Date")
    assert [(row.line, row.cells) for row in table.rows] == [(4, ("0012", "3", "yes", "1998"))]
    assert rules(issues) == [("I-TAB-10", 1, None)]
    assert table.place(4, 2) == Location("hearts.xlsx", 4, 3, "Hearts")


def test_a_group_that_spans_only_some_columns_is_no_title() -> None:
    made = book([[None, "Valve", None], ["no", "a", "b"], ["1", "2", "3"]], merge=("B1:C1",))
    assert read(made)[0].headings == ("no", "Valve / a", "Valve / b")


def test_a_formula_is_an_issue_and_its_text_is_kept() -> None:
    table, issues = read(book([["no", "a"], ["0012", "=B3+1"], ["0013", "=1/0"]]))
    assert [row.cells[1] for row in table.rows] == ["=B3+1", "=1/0"]
    assert rules(issues) == [("I-BOOK-01", 2, 2), ("I-BOOK-01", 3, 2)]


def test_an_error_value_is_read_as_empty_with_an_issue() -> None:
    table, issues = read(book([["no", "a"], ["0012", "#N/A"], ["0013", "#REF!"]]))
    assert [row.cells[1] for row in table.rows] == ["", ""]
    assert rules(issues) == [("I-BOOK-02", 2, 2), ("I-BOOK-02", 3, 2)]


def test_date_cells_become_year_month_day_and_are_marked() -> None:
    made = book([["no", "date"], ["1", datetime.date(1998, 3, 7)], ["2", "7.3.1998"], ["3", datetime.time(10, 30)]])
    table, issues = read(made)
    assert [row.cells[1] for row in table.rows] == ["1998-03-07", "7.3.1998", "10:30:00"]
    assert [row.dates for row in table.rows] == [{1}, set(), {1}]
    assert rules(issues) == [("I-BOOK-06", 2, 2)] and "2 cells are" in issues[0].message


def test_hidden_rows_columns_and_sheets_are_named() -> None:
    made = book([["no", "a", "b"], ["1", "2", "3"], ["4", "5", "6"]])
    made["Hearts"].row_dimensions[3].hidden = True
    made["Hearts"].column_dimensions["B"].hidden = True
    made.create_sheet("old").append(["x"])
    made["old"].sheet_state = "hidden"
    made.create_sheet("Loans").append(["x"])
    table, issues = read(made)
    assert len(table.rows) == 2
    assert [one.rule for one in issues] == ["I-BOOK-03", "I-BOOK-05", "I-BOOK-04", "I-BOOK-04"]
    assert "Loans" in issues[1].message and "row 3" in issues[2].message and "column 2" in issues[3].message


def test_merged_cells_below_the_heading_are_named() -> None:
    table, issues = read(book([["no", "a"], ["1", "x"], ["2", None]], merge=("B2:B3",)))
    assert [row.cells for row in table.rows] == [("1", "x"), ("2", "")]
    assert rules(issues) == [("I-BOOK-07", 2, 2)]


def test_a_sheet_is_chosen_by_name_and_a_missing_one_is_an_error() -> None:
    made = book([["no"], ["1"]])
    made.create_sheet("Loans").append(["loan"])
    made["Loans"].append(["7"])
    assert read(made, sheet="Loans")[0].headings == ("loan",)
    with pytest.raises(InputError) as caught:
        read(made, sheet="Loan")
    assert '"Hearts", "Loans"' in caught.value.message and caught.value.hint == 'Did you mean "Loans"?'


def test_an_empty_sheet_is_an_error() -> None:
    with pytest.raises(InputError, match="empty"):
        read(openpyxl.Workbook())


def test_a_workbook_is_known_by_its_bytes_whatever_its_name() -> None:
    assert read_table("hearts.csv", data=saved(book([["no"], ["1"]])))[0].sheet == "Hearts"


# --- traps -----------------------------------------------------------------------------------------------------

PLAIN = saved(book([["no", "a"], ["0012", "x"]]))
BOMB = b"<worksheet>" + b"<!-- " + b" " * 60_000_000 + b"-->" + b"</worksheet>"


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"PK\x03\x04 and then nothing", "not a workbook"),
        (b"\xd0\xcf\x11\xe0 an old file", "password"),
        (PLAIN[: len(PLAIN) // 2], "not a workbook"),
        (repacked(PLAIN, "xl/worksheets/sheet1.xml", lambda old: old[:-40]), "cannot be read"),
        (repacked(PLAIN, "xl/workbook.xml", lambda old: b"<oops"), "not a workbook"),
        (repacked(PLAIN, "../../evil.xml", lambda old: b"<a/>"), "leads out"),
        (repacked(PLAIN, "/evil.xml", lambda old: b"<a/>"), "leads out"),
        (repacked(PLAIN, "xl/worksheets/sheet2.xml", lambda old: BOMB), "200 times"),
    ],
)
def test_files_that_are_no_workbook_or_a_trap_are_refused(data: bytes, words: str) -> None:
    with pytest.raises(InputError, match=words):
        read_table("hearts.xlsx", data=data)


@pytest.mark.parametrize("part", ["xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "xl/workbook.xml"])
@pytest.mark.parametrize("codec", ["utf-8", "utf-16"])
def test_entities_that_multiply_are_refused_before_anything_is_parsed(part: str, codec: str) -> None:
    entities = "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10 if n else "ha"}">' for n in range(10))

    def change(old: bytes) -> bytes:
        text = old.decode()
        head, _, body = text.rpartition("?>") if "?>" in text else ("", "", text)
        declared = f'<?xml version="1.0" encoding="{codec}"?>' if head or codec != "utf-8" else ""
        return (declared + f"<!DOCTYPE x [{entities}]>" + body).encode(codec)

    with pytest.raises(InputError, match="entities"):
        read_table("hearts.xlsx", data=repacked(PLAIN, part, change))


def test_a_workbook_that_unpacks_to_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("chordae.intake.package.MAX_UNPACKED", 2000)
    with pytest.raises(InputError, match="unpack"):
        read_table("hearts.xlsx", data=PLAIN)


def test_a_cell_far_out_does_not_cost_a_million_columns() -> None:
    made = book([["no", "a"], ["0012", "x"]])
    made["Hearts"]["XFD1048576"] = "far"
    table, issues = read(made)
    assert [row.cells for row in table.rows] == [("0012", "x")]
    assert table.refused == 1 and ("I-TAB-01", 1048576, None) in rules(issues)


def test_a_style_that_is_not_there_is_not_printed_among_the_data(capsys: pytest.CaptureFixture[str]) -> None:
    """openpyxl prints about it to standard output, where the records go."""
    data = repacked(PLAIN, "xl/styles.xml", lambda old: old.replace(b'cellStyleXfs count="1"><xf', b"cellStyleXfs><yf"))
    with pytest.raises(InputError, match="IndexError"):
        read_table("hearts.xlsx", data=data)
    assert capsys.readouterr().out == ""
