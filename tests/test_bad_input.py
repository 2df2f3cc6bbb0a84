"""Input that is broken, or made to do harm: a clear sentence and exit code 1 or 2, no traceback, nothing lost."""

from __future__ import annotations

import datetime
import io
import json
import os
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from chordae import cli
from chordae.errors import ChordaeError, InputError
from chordae.files import MAX_CELL, folder_aside, inside, open_aside, write_aside
from chordae.intake.build import build
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.document import read_document
from chordae.intake.table import read_table

COLUMNS = (
    "column\tpart\tproperty\tkind\nno\tspecimen\taccession\tidentifier\n"
    "leaflets\ttricuspid_valve\tleaflet_count\tnumber\nnotes\t\t\tremark\n"
)


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, list[Any], list[Any], str]]:
    """Write a file, read it by the command line; exit code, records, issues, and what was said on stderr."""
    (tmp_path / "columns.tsv").write_text(COLUMNS, encoding="utf-8")

    def read(name: str, data: bytes, *words: str) -> tuple[int, list[Any], list[Any], str]:
        (tmp_path / name).write_bytes(data)
        report = tmp_path / "report.json"
        report.unlink(missing_ok=True)
        crosswalk = ["--crosswalk", str(tmp_path)] if name.endswith(("csv", "xlsx")) else []
        out = ["--to", "json", "--report", "json", "--report-to", str(report)]
        code = cli.main(["read", str(tmp_path / name), *crosswalk, *out, *words])
        shown = capsys.readouterr()
        assert "Traceback" not in shown.err and "Internal error" not in shown.err
        issues = json.loads(report.read_text(encoding="utf-8")) if report.exists() else []
        return code, json.loads(shown.out) if shown.out else [], issues, shown.err

    return read


Run = Callable[..., tuple[int, list[Any], list[Any], str]]


def workbook(*lines: list[Any]) -> bytes:
    made = openpyxl.Workbook()
    for line in lines:
        made.active.append(line)
    stream = io.BytesIO()
    made.save(stream)
    return stream.getvalue()


WORKBOOK = workbook(
    ["no", "leaflets", "notes"], ["0012", 3, "x"], ["0013", 2.5, datetime.date(1998, 3, 7)], [14, "=A1", True]
)


def places(issues: list[Any]) -> list[tuple[str, int, int | None]]:
    found = [(one["rule"], one["location"]["line"], one["location"]["column"]) for one in issues]
    return [one for one in found if one[0] != "I-XW-09"]  # columns of the crosswalk that a small table lacks


@pytest.mark.parametrize("name", ["a.csv", "a.yaml", "a.json", "a.ndjson", "a.xlsx"])
@pytest.mark.parametrize("data", [b"", b" \n\n"])
def test_an_empty_file(run: Run, name: str, data: bytes) -> None:
    code, records, issues, said = run(name, data)
    assert (code, records, issues) == (2, [], [])
    assert name in said and ("empty" in said or "not a workbook" in said)


@pytest.mark.parametrize("name", ["a.csv", "a.yaml", "a.json"])
def test_the_wrong_encoding(run: Run, name: str) -> None:
    code, _, _, said = run(name, b"no,leaflets\n1,\x81\xff\n")
    assert code == 2 and "not UTF-8" in said and "byte 15 (line 2)" in said and "--encoding" in said


def test_a_broken_line_of_ndjson_costs_that_line_only(run: Run) -> None:
    code, records, issues, _ = run("a.ndjson", b'{"id":"a"}\n{"id":"\xff"}\n{"id":\n{"id":"d"}\n')
    assert code == 1 and [one["id"] for one in records] == ["a", "d"]
    assert places(issues) == [("I-DOC-01", 2, 1), ("I-DOC-01", 3, 7)]


def test_a_sheet_that_is_missing(run: Run) -> None:
    code, _, _, said = run("a.xlsx", workbook(["no"], ["0012"]), "--sheet", "Hearts")
    assert code == 2 and 'no sheet "Hearts"' in said and '"Sheet"' in said


def test_ids_given_twice(run: Run) -> None:
    code, records, issues, _ = run("a.csv", b"no,leaflets\n0012,3\n0012,2\n0013,3\n")
    assert code == 1 and [one["id"] for one in records] == ["0012", "0013"]
    assert places(issues) == [("I-REC-01", 3, 1)] and "line 2" in issues[-1]["message"]
    code, records, issues, _ = run("a.yaml", b"- id: a\n- id: b\n- id: a\n")
    assert code == 1 and len(records) == 2 and places(issues) == [("I-REC-01", 3, 3)]


def test_ragged_rows(run: Run) -> None:
    code, records, issues, _ = run("a.csv", b"no,leaflets,notes\n1,3,x\n2,3,x,y\n3\n")
    assert code == 1 and [one["id"] for one in records] == ["1", "3"]
    assert places(issues) == [("I-TAB-01", 3, None), ("I-TAB-01", 4, None)]
    assert [one["severity"] for one in issues] == ["violation", "warning"]


def test_a_formula(run: Run) -> None:
    code, records, issues, _ = run("a.xlsx", workbook(["no", "leaflets", "notes"], ["0012", "=1+2", "=A2"]))
    assert code == 1
    assert records[0]["remarks"] == [{"text": "=A2", "place": "notes"}] and "parts" not in records[0]
    assert ("I-BOOK-01", 2, 2) in places(issues) and ("I-CEL-06", 2, 2) in places(issues)


def test_a_million_characters_in_one_cell(run: Run) -> None:
    long = b"x" * 1_000_000
    code, records, issues, _ = run("a.csv", b"no,notes\n1," + long + b"\n")
    assert code == 1 and len(records[0]["remarks"][0]["text"]) == MAX_CELL
    assert places(issues) == [("I-TAB-04", 2, 2)]
    code, records, issues, _ = run("a.json", b'{"id":"a","remarks":[{"text":"' + long + b'"}]}')
    assert code == 1 and len(records[0]["remarks"][0]["text"]) == MAX_CELL
    assert ("I-DOC-10", 1, 30) in places(issues)


def test_an_unknown_key(run: Run) -> None:
    code, records, issues, _ = run("a.yaml", b"- id: a\n  specimen:\n    acession: '0012'\n")
    assert code == 1 and len(records) == 1
    assert [(one["rule"], one["path"], one["location"]["line"]) for one in issues] == [
        ("S-KEY", "/specimen/acession", 3)
    ]
    assert "accession" in issues[0]["message"]


def test_aliases_that_multiply(run: Run) -> None:
    """Ten lists, each of ten aliases of the one before: ten thousand million texts if they were followed."""
    levels = ["x0: &x0 [ha, ha, ha, ha, ha, ha, ha, ha, ha, ha]"]
    levels += [f"x{n}: &x{n} [{', '.join([f'*x{n - 1}'] * 10)}]" for n in range(1, 10)]
    code, records, issues, _ = run("a.yaml", ("id: a\n" + "\n".join(levels) + "\n").encode())
    assert code == 1 and records == []
    assert {one["rule"] for one in issues} == {"I-DOC-02"} and issues[0]["record"] == "a"


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.yaml", "id: a\nx: " + "[" * 3000 + "]" * 3000),
        ("a.yaml", "id: a\nx: " + "{a: " * 500 + "}" * 500),
        ("a.json", '{"id":"a","x":' + "[" * 100_000 + "]" * 100_000 + "}"),
        ("a.json", '{"id":"a","x":' + '{"a":' * 500 + "1" + "}" * 500 + "}"),
        ("a.ndjson", '{"id":"a","x":' + "[" * 100_000 + "]" * 100_000 + "}"),
        ("a.yaml", "id: a\n" + "- " * 3000),
    ],
)
def test_nesting_without_end(run: Run, name: str, text: str) -> None:
    code, records, issues, _ = run(name, text.encode())
    assert code == 1 and records == []
    assert {one["rule"] for one in issues} <= {"I-DOC-04", "I-DOC-01"} and issues


def test_a_workbook_that_is_a_zip_bomb(run: Run) -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr("[Content_Types].xml", "<Types/>")
        package.writestr("xl/worksheets/sheet1.xml", b"<row/>" * 20_000_000)
    assert len(stream.getvalue()) < 1_000_000
    code, _, _, said = run("a.xlsx", stream.getvalue())
    assert code == 2 and "zip bomb" in said


@pytest.mark.parametrize("path", ["../secret", "/etc/passwd", "a/../../secret", "a\\b", "x\0y", "link/secret", ".."])
def test_a_path_that_leads_out_of_its_folder(tmp_path: Path, path: str) -> None:
    folder = tmp_path / "deposit"
    folder.mkdir()
    (folder / "link").symlink_to(tmp_path)
    if path == "..":
        path = "../deposit2"
    with pytest.raises(InputError, match="out of the folder"):
        inside(folder, path)
    assert inside(folder, "data/records.ndjson") == folder.resolve() / "data" / "records.ndjson"


PIECES = st.sampled_from(
    [
        *(b"id: ", b"- ", b"\n", b"  ", b"&a ", b"*a", b"!!t ", b"[", b"]", b"{", b"}", b"? ", b": ", b"---\n", b"|"),
        *(b">", b'"', b"'", b"#", b"%YAML 1.1\n", b"\\u", b"\\ud800", b",", b";", b"\t", b"\xff", b"\x00", b"<<"),
        *(b"\xef\xbb\xbf", b"\xff\xfe", b"\x85", b"\xe2\x80\xa8", b"\r", b"1e999", b"0012", b"no", b'{"id":"a"}'),
        *(b"column\tkind\n", b"x\tvalue\n"),
    ]
)
SOUP = st.lists(PIECES | st.binary(max_size=4), max_size=40).map(b"".join)


@given(SOUP, st.sampled_from(["a.yaml", "a.json", "a.ndjson", "-"]))
def test_any_bytes_are_a_document_or_a_sentence(data: bytes, name: str) -> None:
    """Whatever the bytes, there is no exception but our own, and every issue can be written as JSON."""
    try:
        readings, issues = read_document(name, data=data)
    except ChordaeError as error:
        assert error.message
        return
    for reading in readings:
        json.dumps([reading.record, len(reading.places)]).encode()
    for one in issues:
        json.dumps(one.to_json(), ensure_ascii=False).encode()


@given(SOUP, SOUP, SOUP)
def test_any_bytes_are_a_table_and_a_crosswalk_or_a_sentence(table: bytes, columns: bytes, values: bytes) -> None:
    head = b"column\tpart\tproperty\tkind\nid\tspecimen\taccession\tidentifier\n"
    words = b"column\tlocal\tvalue\tstate\tmatch\n"
    try:
        found, issues = read_table("a.csv", data=b"id,x\n" + table)
        crosswalk, more = read_crosswalk("c.tsv", "v.tsv", data=(head + columns, words + values))
        built = build(found, crosswalk)
    except ChordaeError as error:
        assert error.message
        return
    assert built.rows == len(built.readings) + built.refused
    for one in [*issues, *more, *built.issues]:
        json.dumps(one.to_json(), ensure_ascii=False).encode()


@given(st.integers(0, 5000), st.binary(min_size=1, max_size=8))
def test_a_damaged_workbook_is_a_table_or_a_sentence(at: int, junk: bytes) -> None:
    data = WORKBOOK[: at % len(WORKBOOK)] + junk + WORKBOOK[at % len(WORKBOOK) + len(junk) :]
    try:
        table, _ = read_table("a.xlsx", data=data)
    except ChordaeError as error:
        assert error.message
    else:
        assert table.headings


@given(
    st.sampled_from(["xl/worksheets/sheet1.xml", "xl/workbook.xml", "xl/sharedStrings.xml", "xl/styles.xml"]), st.data()
)
def test_a_workbook_with_a_damaged_part_is_a_table_or_a_sentence(part: str, draw: st.DataObject) -> None:
    """As above, but inside the zip, where the XML itself is wrong."""
    stream = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(WORKBOOK)) as old, zipfile.ZipFile(stream, "w") as new:
        for one in old.infolist():
            content = old.read(one.filename)
            if one.filename == part:
                at = draw.draw(st.integers(0, len(content)))
                junk = draw.draw(
                    st.sampled_from([b"", b"<", b'"', b"9", b"-1", b"</row>", b' t="s"', b"99999999999", b"A"])
                )
                content = content[:at] + junk + content[at + draw.draw(st.integers(0, 12)) :]
            new.writestr(one.filename, content)
    try:
        read_table("a.xlsx", data=stream.getvalue())
    except ChordaeError as error:
        assert error.message


def test_folders_and_files_that_may_not_be_read(run: Run, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "folder.yaml").mkdir()
    assert cli.main(["read", str(tmp_path / "folder.yaml")]) == 2
    assert "folder" in capsys.readouterr().err
    assert cli.main(["read", "a\0b.yaml"]) == 2
    assert cli.main(["read", str(tmp_path / ("n" * 300 + ".yaml"))]) == 2
    assert cli.main(["read", str(tmp_path / "x.csv"), "--crosswalk", str(tmp_path / "none")]) == 2
    assert "--suggest-crosswalk" in capsys.readouterr().err


def test_a_file_is_written_whole_or_not_at_all(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    write_aside(path, "first\n")
    with pytest.raises(ZeroDivisionError), open_aside(path) as stream:
        stream.write(b"second, but ")
        raise ZeroDivisionError
    assert path.read_bytes() == b"first\n" and [one.name for one in tmp_path.iterdir()] == ["a.txt"]
    with pytest.raises(InputError):
        write_aside(tmp_path / "none" / "a.txt", "x")


def test_what_is_no_file_is_never_replaced_by_one(tmp_path: Path) -> None:
    folder, target, link, loop = (tmp_path / name for name in ("folder", "target", "link", "loop"))
    folder.mkdir()
    with pytest.raises(InputError, match="is a folder"):
        write_aside(folder, "x")
    link.symlink_to(target)
    write_aside(link, "x")
    assert link.is_symlink() and target.read_text(encoding="utf-8") == "x"
    loop.symlink_to(loop)
    for refused in (loop, tmp_path / "a\0b", tmp_path / ("n" * 300)):
        with pytest.raises(InputError, match="cannot be written"):
            write_aside(refused, "x")
    assert sorted(one.name for one in tmp_path.iterdir()) == ["folder", "link", "loop", "target"]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no pipes with a name")
def test_a_pipe_is_written_to_and_stays_a_pipe(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reading = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    write_aside(pipe, "x")
    assert os.read(reading, 9) == b"x" and pipe.is_fifo() and [one.name for one in tmp_path.iterdir()] == ["pipe"]
    os.close(reading)


def test_a_folder_is_written_whole_or_not_at_all(tmp_path: Path) -> None:
    path = tmp_path / "out"
    with folder_aside(path) as folder:
        (folder / "a").write_text("1", encoding="utf-8")
    with pytest.raises(InputError, match="not empty"), folder_aside(path):
        raise AssertionError("never reached")
    with pytest.raises(ZeroDivisionError), folder_aside(path, replace=True) as folder:
        (folder / "b").write_text("2", encoding="utf-8")
        raise ZeroDivisionError
    assert [one.name for one in path.iterdir()] == ["a"]
    with folder_aside(path, replace=True) as folder:
        (folder / "b").write_text("2", encoding="utf-8")
    assert [one.name for one in path.iterdir()] == ["b"] and [one.name for one in tmp_path.iterdir()] == ["out"]
