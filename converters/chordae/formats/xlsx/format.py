"""A workbook from records, and records from a filled workbook; each cell is text or a number, nothing else."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import TYPE_CHECKING, Any

from chordae.formats.losses import Carried
from chordae.formats.packing import pack
from chordae.formats.settings import Item, Settings
from chordae.formats.sheets.cells import cleaned, write_cell
from chordae.formats.sheets.flatten import Row, flatten
from chordae.formats.sheets.gather import gather
from chordae.formats.sheets.layout import sheets
from chordae.formats.xlsx.template import INSTRUCTIONS, make_template
from chordae.formats.xlsx.words import SHEET as WORDS
from chordae.intake.workbook import read_sheets
from chordae.issues import Issue, Location, issue, nearest
from chordae.rdf.derived import as_node
from chordae.record import Reading

if TYPE_CHECKING:
    from openpyxl import Workbook

__all__ = ["read", "write", "write_template"]


def write(items: Iterable[Item], settings: Settings) -> Iterator[bytes]:
    """Yield a workbook that holds the records."""
    book = make_template(settings.school, made=True)
    next_row = {sheet.name: 2 for sheet in sheets().values()}
    for record, derived in items:
        whole = record if derived is None else {**record, "derived": as_node(derived)}
        carried: Carried = {}
        for row in flatten(whole, carried):
            _write_row(book[row.sheet.title], next_row[row.sheet.name], row, settings.school)
            next_row[row.sheet.name] += 1
        settings.note(record, carried)
    for sheet in sheets().values():
        if sheet.made and next_row[sheet.name] == 2:
            del book[sheet.title]
    yield _bytes(book, settings)


def write_template(settings: Settings) -> bytes:
    """Return the empty workbook."""
    return _bytes(make_template(settings.school), settings)


def read(data: bytes, name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read a filled workbook; every issue has sheet, row and column.

    Raises
    ------
    InputError
        It is no workbook that may be read.
    """
    by_title = {sheet.title: sheet.name for sheet in sheets().values()}
    found, others, issues = read_sheets(data, name, by_title.keys())
    # A sheet of the template that nobody filled in has headings and no rows.
    issues = [one for one in issues if one.rule != "I-TAB-08"]
    for title in others:
        if title not in (INSTRUCTIONS, WORDS):
            where = Location(name, None, None, title)
            issues.append(issue("I-SHE-06", location=where, value=title, nearest=nearest(title, by_title)))
    if not found:
        issues.append(issue("I-SHE-07", location=Location(name), name=name))
    readings, more = gather({by_title[title]: table for title, table in found.items()})
    return readings, issues + more


def _write_row(page: Any, number: int, row: Row, school: str | None) -> None:
    for at, key in enumerate(row.keys, 1):
        _put(page.cell(number, at), key)
    for at, column in enumerate(row.sheet.columns, len(row.keys) + 1):
        if column.name in row.values:
            value = row.values[column.name]
            plain = isinstance(value, int | float) and not isinstance(value, bool)
            _put(page.cell(number, at), value if plain else write_cell(value, column.slot, school))


def _put(cell: Any, value: Any) -> None:
    """Fill a cell; words are always text, whatever sign they begin with, so that nothing is ever a formula."""
    if isinstance(value, str):
        cell.value = cleaned(value)
        cell.data_type = "s"
        cell.number_format = "@"
    else:
        cell.value = value


def _bytes(book: Workbook, settings: Settings) -> bytes:
    """Return the file, the same for the same content: with the instant of the settings in place of the clock's."""
    from openpyxl.xml.functions import tostring

    stream = io.BytesIO()
    book.save(stream)
    when = datetime.fromisoformat(settings.recorded.removesuffix("Z"))
    book.properties.created = book.properties.modified = when
    with zipfile.ZipFile(stream) as package:
        parts = {one: package.read(one) for one in package.namelist()}
    parts["docProps/core.xml"] = tostring(book.properties.to_tree())
    return pack(parts.items())
