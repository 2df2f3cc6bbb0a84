"""From raw lines of cells to a table: a heading, rows of text cells, and the place of each.

::

    line 1   Catalogue of hearts                          a title: passed over
    line 2   Cat. no. | Tricuspid valve     |             headings over two rows (merged cells)
    line 3            | leaflets  | cords   |             -> "Cat. no.", "Tricuspid valve / leaflets", ...
    line 4   0012     | 3         | to septum

Every cell is text without spaces at its ends. A row longer than the heading is not taken over, because
nobody can tell which cells belong to which column; a shorter one is filled with empty cells. Each is an
issue. The lines are read once; of a long table only a few are in memory (:mod:`chordae.spill`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice
from typing import Any

from chordae.errors import InputError
from chordae.files import MAX_CELL
from chordae.intake.scalars import bad_characters
from chordae.issues import Issue, Location, issue
from chordae.spill import Spool

__all__ = ["MAX_COLUMNS", "Merges", "NoCells", "RawRow", "Row", "Table", "clean_heading", "make_table"]

MAX_COLUMNS = 1000
"""Most columns of a table."""


Merges = tuple[Mapping[int, Mapping[int, str]], frozenset[int]]
"""For lines with merged cells: line -> index of column -> heading that the merge spreads over it; and the lines whose
headings go on in the next line."""


class NoCells(InputError):
    """A table without any cell."""


@dataclass(frozen=True, slots=True)
class RawRow:
    """Cells as they stand in the file; ``dates`` are the indexes of cells stored as dates (written y-m-d)."""

    line: int
    cells: Sequence[str]
    dates: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Row:
    """One row: as many cells as the table has headings; an empty cell is the empty text."""

    line: int
    cells: tuple[str, ...]
    dates: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Table:
    """A table as it was read.

    ``headings`` are all different. ``numbers`` are the numbers of the columns in the file, from 1.
    ``refused`` is the number of rows that were not taken over, each with a violation. ``rows`` may be gone through as
    often as wanted.
    """

    file: str
    headings: tuple[str, ...]
    numbers: tuple[int, ...]
    rows: Sequence[Row]
    heading_line: int
    refused: int = 0
    sheet: str | None = None
    _index: Mapping[str, int] = field(default_factory=dict, repr=False, compare=False)

    def index(self, heading: str) -> int | None:
        """Return the index of the column under a heading, ``None`` if there is none."""
        return self._index.get(heading)

    def place(self, line: int, index: int | None = None) -> Location:
        """Return the place of a cell: line of the file and number of the column."""
        return Location(self.file, line, None if index is None else self.numbers[index], self.sheet)

    def changed(self, change: Callable[[str], str]) -> Table:
        """Return the table with every cell under the headings changed; the rows stand in memory."""
        return replace(self, rows=[replace(row, cells=tuple(map(change, row.cells))) for row in self.rows])


def make_table(
    file: str,
    raw: Iterable[RawRow],
    *,
    sheet: str | None = None,
    merges: Callable[[], Merges] = lambda: ({}, frozenset()),
) -> tuple[Table, list[Issue]]:
    """Find the heading and shape the rows under it.

    Parameters
    ----------
    file, sheet
        Names for the places.
    raw
        The lines of the file, first to last; they are read once.
    merges
        Returns what is known of merged cells; called when all lines were read.

    Raises
    ------
    NoCells
        There is no cell at all.
    """
    lines = _Lines(raw)
    groups, deep = merges()
    issues: list[Issue] = []
    start = _heading_start(lines, groups, Location(file, None, None, sheet), issues)
    if start is None:
        raise NoCells(f"The table {file} is empty.", "Export the table again.")
    end = start
    while lines.kept[end].line in deep and end + 1 < len(lines.kept):
        end += 1
    heads = [_spread(one, groups.get(one.line, {})) for one in islice(lines.kept, start, end + 1)]
    place = Location(file, lines.kept[end].line, None, sheet)
    headings, kept = _headings(heads, lines.used_after(end), place, issues)
    rows, refused = _rows(islice(lines.kept, end + 1, lines.last + 1), headings, kept, place, issues)
    if not rows and not refused:
        issues.append(issue("I-TAB-08", location=place, name=file))
    index = {heading: number for number, heading in enumerate(headings)}
    numbers = tuple(one + 1 for one in kept)
    return Table(file, headings, numbers, rows, place.line or 0, refused, sheet, index), issues


class _Lines:
    """All lines of the file, and what has to be known of all of them before the first row can be shaped.

    ``widest`` is the number of columns of the longest line, ``last`` the number of the last one with a filled cell.
    """

    def __init__(self, raw: Iterable[RawRow]) -> None:
        self.kept: Spool[RawRow] = Spool(
            lambda one: (one.line, list(one.cells), tuple(one.dates)),
            lambda told: RawRow(told[0], told[1], frozenset(told[2])),
        )
        self.widest = 0
        self.last = -1
        self._filled: list[int] = []
        for number, row in enumerate(raw):
            self.kept.append(row)
            width = 0
            for column, cell in enumerate(row.cells):
                if cell and not cell.isspace():
                    width = column + 1
                    if width > len(self._filled):
                        self._filled += [-1] * (width - len(self._filled))
                    self._filled[column] = number
            if width:
                self.widest = max(self.widest, width)
                self.last = number

    def filled(self) -> Iterator[tuple[int, RawRow]]:
        """Yield the lines with a filled cell, each with its number."""
        return ((number, one) for number, one in enumerate(self.kept) if _width(one))

    def used_after(self, number: int) -> frozenset[int]:
        """Return the indexes of the columns in which a later line has a filled cell."""
        return frozenset(column for column, line in enumerate(self._filled) if line > number)


def clean_heading(text: str) -> str:
    """Return a heading on one line, with single spaces."""
    return " ".join(text.split())


def _heading_start(
    lines: _Lines, groups: Mapping[int, Mapping[int, str]], place: Location, issues: list[Issue]
) -> int | None:
    """Return the number of the first line that is no title: one cell, alone or over all columns."""
    for number, one in lines.filled():
        texts = [cell.strip() for cell in one.cells if cell.strip()]
        spread = len(groups.get(one.line, {}))
        if number == lines.last or lines.widest < 3 or len(texts) > 1 or 1 < spread < lines.widest:
            return number
        issues.append(issue("I-TAB-10", location=replace(place, line=one.line), value=texts[0]))
    return None


def _width(row: RawRow) -> int:
    return max((number + 1 for number, cell in enumerate(row.cells) if cell.strip()), default=0)


def _spread(row: RawRow, merged: Mapping[int, str]) -> dict[int, str]:
    texts = {number: clean_heading(cell) for number, cell in enumerate(row.cells)}
    texts.update({number: clean_heading(text) for number, text in merged.items()})
    return texts


def _headings(
    heads: list[dict[int, str]], used: frozenset[int], place: Location, issues: list[Issue]
) -> tuple[tuple[str, ...], list[int]]:
    """Return the headings and the indexes of the columns they stand over; empty columns are left out."""
    width = max((number + 1 for head in heads for number, text in head.items() if text), default=0)
    if width > MAX_COLUMNS:
        raise InputError(f"{place.file} has {width} columns; at most {MAX_COLUMNS} are read.")
    names: list[str] = []
    kept: list[int] = []
    for number in range(width):
        levels = list(dict.fromkeys(head[number] for head in heads if head.get(number)))
        name = " / ".join(levels)
        spot = Location(place.file, place.line, number + 1, place.sheet)
        if not name:
            if number not in used:
                continue
            name = f"column {number + 1}"
            issues.append(issue("I-TAB-03", location=spot, number=number + 1, name=name))
        if name in names:
            again = next(f"{name} ({count})" for count in range(2, len(names) + 3) if f"{name} ({count})" not in names)
            issues.append(issue("I-TAB-02", location=spot, value=name, name=again))
            name = again
        names.append(name)
        kept.append(number)
    return tuple(names), kept


def _rows(
    body: Iterable[RawRow], headings: tuple[str, ...], kept: list[int], place: Location, issues: list[Issue]
) -> tuple[Sequence[Row], int]:
    rows: Spool[Row] = Spool(
        lambda one: (one.line, one.cells, tuple(one.dates)), lambda told: Row(told[0], told[1], frozenset(told[2]))
    )
    refused = empty = first_empty = 0
    width = kept[-1] + 1 if kept else 0
    for raw in body:
        filled = _width(raw)
        if not filled:
            empty += 1
            first_empty = first_empty or raw.line
            continue
        spot = Location(place.file, raw.line, None, place.sheet)
        if filled > width:
            refused += 1
            issues.append(
                issue("I-TAB-01", location=spot, found=filled, expected=width, what="the row was not taken over")
            )
            continue
        if len(raw.cells) < width and place.sheet is None:
            what = "the missing cells were read as empty"
            found = len(raw.cells)
            issues.append(issue("I-TAB-01", severity="warning", location=spot, found=found, expected=width, what=what))
        cells = [raw.cells[number] if number < len(raw.cells) else "" for number in kept]
        rows.append(Row(raw.line, _clean(cells, headings, kept, spot, issues), _dates(raw, kept)))
    if empty:
        spot = Location(place.file, first_empty, None, place.sheet)
        issues.append(issue("I-TAB-07", location=spot, count=empty, line=first_empty))
    return rows, refused


def _dates(raw: RawRow, kept: list[int]) -> frozenset[int]:
    return frozenset(index for index, number in enumerate(kept) if number in raw.dates) if raw.dates else raw.dates


def _clean(
    cells: list[str], headings: tuple[str, ...], kept: list[int], place: Location, issues: list[Issue]
) -> tuple[str, ...]:
    texts = [cell.strip() for cell in cells]
    for index, text in enumerate(texts):
        if text.isprintable() and len(text) <= MAX_CELL:
            continue
        spot = Location(place.file, place.line, kept[index] + 1, place.sheet)
        if not text.isprintable() and (bad := bad_characters(text)):
            issues.append(issue("I-TAB-05", location=spot, heading=headings[index], characters=bad))
            text = "".join(one for one in text if not bad_characters(one)).strip()
        if len(text) > MAX_CELL:
            fields: dict[str, Any] = {"heading": headings[index], "length": len(text), "limit": MAX_CELL}
            issues.append(issue("I-TAB-04", location=spot, **fields))
            text = text[:MAX_CELL]
        texts[index] = text
    return tuple(texts)
