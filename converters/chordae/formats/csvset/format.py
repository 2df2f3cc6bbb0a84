"""Records as CSV tables in a folder or zip, and back; the tables are those of :mod:`chordae.formats.sheets.layout`.

::

    records.csv  atrium.csv  ...  csv-metadata.json  datapackage.json

A table without rows is left out, apart from records.csv. Cells hold the words of the schema; lists are parted by a bar.
Words that a spreadsheet program would calculate have an apostrophe before them, which is taken away on reading.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping
from pathlib import PurePosixPath

from chordae.errors import InputError
from chordae.formats.csvset.metadata import csvw, data_package
from chordae.formats.losses import Carried
from chordae.formats.settings import Item, Settings
from chordae.formats.sheets.cells import BAR, cleaned, write_cell
from chordae.formats.sheets.flatten import Row, flatten
from chordae.formats.sheets.gather import gather
from chordae.formats.sheets.layout import sheets
from chordae.formulas import guarded, unguarded
from chordae.intake.grid import Table
from chordae.intake.table import read_table
from chordae.issues import Issue, Location, issue
from chordae.rdf.derived import as_node
from chordae.record import Reading

__all__ = ["CSVW", "PACKAGE", "read_files", "write_files"]

CSVW = "csv-metadata.json"
PACKAGE = "datapackage.json"


def write_files(items: Iterable[Item], settings: Settings) -> Iterator[tuple[str, bytes]]:
    """Yield the tables, then the two descriptions."""
    rows: dict[str, list[Row]] = {name: [] for name in sheets()}
    for record, derived in items:
        whole = record if derived is None else {**record, "derived": as_node(derived)}
        carried: Carried = {}
        for row in flatten(whole, carried):
            rows[row.sheet.name].append(row)
        settings.note(record, carried)
    used = [sheet for sheet in sheets().values() if rows[sheet.name] or sheet.name == "records"]
    for sheet in used:
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(sheet.headings)
        writer.writerows([guarded(cell, bare=True) for cell in _cells(row)] for row in rows[sheet.name])
        yield f"{sheet.name}.csv", out.getvalue().encode()
    yield CSVW, _json(csvw(used))
    yield PACKAGE, _json(data_package(used))


def read_files(files: Mapping[str, bytes], name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read the tables of a set; the two descriptions say nothing that the schema does not."""
    found: dict[str, Table] = {}
    issues: list[Issue] = []
    for path, data in sorted(files.items()):
        kind = PurePosixPath(path)
        if kind.suffix.lower() != ".csv" or kind.stem not in sheets():
            continue
        try:
            found[kind.stem], more = read_table(path, data=data, delimiter=",")
        except InputError as error:
            remedy = error.hint or "Export the table again."
            more = [issue("I-FMT-01", location=Location(path), problem=error.message, remedy=remedy)]
        issues += [one for one in more if one.rule != "I-TAB-08"]
    if not found and not issues:
        issues.append(issue("I-SHE-07", location=Location(name), name=name))
    readings, more = gather({name: table.changed(unguarded) for name, table in found.items()})
    return readings, issues + more


def _cells(row: Row) -> Iterator[str]:
    yield from row.keys
    for column in row.sheet.columns:
        value = row.values.get(column.name)
        if isinstance(value, list):
            yield cleaned(BAR.join(write_cell(one, column.slot) for one in value))
        else:
            yield "" if value is None else cleaned(write_cell(value, column.slot))


def _json(value: object) -> bytes:
    return (json.dumps(value, ensure_ascii=False, indent=1) + "\n").encode()
