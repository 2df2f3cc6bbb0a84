"""From a table in a file (CSV, TSV, or a workbook) to a heading and rows of text cells.

::

    hearts.csv, hearts.tsv    delimiter , ; or tab, found from the first lines; quotes as in RFC 4180
    hearts.xlsx               one sheet, see :mod:`chordae.intake.workbook`

Every cell is text: 0012 stays 0012. Encodings: :mod:`chordae.intake.encoding`. Rows:
:mod:`chordae.intake.grid`.
"""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Iterable, Iterator
from itertools import islice
from pathlib import Path
from typing import IO, Any

from chordae.errors import FormatError, InputError
from chordae.files import MAX_INPUT, STDIN, open_input
from chordae.intake.grid import RawRow, Table, make_table
from chordae.intake.text_file import TextFile, open_text
from chordae.issues import Issue, Location, issue

__all__ = ["DELIMITERS", "is_table", "read_table"]

DELIMITERS = (",", ";", "\t")
_WORKBOOKS = frozenset({".xlsx", ".xlsm"})
_TEXTS = frozenset({".csv", ".tsv", ".tab", ".txt"})
_LOOKED_AT = 30
_HEAD = 200_000


def is_table(source: str | os.PathLike[str]) -> bool:
    """Say whether the name of a file is that of a table."""
    return Path(source).suffix.lower() in _WORKBOOKS | _TEXTS


def read_table(
    source: str | os.PathLike[str],
    *,
    data: bytes | None = None,
    path: str | os.PathLike[str] | None = None,
    sheet: str | None = None,
    encoding: str | None = None,
    delimiter: str | None = None,
) -> tuple[Table, list[Issue]]:
    """Read one table; of a long one only a few rows are in memory at any time.

    Parameters
    ----------
    source
        A path, or ``-`` for standard input; with ``data`` or ``path`` only its name.
    data
        The bytes, if they were read already.
    path
        Where the file stands, if it has another name in places and issues.
    sheet
        Name of the sheet of a workbook; by default the first one shown.
    encoding
        Name of the text encoding; by default UTF-8, then Windows-1252 with a warning.
    delimiter
        One of ``DELIMITERS``; by default found from the first lines.

    Returns
    -------
    tuple
        The table, and the issues. Rows of the file that hold anything = ``len(table.rows) + table.refused``.

    Raises
    ------
    InputError
        The file is missing, empty, too long, not text in the encoding, or no workbook; or there is no such
        sheet.
    FormatError
        An option is not one that is offered.
    """
    name = "standard input" if os.fspath(source) == STDIN else os.fspath(source)
    if data is not None:
        return _read(io.BytesIO(data), name, sheet, encoding, delimiter)
    with open_input(source if path is None else path) as stream:
        return _read(stream, name, sheet, encoding, delimiter)


def _read(
    stream: IO[bytes], name: str, sheet: str | None, encoding: str | None, delimiter: str | None
) -> tuple[Table, list[Issue]]:
    if stream.read(4) in (b"PK\x03\x04", b"\xd0\xcf\x11\xe0") or Path(name).suffix.lower() in _WORKBOOKS:
        from chordae.intake.workbook import read_workbook

        for option, given in (("encoding", encoding), ("delimiter", delimiter)):
            if given is not None:
                raise FormatError(
                    f"{name} is a workbook; --{option} is for tables that are text.",
                    f"Leave it out (also in collection.yaml): a workbook needs no {option}.",
                )
        return read_workbook(stream, name, sheet=sheet)
    if sheet is not None:
        raise FormatError(f"{name} has no sheets; --sheet is for workbooks.")
    if delimiter is not None and delimiter not in DELIMITERS:
        raise FormatError(f"{delimiter!r} is not a delimiter that is offered.", "Use a comma, a semicolon or a tab.")
    text, issues = open_text(stream, name, encoding=encoding, guess=True)
    sign = delimiter or ("\t" if name.lower().endswith((".tsv", ".tab")) else _sniff(text))
    with text.open() as lines:
        table, more = make_table(name, _split(lines, sign))
    return table, [*issues, *more, *(_swallowed(table, sign) if text.quoted else ())]


def _split(lines: Iterable[str], delimiter: str) -> Iterator[RawRow]:
    """Yield the records of the text, each with the line on which it begins."""
    csv.field_size_limit(max(csv.field_size_limit(), MAX_INPUT))
    reader = csv.reader(lines, delimiter=delimiter)
    line = 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise InputError(f"The table cannot be read at line {line}: {error}.") from None
        yield RawRow(line, cells)
        line = reader.line_num + 1


def _sniff(text: TextFile) -> str:
    """Return the delimiter that gives the most columns in the most even way over the first records."""
    with text.open() as lines:
        head = lines.read(_HEAD)

    def score(delimiter: str) -> tuple[float, int]:
        rows = _split(io.StringIO(head, newline=""), delimiter)
        filled = (len(row.cells) for row in rows if any(cell.strip() for cell in row.cells))
        counts = list(islice(filled, _LOOKED_AT))
        common = max(set(counts), key=lambda one: (counts.count(one), one), default=1)
        return (counts.count(common) / len(counts) if common > 1 else 0.0), common

    return max(DELIMITERS, key=score)


def _swallowed(table: Table, delimiter: str) -> Iterator[Issue]:
    """Report cells that seem to hold whole rows, because a quotation mark was not closed."""
    needed = max(len(table.headings) - 1, 2)
    for row in table.rows:
        for index, cell in enumerate(row.cells):
            if "\n" not in cell:
                continue
            inner = cell.split("\n")[1:]
            if any(line.count(delimiter) >= needed for line in inner):
                fields: dict[str, Any] = {"heading": table.headings[index], "count": len(inner)}
                place = Location(table.file, row.line, table.numbers[index])
                yield issue("I-TAB-09", location=place, **fields)
