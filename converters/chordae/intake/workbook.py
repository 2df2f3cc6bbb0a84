"""From a workbook (XLSX) to the table on one of its sheets; every cell becomes text.

::

    cell                                     text            issue
    text "0012", number 12 shown as 0012     0012
    number 12, 12.5; 0.3 shown as 30%        12, 12.5, 30%
    date                                     1998-03-12      I-BOOK-06, one a column
    formula                                  =A1+1           I-BOOK-01
    #N/A, #REF! ...                          (empty)         I-BOOK-02
    merged heading over two rows             Group / Column

The bytes are looked at first (:mod:`chordae.intake.package`).
"""

from __future__ import annotations

import datetime
import io
import re
import warnings
import zipfile
from array import array
from collections.abc import Collection, Iterator
from contextlib import redirect_stdout
from difflib import get_close_matches
from typing import IO, Any

from chordae.errors import InputError
from chordae.intake.grid import Merges, NoCells, RawRow, Table, make_table
from chordae.intake.hidden import about_hidden, about_merges, about_sheets
from chordae.intake.package import SheetLook, look_at_sheet, open_package, sheet_files
from chordae.issues import Issue, Location, issue

__all__ = ["number_as_shown", "read_sheets", "read_workbook"]

_MOST_CELLS = 20_000_000
_FORMAT = re.compile(r"(0+)(?:\.(0+))?(%?)")


def read_workbook(stream: IO[bytes], name: str, *, sheet: str | None = None) -> tuple[Table, list[Issue]]:
    """Read one sheet of a workbook.

    Parameters
    ----------
    stream
        The file; it is read from its beginning, more than once.
    name
        Its name, for places and messages.
    sheet
        Name of the sheet; by default the first that is shown.

    Raises
    ------
    InputError
        It is no workbook that may be read, or there is no such sheet, or the sheet is empty.
    """
    with open_package(stream, name) as package:
        parts = sheet_files(package, name)
        book = _open(stream, name)
        try:
            shown = [one.title for one in book.worksheets if one.sheet_state == "visible"]
            hidden = [one.title for one in book.worksheets if one.sheet_state != "visible"]
            chosen = _choose(sheet, shown, hidden, name)
            issues = about_sheets(name, chosen, shown, hidden, sheet)
            table, more = _read_sheet(book, package, parts.get(chosen, ""), chosen, name)
        finally:
            book.close()
    return table, issues + more


def read_sheets(data: bytes, name: str, wanted: Collection[str]) -> tuple[dict[str, Table], list[str], list[Issue]]:
    """Read all sheets of a workbook whose titles are wanted.

    Parameters
    ----------
    data, name
        The whole file, and its name.
    wanted
        Titles of sheets.

    Returns
    -------
    dict of Table, list of str, list of Issue
        The tables by title, without sheets that hold no cell; titles of the sheets that were not read; the issues.

    Raises
    ------
    InputError
        It is no workbook that may be read.
    """
    tables: dict[str, Table] = {}
    issues: list[Issue] = []
    stream = io.BytesIO(data)
    with open_package(stream, name) as package:
        parts = sheet_files(package, name)
        book = _open(stream, name)
        try:
            titles = [one.title for one in book.worksheets]
            for title in (one for one in titles if one in wanted):
                try:
                    tables[title], more = _read_sheet(book, package, parts.get(title, ""), title, name)
                except NoCells:
                    continue
                issues += more
        finally:
            book.close()
    return tables, [one for one in titles if one not in wanted], issues


def _read_sheet(book: Any, package: zipfile.ZipFile, part: str, title: str, name: str) -> tuple[Table, list[Issue]]:
    look = look_at_sheet(package, part, name)
    cells = _Cells(name, title)
    merged = _Merged(look)
    table, issues = make_table(name, merged.noted(cells.rows(book[title])), sheet=title, merges=merged.headings)
    return table, issues + about_merges(table, look) + about_hidden(table, look) + cells.issues(table)


def number_as_shown(value: float, number_format: str) -> str:
    """Return a number as its cell shows it, if no digit is lost by that; else all its digits.

    Examples
    --------
    >>> number_as_shown(12, "0000"), number_as_shown(12.0, "General"), number_as_shown(0.3, "0%")
    ('0012', '12', '30%')
    >>> number_as_shown(1.25, "0.0")
    '1.25'
    """
    short = isinstance(value, int) or (value.is_integer() and abs(value) < 1e15)
    full = str(int(value)) if short else format(value, ".15g")
    found = _FORMAT.fullmatch(number_format or "")
    if found is None or value < 0:
        return full
    places = len(found[2] or "")
    scaled = float(format(value * 100, ".15g")) if found[3] else value
    text = format(scaled, f".{places}f")
    if float(text) != scaled:
        return full
    whole, dot, rest = text.partition(".")
    return f"{whole.zfill(len(found[1]))}{dot}{rest}{found[3]}"


class _Cells:
    """Turns cells into text, and notes what was met by the way."""

    def __init__(self, file: str, sheet: str) -> None:
        self._file = file
        self._sheet = sheet
        self._met: list[tuple[str, int, int, str]] = []
        self._dates: dict[int, array[int]] = {}

    def rows(self, sheet: Any) -> Iterator[RawRow]:
        sheet.reset_dimensions()
        count = 0
        try:
            for number, row in enumerate(sheet.iter_rows(), 1):
                count += len(row)
                if count > _MOST_CELLS:
                    raise InputError(f"The sheet {self._sheet} of {self._file} has too many cells.")
                texts = [self._text(cell, number, index) for index, cell in enumerate(row)]
                dates = frozenset(index for index, cell in enumerate(row) if cell.data_type == "d")
                if any(texts):
                    yield RawRow(number, texts, dates)
                elif texts:
                    yield RawRow(number, [])
        except InputError:
            raise
        except Exception as error:  # openpyxl raises whatever a damaged sheet leads it to
            raise _damaged(self._file, error) from None

    def issues(self, table: Table) -> list[Issue]:
        """Return an issue for each formula and error, and one for each column with date cells."""
        under = dict(zip(table.numbers, table.headings, strict=True))
        found: list[Issue] = []
        for rule, line, index, text in self._met:
            place = Location(self._file, line, index + 1, self._sheet)
            found.append(issue(rule, location=place, value=text, heading=under.get(index + 1, "")))
        for index, lines in self._dates.items():
            below = [line for line in lines if line > table.heading_line]
            if below and index + 1 in under:
                place = Location(self._file, below[0], index + 1, self._sheet)
                heading = under[index + 1]
                found.append(issue("I-BOOK-06", location=place, heading=heading, count=len(below)))
        return found

    def _text(self, cell: Any, line: int, index: int) -> str:
        value = cell.value
        if value is None:
            return ""
        kind = cell.data_type
        if kind == "f":
            text = str(getattr(value, "text", value))
            self._met.append(("I-BOOK-01", line, index, text))
            return text
        if kind == "e":
            self._met.append(("I-BOOK-02", line, index, str(value)))
            return ""
        if isinstance(value, datetime.datetime | datetime.date | datetime.time):
            self._dates.setdefault(index, array("L")).append(line)
            return _date_text(value)
        if isinstance(value, bool):
            return str(value).upper()
        if isinstance(value, int | float):
            return number_as_shown(value, cell.number_format)
        return str(value)


def _open(stream: IO[bytes], name: str) -> Any:
    import openpyxl

    try:
        # openpyxl warns, and prints to standard output, about styles that we do not use
        with warnings.catch_warnings(), redirect_stdout(io.StringIO()):
            warnings.simplefilter("ignore")
            return openpyxl.load_workbook(stream, read_only=True, data_only=False, keep_links=False)
    except Exception as error:  # openpyxl raises whatever a damaged workbook leads it to
        raise _damaged(name, error) from None


def _damaged(name: str, error: Exception) -> InputError:
    return InputError(
        f"{name} is not a workbook that can be read ({type(error).__name__}).",
        "Save it again as .xlsx, or as CSV.",
    )


def _choose(sheet: str | None, shown: list[str], hidden: list[str], name: str) -> str:
    names = shown + hidden
    if sheet is None:
        if not shown:
            raise InputError(f"{name} shows no sheet with cells.", "Show the sheet, or name it with --sheet.")
        return shown[0]
    if sheet in names:
        return sheet
    near = get_close_matches(sheet, names, 1, 0.5)
    hint = f'Did you mean "{near[0]}"?' if near else ""
    listed = ", ".join(f'"{one}"' for one in names)
    raise InputError(f'{name} has no sheet "{sheet}"; it has {listed or "none"}.', hint)


class _Merged:
    """Notes the text of merged cells while the rows pass; a heading may be spread over some of them."""

    def __init__(self, look: SheetLook) -> None:
        self._merged = look.merged
        self._firsts: dict[int, list[int]] = {}
        for top, left, _, _ in look.merged:
            self._firsts.setdefault(top, []).append(left)
        self._texts: dict[tuple[int, int], str] = {}

    def noted(self, rows: Iterator[RawRow]) -> Iterator[RawRow]:
        """Yield the rows."""
        for row in rows:
            for left in self._firsts.get(row.line, ()):
                if left - 1 < len(row.cells):
                    self._texts[row.line, left] = row.cells[left - 1]
            yield row

    def headings(self) -> Merges:
        """Return the headings that merged cells spread, and the lines whose headings go on below."""
        groups: dict[int, dict[int, str]] = {}
        joined: set[int] = set()
        for top, left, bottom, right in self._merged:
            text = self._texts.get((top, left), "")
            if not text:
                continue
            if right > left and bottom == top:
                joined.add(top)
            for line in range(top, min(bottom, top + 5) + 1):
                groups.setdefault(line, {}).update({index - 1: text for index in range(left, right + 1)})
        return groups, frozenset(joined)


def _date_text(value: datetime.datetime | datetime.date | datetime.time) -> str:
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        return value.date().isoformat()
    return value.isoformat()
