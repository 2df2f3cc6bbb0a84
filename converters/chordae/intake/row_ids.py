"""From the identifier cells of a row to the id of its record, which no other row may have.

::

    Cat. no. | Reader          id
    0012     | A               0012-A
    0012     |                 0012
    H 7/98   |                 H-7-98         the cell itself is kept as the catalogue number
             | A               refused: no catalogue number
"""

from __future__ import annotations

import re

from chordae.intake.crosswalk_rules import Crosswalk
from chordae.intake.grid import Row, Table
from chordae.issues import Issue, issue
from chordae.spill import Seen

__all__ = ["RowIds"]

_NOT_IN_IDS = re.compile(r"[^A-Za-z0-9._-]+")
_LONGEST = 128


class RowIds:
    """Gives ids to rows; the first identifier column is the catalogue number, without which a row has none."""

    def __init__(self, table: Table, crosswalk: Crosswalk) -> None:
        self._table = table
        self._columns = [
            index
            for index, heading in enumerate(table.headings)
            if any(rule.kind == "identifier" for rule in crosswalk.columns.get(heading, ()))
        ]
        self._first_line = Seen()

    def identify(self, row: Row) -> str | Issue:
        """Return the id of a row, or the violation for which it is refused."""
        texts = [row.cells[index] for index in self._columns]
        main = self._columns[0] if self._columns else None
        place = self._table.place(row.line, main)
        cleaned = (_NOT_IN_IDS.sub("-", text).strip("-._") for text in texts)
        record_id = "-".join(one for one in cleaned if one)[:_LONGEST]
        if main is None or not row.cells[main] or not record_id:
            heading = self._table.headings[main] if main is not None else "identifier"
            filled = sum(1 for cell in row.cells if cell)
            return issue("I-CEL-08", location=place, heading=heading, count=filled)
        first = self._first_line.at(record_id, row.line)
        if first != row.line:
            value = " ".join(one for one in texts if one)
            return issue("I-REC-01", location=place, record=record_id, value=value, first=first)
        return record_id
