"""Tables as text: encodings, delimiters, quotes, headings, ragged rows; nothing is turned into a number or dropped."""

from __future__ import annotations

import csv
import io
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae.errors import FormatError, InputError
from chordae.files import MAX_CELL
from chordae.intake.table import read_table
from chordae.issues import Location


def rows(data: bytes | str, name: str = "hearts.csv", **options: str) -> list[tuple[str, ...]]:
    table, _ = read_table(name, data=data.encode() if isinstance(data, str) else data, **options)
    return [table.headings, *(row.cells for row in table.rows)]


def found(data: bytes | str, name: str = "hearts.csv") -> list[tuple[str, str, int | None, int | None]]:
    _, issues = read_table(name, data=data.encode() if isinstance(data, str) else data)
    return [(one.rule, one.severity, one.location.line, one.location.column) for one in issues]


def test_every_cell_is_text() -> None:
    assert rows("no,weight,date,x\n0012,1.50,1-2,NA\n0013,,TRUE,1e3\n") == [
        ("no", "weight", "date", "x"),
        ("0012", "1.50", "1-2", "NA"),
        ("0013", "", "TRUE", "1e3"),
    ]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_the_delimiter_is_found(delimiter: str) -> None:
    lines = [["Cat. no.", "Weight", "Notes"], ["0012", "12,5", "small; blue, opened"], ["0013", "3,5", "x"]]
    text = io.StringIO()
    csv.writer(text, delimiter=delimiter).writerows(lines)
    assert rows(text.getvalue()) == [tuple(line) for line in lines]


def test_a_decimal_comma_does_not_pass_for_a_delimiter() -> None:
    assert rows("a;b\n1,5;2,5\n3,5;4,5\n") == [("a", "b"), ("1,5", "2,5"), ("3,5", "4,5")]


@pytest.mark.parametrize("codec", ["utf-8", "utf-8-sig", "utf-16", "utf-32"])
def test_unicode_with_and_without_a_mark(codec: str) -> None:
    text = "Präparat\tcœur\n0012\tβ\n"
    assert rows(text.encode(codec), "a.tsv") == [("Präparat", "cœur"), ("0012", "β")]
    assert found(text.encode(codec), "a.tsv") == []


def test_windows_1252_is_read_with_a_warning_that_names_the_line() -> None:
    data = "Präparat,b\n1,2\n".encode("cp1252")
    assert rows(data) == [("Präparat", "b"), ("1", "2")]
    assert found(data) == [("I-FIL-03", "warning", 1, None)]
    assert rows(data, encoding="cp1252") == [("Präparat", "b"), ("1", "2")]


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "empty"),
        (b"\xef\xbb\xbf \n", "empty"),
        (b"a,b\n1,\x81\xff\n", "not Windows-1252"),
        ("a,b\n1,2\n".encode("utf-16-le"), "zero bytes"),
        (b"a,b\n1,\x00\n", "zero bytes"),
    ],
)
def test_what_is_no_text_is_an_error(data: bytes, words: str) -> None:
    with pytest.raises(InputError, match=words):
        read_table("hearts.csv", data=data)


def test_options_that_do_not_exist() -> None:
    with pytest.raises(FormatError):
        read_table("a.csv", data=b"a,b\n", delimiter="|")
    with pytest.raises(FormatError):
        read_table("a.csv", data=b"a,b\n", sheet="Hearts")
    with pytest.raises(InputError, match="no file"):
        read_table("no such file.csv")


def test_a_long_row_is_refused_and_a_short_one_filled() -> None:
    data = "a,b,c\n1,2,3\n4,5,6,7\n8\n9,,,\n"
    table, issues = read_table("a.csv", data=data.encode())
    assert [row.cells for row in table.rows] == [("1", "2", "3"), ("8", "", ""), ("9", "", "")]
    assert table.refused == 1
    assert [(one.rule, one.severity, one.location.line) for one in issues] == [
        ("I-TAB-01", "violation", 3),
        ("I-TAB-01", "warning", 4),
    ]


def test_headings_given_twice_or_missing_get_names_of_their_own() -> None:
    assert rows("a,a,,,A  b\n1,2,3,,5\n")[0] == ("a", "a (2)", "column 3", "A b")
    assert found("a,a,,,A  b\n1,2,3,,5\n") == [("I-TAB-02", "warning", 1, 2), ("I-TAB-03", "warning", 1, 3)]
    table, _ = read_table("a.csv", data=b"a,a,,,A  b\n1,2,3,,5\n")
    assert table.place(2, 3) == Location("a.csv", 2, 5)


def test_cells_of_several_lines_keep_the_count_of_lines() -> None:
    table, issues = read_table("a.csv", data=b'a,b\r\n1,"x\r\ny"\r\n\r\n2,z\r\n')
    assert [(row.line, row.cells) for row in table.rows] == [(2, ("1", "x\r\ny")), (5, ("2", "z"))]
    assert [(one.rule, one.location.line) for one in issues] == [("I-TAB-07", 4)]


def test_a_quotation_mark_never_closed_is_noticed() -> None:
    assert ("I-TAB-09", "violation", 2, 2) in found('a,b,c\n1,"2,3\n4,5,6\n7,8,9\n')
    assert found('a,b\n1,"a remark, of\ntwo lines, no more"\n') == []
    assert found('a,b,c,d\n1,"a remark, of\ntwo lines, no more",2,3\n') == []


def test_a_million_characters_in_a_cell() -> None:
    table, issues = read_table("a.csv", data=b"a,b\n1," + b"x" * 1_000_000 + b"\n")
    assert len(table.rows[0].cells[1]) == MAX_CELL
    assert [(one.rule, one.location.column) for one in issues] == [("I-TAB-04", 2)]
    assert "1000000" in issues[0].message and len(issues[0].message) < 300


def test_control_characters_are_taken_out_and_named() -> None:
    table, issues = read_table("a.csv", data=b"a,b\n1,x\x07y\n")
    assert table.rows[0].cells == ("1", "xy")
    assert [one.rule for one in issues] == ["I-TAB-05"] and "U+0007" in issues[0].message


def test_a_title_above_the_headings_is_passed_over() -> None:
    data = "Hearts of the invented collection,,\n,,\nno,a,b\n1,2,3\n"
    assert rows(data) == [("no", "a", "b"), ("1", "2", "3")]
    assert found(data) == [("I-TAB-10", "info", 1, None)]


def test_a_heading_without_rows_is_a_violation() -> None:
    assert found("a,b\n") == [("I-TAB-08", "violation", 1, None)]


def test_too_many_columns() -> None:
    with pytest.raises(InputError, match="1000"):
        read_table("a.csv", data=b",".join(b"c%d" % n for n in range(1001)) + b"\n1\n")


CELL = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), max_size=12)


@given(st.integers(2, 5), st.data())
def test_what_a_spreadsheet_writes_is_read_back(width: int, data: st.DataObject) -> None:
    """Written by the standard library's csv module, read by ours: the same cells, none lost."""
    body = data.draw(st.lists(st.lists(CELL, min_size=width, max_size=width), min_size=1, max_size=6))
    body = [line for line in body if any(line)]
    text = io.StringIO()
    csv.writer(text).writerows([[f"h{n}" for n in range(width)], *body])
    table, _ = read_table("a.csv", data=text.getvalue().encode(), delimiter=",")
    assert [list(row.cells) for row in table.rows] == body


def test_rows_in_are_rows_out_and_refused() -> None:
    generator = random.Random(7)
    for _ in range(200):
        lines = [["x"] * generator.randint(1, 6) for _ in range(generator.randint(1, 9))]
        text = "a,b,c,d\n" + "\n".join(",".join(line) for line in lines) + "\n"
        table, issues = read_table("a.csv", data=text.encode(), delimiter=",")
        assert len(table.rows) + table.refused == len(lines)
        assert sum(1 for one in issues if one.severity == "violation") == table.refused
