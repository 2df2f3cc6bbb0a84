"""Mapping sets in SSSOM TSV: text to a set of rows plus issues, and back to text in canonical form.

::

    # mapping_set_id: https://...        the header: YAML behind "# ", slots of the set, prefixes in curie_map
    # license: https://...
    subject_id  predicate_id  object_id  mapping_justification  ...        one line of column names
    term:heart  skos:exactMatch  UBERON:0000948  semapv:ManualMappingCuration  ...   one mapping a line

Every line of the table becomes a row or an issue that names it: nothing is dropped. A row whose ``predicate_modifier``
is ``Not`` says that the mapping does *not* hold; ``object_id`` ``sssom:NoTermFound`` says that the object source was
searched and has no such term. Neither is ever a mapping (:attr:`Row.positive`).

Source: SSSOM, the Simple Standard for Sharing Ontological Mappings (https://mapping-commons.github.io/sssom/),
slots and their order as in version 1.1 (order checked against ``sssom-pydantic`` in the tests).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from chordae.issues import Issue, Location, issue
from chordae.sssom_header import CONTROL, SET_SLOTS, header_text, read_header

__all__ = [
    "COLUMNS",
    "NO_TERM",
    "REQUIRED",
    "SET_SLOTS",
    "MappingSet",
    "Row",
    "read_mappings",
    "row_problem",
    "sort_rows",
    "write_mappings",
]

NO_TERM = "sssom:NoTermFound"
REQUIRED = ("subject_id", "predicate_id", "object_id", "mapping_justification")
_COLUMNS = """
    record_id subject_id subject_label subject_category predicate_id predicate_label predicate_modifier object_id
    object_label object_category mapping_justification author_id author_label reviewer_id reviewer_label creator_id
    creator_label license subject_type subject_source subject_source_version object_type object_source
    object_source_version predicate_type mapping_provider mapping_source mapping_cardinality cardinality_scope
    mapping_tool mapping_tool_id mapping_tool_version mapping_date publication_date review_date confidence
    reviewer_agreement curation_rule curation_rule_text subject_match_field object_match_field match_string
    subject_preprocessing object_preprocessing similarity_score similarity_measure see_also issue_tracker_item
    derived_from other comment"""
COLUMNS = tuple(_COLUMNS.split())
"""Columns of a row in canonical order."""
_MOST_COLUMNS = 1000
_LONGEST = 100_000


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a set: ``cells`` maps the name of a column to its text; empty cells are left out."""

    cells: Mapping[str, str]
    line: int | None = field(default=None, compare=False)

    def __getitem__(self, column: str) -> str:
        return self.cells.get(column, "")

    @property
    def negative(self) -> bool:
        """Whether the row says that the mapping does not hold."""
        return self["predicate_modifier"] == "Not"

    @property
    def no_term(self) -> bool:
        """Whether the row says that one side has no such term."""
        return NO_TERM in (self["subject_id"], self["object_id"])

    @property
    def positive(self) -> bool:
        """Whether the row states a mapping that may be used and exported."""
        return not self.negative and not self.no_term


@dataclass(frozen=True, slots=True)
class MappingSet:
    """A header and its rows, in the order of the file; ``name`` is the file."""

    name: str
    header: Mapping[str, Any]
    rows: tuple[Row, ...]

    @property
    def prefixes(self) -> dict[str, str]:
        """Prefix to IRI, as the header declares them."""
        declared = self.header.get("curie_map")
        return dict(declared) if isinstance(declared, Mapping) else {}

    def value(self, row: Row, column: str) -> str:
        """Return a cell, or what the header says for all rows."""
        return row[column] or str(self.header.get(column) or "")


def read_mappings(data: bytes | str, name: str) -> tuple[MappingSet, list[Issue]]:
    """Read one set strictly.

    Parameters
    ----------
    data
        The file, UTF-8.
    name
        Its name for the places of issues.

    Returns
    -------
    (MappingSet, list of Issue)
        Number of lines below the column names = number of rows + number of issues ``I-MAP-03``, unless an issue says
        that the file as a whole is no set.
    """
    issues: list[Issue] = []
    try:
        text = data.decode("utf-8-sig") if isinstance(data, bytes) else data
    except UnicodeDecodeError as error:
        where = Location(name, error.object.count(b"\n", 0, error.start) + 1)
        return MappingSet(name, {}, ()), [issue("I-MAP-01", location=where, problem="it is not UTF-8")]
    lines = io.StringIO(text, newline="").readlines()
    depth = next((number for number, line in enumerate(lines) if not line.startswith("#")), len(lines))
    header = read_header("".join(line[1:].removeprefix(" ") for line in lines[:depth]), name, issues)
    rows = _rows("".join(lines[depth:]), depth, name, issues)
    return MappingSet(name, header, tuple(rows)), issues


def write_mappings(mappings: MappingSet) -> str:
    """Write a set in canonical form: slots and columns in their order, rows sorted, no empty columns.

    ``read_mappings(write_mappings(x))`` gives back the header and the same rows, sorted.
    """
    used = [column for column in COLUMNS if any(column in row.cells for row in mappings.rows) or column in REQUIRED]
    out = io.StringIO()
    for line in header_text(mappings.header).split("\n")[:-1]:
        out.write(f"# {line}\n" if line else "#\n")
    writer = csv.writer(out, delimiter="\t", lineterminator="\n")
    writer.writerow(used)
    writer.writerows([row[column] for column in used] for row in sort_rows(mappings.rows))
    return out.getvalue()


def sort_rows(rows: Iterable[Row]) -> list[Row]:
    """Sort rows by their cells, column by column in canonical order."""
    return sorted(rows, key=lambda row: tuple(row[column] for column in COLUMNS))


def _rows(text: str, above: int, name: str, issues: list[Issue]) -> list[Row]:
    reader = csv.reader(io.StringIO(text), delimiter="\t", strict=True)
    rows: list[Row] = []
    columns: list[str] | None = None
    line = above + 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            break
        except csv.Error as error:
            problem = f"its cells cannot be told apart ({error})"
            issues.append(issue("I-MAP-03", location=Location(name, line), problem=problem))
            line = above + reader.line_num + 1
            continue
        if columns is None:
            columns = cells
            if len(cells) > _MOST_COLUMNS:
                problem = f"it has {len(cells)} columns, and a mapping has at most {len(COLUMNS)}"
                issues.append(issue("I-MAP-01", location=Location(name, line), problem=problem))
                return []
            issues += _column_issues(cells, name, line)
        elif cells:
            known = {column: cell for column, cell in zip(columns, cells, strict=False) if cell}
            problem = f"it has {len(cells)} cells where there are {len(columns)} columns"
            problem = problem if len(cells) != len(columns) else row_problem(known)
            if problem:
                issues.append(issue("I-MAP-03", location=Location(name, line), problem=problem))
            else:
                rows.append(Row({column: cell for column, cell in known.items() if column in COLUMNS}, line))
        line = above + reader.line_num + 1
    if columns is None:
        issues.append(issue("I-MAP-01", location=Location(name, line), problem="it has no line of column names"))
    return rows


def _column_issues(columns: list[str], name: str, line: int) -> list[Issue]:
    found = [
        issue("I-MAP-02", location=Location(name, line, number), value=column, kind="column")
        for number, column in enumerate(columns, 1)
        if column not in COLUMNS
    ]
    wrong = [one for one in REQUIRED if columns.count(one) != 1] + [
        one for one in dict.fromkeys(columns) if columns.count(one) > 1 and one not in REQUIRED
    ]
    return found + [
        issue("I-MAP-01", location=Location(name, line), problem=f"the column {one} must stand once") for one in wrong
    ]


def row_problem(cells: Mapping[str, str]) -> str:
    """Say why cells are no row, in words that go on from "This row was not taken over:"; empty if they are one."""
    missing = [one for one in REQUIRED if not cells.get(one)]
    if missing:
        return "these cells are empty: " + ", ".join(missing)
    for cell in cells.values():
        if "\n" in cell or "\r" in cell or "\t" in cell:
            return "a cell holds a tab or a line break"
        if len(cell) > _LONGEST:
            return f"a cell is longer than {_LONGEST} characters"
        if found := CONTROL.search(cell):
            return f"a cell holds a control character (U+{ord(found[0]):04X})"
    return ""
