"""From the rows of a table and a crosswalk to readings, and an issue for everything that was not taken over.

::

    row -> identifier -> cells: rule of the column -> decision about the word, or the cell itself -> draft
    -> reading

Every row becomes a reading or is refused with a violation: ``rows == len(readings) + refused``. A cell is
never interpreted without a rule: an unknown column or word, an ambiguous word, a number or date in another
form is an issue with file, line and column.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cache

from chordae.intake.cells import Refusal, parse_date, parse_measurement, parse_number, parse_percent
from chordae.intake.crosswalk_rules import ANY, LIST_STYLES, ColumnRule, Crosswalk, normalised
from chordae.intake.draft import Draft
from chordae.intake.grid import Row, Table
from chordae.intake.questions import question_about
from chordae.intake.row_ids import RowIds
from chordae.intake.statements import Cell, Statements
from chordae.intake.targets import Target
from chordae.issues import Issue, issue, nearest
from chordae.model import enum_of
from chordae.progress import track
from chordae.record import Reading

__all__ = ["Builder", "Built", "build"]

_NEAR = 4096
_NUMBERS = ("number", "percent", "measurement", "date")


@dataclass(slots=True)
class Built:
    """What became of a table: ``rows == len(readings) + refused``.

    ``unmapped`` counts the cells of each word that no crosswalk row decides, by heading and word;
    ``unmapped_columns`` the filled cells of each column that the crosswalk does not name.
    """

    readings: list[Reading] = field(default_factory=list)
    issues: list[Issue] = field(default_factory=list)
    rows: int = 0
    refused: int = 0
    unmapped: Counter[tuple[str, str]] = field(default_factory=Counter)
    unmapped_columns: Counter[str] = field(default_factory=Counter)


@dataclass(frozen=True, slots=True)
class _Use:
    """What a column is used for: rules on whole cells, on words and on numbers, the places that those fill."""

    rules: tuple[ColumnRule, ...]
    whole: tuple[ColumnRule, ...]
    by_word: tuple[ColumnRule, ...]
    numbers: tuple[ColumnRule, ...]
    targets: list[Target]
    measured: bool
    sign: str | None

    @classmethod
    def of(cls, rules: tuple[ColumnRule, ...]) -> _Use:
        by_word = tuple(rule for rule in rules if rule.kind == "value")
        numbers = tuple(rule for rule in rules if rule.kind in _NUMBERS)
        return cls(
            rules,
            whole=tuple(rule for rule in rules if rule.kind in ("remark", "notation", "identifier", "text")),
            by_word=by_word,
            numbers=numbers,
            targets=[rule.target for rule in (*by_word, *numbers) if rule.target is not None],
            measured=any(rule.kind == "measurement" for rule in numbers),
            sign=LIST_STYLES.get(next((rule.style for rule in by_word if rule.style), "")),
        )


def build(
    table: Table, crosswalk: Crosswalk, *, ask: Callable[[str], str | None] | None = None, collection: str | None = None
) -> Built:
    """Build a record of each row.

    Parameters
    ----------
    table
        The table, from :func:`chordae.intake.table.read_table`.
    crosswalk
        From :func:`chordae.intake.crosswalk.read_crosswalk`.
    ask
        Returns the question to ask about a word that can mean more than one thing, else ``None``; by
        default the list of such words that comes with the package.
    collection
        Identifier of the collection, if no column or constant gives it.

    Returns
    -------
    Built
        Readings in the order of the rows, and the issues of building (those of reading the table are not
        repeated).
    """
    builder = Builder(table, crosswalk, ask, collection)
    for row in track(table.rows, "Building records", len(table.rows)):
        reading = builder.add(row)
        if reading is not None:
            builder.built.readings.append(reading)
    return builder.finish()


class Builder:
    """Builds row by row, for callers that keep no more than a few readings at a time.

    Call :meth:`add` for each row of the table and :meth:`finish` once; :meth:`take_issues` gives what was found
    since it was last called. ``built.readings`` is the caller's to fill.
    """

    def __init__(
        self,
        table: Table,
        crosswalk: Crosswalk,
        ask: Callable[[str], str | None] | None = None,
        collection: str | None = None,
    ) -> None:
        self._table = table
        self._crosswalk = crosswalk
        self._collection = collection
        self.built = Built(rows=len(table.rows) + table.refused, refused=table.refused)
        self._statements = Statements(self.built.issues, ask or question_about)
        self._met: set[tuple[str, str]] = set()
        self._near: dict[tuple[str, str], str] = {}
        self._ids = RowIds(table, crosswalk)
        self._uses = [
            (index, heading, _Use.of(crosswalk.columns.get(heading, ())))
            for index, heading in enumerate(table.headings)
        ]

    def _columns(self) -> Iterator[tuple[int, str, tuple[ColumnRule, ...]]]:
        for index, heading in enumerate(self._table.headings):
            yield index, heading, self._crosswalk.columns.get(heading, ())

    def add(self, row: Row) -> Reading | None:
        """Return the reading of a row; ``None`` if the row is refused, with a violation among the issues."""
        record_id = self._ids.identify(row)
        if isinstance(record_id, Issue):
            self.built.issues.append(record_id)
            self.built.refused += 1
            return None
        draft = Draft(record_id, self._table.place(row.line))
        for rule in self._crosswalk.constants:
            if rule.target is not None:
                self._statements.put(draft, rule.target, rule.column, Cell(record_id, "", rule.column, rule.place))
        if self._collection is not None:
            place = self._table.place(row.line)
            self._statements.put(
                draft, Target("record", "collection"), self._collection, Cell(record_id, "", self._collection, place)
            )
        for index, heading, use in self._uses:
            text = row.cells[index]
            if not text:
                continue
            cell = Cell(record_id, heading, text, self._table.place(row.line, index), index in row.dates)
            if use.rules:
                self._fill(draft, cell, use)
            elif heading not in self._crosswalk.faulty:
                self.built.unmapped_columns[heading] += 1
        return draft.finish()

    def take_issues(self) -> list[Issue]:
        """Return the issues found since the last call, and forget them."""
        found = list(self.built.issues)
        self.built.issues.clear()
        return found

    def finish(self) -> Built:
        """Write the issues about whole columns and return what was built."""
        table, built = self._table, self.built
        for index, heading, rules in self._columns():
            if not rules and (count := built.unmapped_columns[heading]):
                place = table.place(table.heading_line, index)
                built.issues.append(issue("I-CEL-01", location=place, value=heading, count=count))
        for name, column_rules in self._crosswalk.columns.items():
            if table.index(name) is None:
                near = nearest(name, table.headings)
                built.issues.append(issue("I-XW-09", location=column_rules[0].place, value=name, nearest=near))
        for (column, word), decisions in self._crosswalk.values.items():
            if column != ANY and table.index(column) is not None and (column, word) not in self._met:
                place = decisions[0].place
                built.issues.append(issue("I-XW-14", location=place, value=decisions[0].local, column=column))
        return built

    def _fill(self, draft: Draft, cell: Cell, use: _Use) -> None:
        for rule in use.whole:
            if rule.kind == "remark":
                draft.remark(cell.text, cell.heading, cell.place)
            elif rule.kind == "notation":
                self._statements.put(draft, _notation(), cell.text, cell)
            elif rule.kind in ("identifier", "text") and rule.target is not None:
                self._statements.put(draft, rule.target, cell.text, cell)
        if not use.by_word and not use.numbers:
            return
        for word in [one.strip() for one in cell.text.split(use.sign)] if use.sign else [cell.text]:
            if word:
                self._word(draft, cell.with_text(word), use)

    def _word(self, draft: Draft, cell: Cell, use: _Use) -> None:
        key = normalised(cell.text)
        decisions = self._crosswalk.decisions(cell.heading, cell.text)
        if decisions:
            self._met.add((cell.heading, key))
            if self._statements.decide(draft, cell, decisions, use.targets, use.measured):
                return
        elif use.numbers:
            for rule in use.numbers:
                self._number(draft, cell, rule)
            return
        self.built.unmapped[(cell.heading, cell.text)] += 1
        near = self._nearest(cell.heading, key)
        self.built.issues.append(
            issue(
                "I-CEL-02",
                location=cell.place,
                record=cell.record,
                value=cell.text,
                heading=cell.heading,
                nearest=near,
            )
        )

    def _nearest(self, heading: str, word: str) -> str:
        """Return the nearest of the column's own words and of the values that it may give."""
        if (heading, word) not in self._near:
            known = [rows[0].local for (column, _), rows in self._crosswalk.values.items() if column == heading]
            for rule in self._crosswalk.columns.get(heading, ()):
                if rule.target is not None:
                    known += [one.replace("_", " ") for one in enum_of(rule.target.cell_slot) or ()]
            if len(self._near) >= _NEAR:
                self._near.clear()
            self._near[heading, word] = nearest(word, known)
        return self._near[heading, word]

    def _number(self, draft: Draft, cell: Cell, rule: ColumnRule) -> None:
        value: int | float | str | Refusal
        if rule.kind == "percent":
            value = parse_percent(cell.text, rule.style)
        elif rule.kind == "measurement":
            value = parse_measurement(cell.text, rule.unit, rule.style)
        elif rule.kind == "date":
            value = parse_date(cell.text, rule.style, stored=cell.stored_date)
        else:
            value = parse_number(cell.text, rule.style)
        if isinstance(value, Refusal):
            self._statements.refuse(cell, value, rule)
        elif rule.kind == "measurement" and not isinstance(value, str):
            draft.measure(rule.part, rule.quantity, value, rule.unit, dict(rule.extras), cell.place)
        elif rule.target is not None:
            self._statements.put(draft, rule.target, value, cell)


@cache
def _notation() -> Target:
    return Target("stated", "notation")
