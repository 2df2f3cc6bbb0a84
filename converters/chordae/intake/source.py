"""From whatever the user names, a table with its crosswalk or a document of records, to readings and issues.

::

    hearts.xlsx + columns.tsv + values.tsv    table, crosswalk, build
    hearts.csv  + columns.tsv + values.tsv
    hearts.yaml, .json, .ndjson, -            document
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from chordae.errors import InputError
from chordae.files import STDIN
from chordae.intake.build import Builder, Built, build
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.crosswalk_rules import Crosswalk
from chordae.intake.document import each_reading
from chordae.intake.grid import Table
from chordae.intake.table import is_table, read_table
from chordae.issues import Issue
from chordae.record import Reading

__all__ = ["COLUMNS", "VALUES", "Source", "each_of", "find_crosswalk", "read_source"]

COLUMNS = "columns.tsv"
VALUES = "values.tsv"


@dataclass(frozen=True, slots=True)
class Source:
    """What to read and how; ``columns`` and ``values`` are the paths of a crosswalk, for a table only."""

    path: str
    columns: str | None = None
    values: str | None = None
    sheet: str | None = None
    encoding: str | None = None
    delimiter: str | None = None
    format: str | None = None
    collection: str | None = None

    @property
    def tabular(self) -> bool:
        """Whether a table is read, by its name or because a crosswalk was given."""
        return self.columns is not None or (self.path != STDIN and is_table(self.path))


def find_crosswalk(folder: str | os.PathLike[str]) -> tuple[str, str | None]:
    """Return the paths of columns.tsv and values.tsv in a folder; the second may be missing.

    Raises
    ------
    InputError
        There is no columns.tsv.
    """
    columns, values = Path(folder) / COLUMNS, Path(folder) / VALUES
    if not columns.is_file():
        raise InputError(
            f"There is no {COLUMNS} in {folder}.",
            "Write first drafts of both files with: chordae read --suggest-crosswalk TABLE --out FOLDER",
        )
    return str(columns), str(values) if values.is_file() else None


def read_source(source: Source) -> Built:
    """Read everything.

    Returns
    -------
    Built
        Readings and all issues: of reading, of the crosswalk, of building.

    Raises
    ------
    InputError
        Something cannot be read at all, or a table comes without a crosswalk.
    """
    if source.tabular:
        return _read_table(source)
    built = Built()
    for reading, issues in each_of(source):
        built.rows += 1
        built.issues += issues
        if reading is not None:
            built.readings.append(reading)
        else:
            built.refused += 1
    return built


def each_of(source: Source) -> Iterator[tuple[Reading | None, list[Issue]]]:
    """Yield readings one by one, each with its issues; ``None`` with those of a refused row or of a whole table."""
    if not source.tabular:
        yield from each_reading(source.path, format=source.format, encoding=source.encoding)
        return
    table, crosswalk, issues = _open_table(source)
    yield None, issues
    builder = Builder(table, crosswalk, collection=source.collection)
    for row in table.rows:
        reading = builder.add(row)
        yield reading, builder.take_issues()
    builder.finish()
    yield None, builder.take_issues()


def _read_table(source: Source) -> Built:
    table, crosswalk, issues = _open_table(source)
    built = build(table, crosswalk, collection=source.collection)
    built.issues[:0] = issues
    return built


def _open_table(source: Source) -> tuple[Table, Crosswalk, list[Issue]]:
    if source.columns is None:
        raise InputError(
            f"{source.path} is a table; a table needs a crosswalk of its columns and words.",
            "Name its folder with --crosswalk, or write first drafts with: "
            "chordae read --suggest-crosswalk TABLE --out FOLDER",
        )
    table, issues = read_table(source.path, sheet=source.sheet, encoding=source.encoding, delimiter=source.delimiter)
    crosswalk, more = read_crosswalk(source.columns, source.values)
    return table, crosswalk, [*issues, *more]
