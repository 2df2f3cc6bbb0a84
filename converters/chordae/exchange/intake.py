"""From a catalogue to readings, one by one, while it counts what became of rows and cells.

::

    rows   = readings + refused
    filled = mapped + ignored + without a meaning          (cells that hold anything)
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from chordae.exchange.catalogue import Catalogue
from chordae.files import read_input
from chordae.intake.build import Builder
from chordae.intake.crosswalk import read_crosswalk
from chordae.intake.crosswalk_rules import Crosswalk
from chordae.intake.document import each_reading
from chordae.intake.grid import Row, Table
from chordae.intake.table import read_table
from chordae.issues import Issue
from chordae.record import Reading

__all__ = ["Ask", "Intake"]

Ask = Callable[[str], str | None]
"""From a word to the question that must be asked about it, ``None`` if it has one meaning."""

_NOT_TAKEN = "I-CEL-"
_TAKEN = frozenset({"I-CEL-01", "I-CEL-11"})


class Intake:
    """The readings of one catalogue; iterate once, the counts are complete when it ends.

    Parameters
    ----------
    catalogue
        What to read.
    ask
        Tells words that can mean more than one thing.
    """

    def __init__(self, catalogue: Catalogue, ask: Ask | None = None) -> None:
        self._catalogue = catalogue
        self._ask = ask
        self.total: int | None = None
        self.rows = 0
        self.refused = 0
        self.filled = 0
        self.ignored = 0
        self.without_meaning = 0
        self.unmapped: Counter[tuple[str, str]] = Counter()
        self.unmapped_columns: Counter[str] = Counter()

    @property
    def mapped(self) -> int:
        """How many filled cells were given a meaning."""
        return self.filled - self.ignored - self.without_meaning

    def __iter__(self) -> Iterator[tuple[Reading | None, list[Issue]]]:
        """Yield a reading and its issues; ``None`` with the issues of a refused row, or of the whole table."""
        yield from self._document() if self._catalogue.is_document else self._table()

    def _document(self) -> Iterator[tuple[Reading | None, list[Issue]]]:
        path = self._catalogue.path
        for reading, issues in each_reading(path.name, path=path, encoding=self._catalogue.encoding):
            self.rows += 1
            self.refused += reading is None
            yield reading, issues

    def _table(self) -> Iterator[tuple[Reading | None, list[Issue]]]:
        catalogue = self._catalogue
        table, issues = read_table(
            catalogue.path.name,
            path=catalogue.path,
            sheet=catalogue.sheet,
            encoding=catalogue.encoding,
        )
        files = [read_input(path) for path in catalogue.crosswalk]
        names = [path.name for path in catalogue.crosswalk]
        crosswalk, more = read_crosswalk(
            names[0],
            names[1] if len(names) > 1 else None,
            data=(files[0], files[1] if len(files) > 1 else None),
        )
        self.total = len(table.rows)
        yield None, [*issues, *more]
        builder = Builder(table, crosswalk, self._ask, self._collection())
        ignored = _ignored(table, crosswalk)
        for row in table.rows:
            reading = builder.add(row)
            found = builder.take_issues()
            self._count(row, reading, found, ignored)
            yield reading, found
        built = builder.finish()
        self.rows, self.refused = built.rows, built.refused
        self.unmapped, self.unmapped_columns = built.unmapped, built.unmapped_columns
        self.without_meaning += built.unmapped_columns.total()
        yield None, builder.take_issues()

    def _collection(self) -> str | None:
        found = self._catalogue.collection.get("id")
        return None if found is None else str(found)

    def _count(self, row: Row, reading: Reading | None, issues: list[Issue], ignored: frozenset[int]) -> None:
        filled = [index for index, cell in enumerate(row.cells) if cell]
        self.filled += len(filled)
        self.ignored += sum(1 for index in filled if index in ignored)
        if reading is None:
            self.without_meaning += sum(1 for index in filled if index not in ignored)
            return
        left_out = {
            (one.location.line, one.location.column)
            for one in issues
            if one.rule.startswith(_NOT_TAKEN) and one.rule not in _TAKEN
        }
        self.without_meaning += len(left_out)


def _ignored(table: Table, crosswalk: Crosswalk) -> frozenset[int]:
    """Return the indexes of the columns that the crosswalk leaves out on purpose."""
    return frozenset(
        index
        for index, heading in enumerate(table.headings)
        if (rules := crosswalk.columns.get(heading)) and all(rule.kind == "ignore" for rule in rules)
    )
