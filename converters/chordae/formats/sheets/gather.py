"""From filled tables to records: every cell with its place, every row a part of a record or an issue.

::

    records         7 | ...                 {"id": "7", ...}
    arterial_trunk  7 | aorta | ... | 3     {"id": "aorta", "type": "ArterialTrunk", "semilunar_leaflets": 3}

Nothing is judged here: a word that a column does not know, or a number that is none, stays as it was typed, and the
check of structure names the cell. What cannot be placed (a row without a record, a column that is not known) has an
issue, and its words stay as remarks wherever there is a record to keep them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from chordae.formats.sheets.cells import read_cell
from chordae.formats.sheets.layout import COMMITMENTS, SINGLE, Column, Sheet, sheets
from chordae.intake.grid import Row, Table
from chordae.issues import Issue, Location, issue, nearest
from chordae.model import tables
from chordae.record import Reading, Record, pointer

__all__ = ["gather", "key_of_heading"]

_LISTS: Mapping[str, tuple[str, ...]] = {
    "material_states": ("specimen", "material_states"),
    "conclusion_basis": ("stated", "conclusion_basis"),
    **{name: (node, name) for node, lists in SINGLE.items() for name in lists},
}


def gather(found: Mapping[str, Table]) -> tuple[list[Reading], list[Issue]]:
    """Put records together.

    Parameters
    ----------
    found
        Tables by their names in :func:`chordae.formats.sheets.layout.sheets`; others must be left out.

    Returns
    -------
    list of Reading, list of Issue
        Records in the order of the table ``records``; each value has the place of its cell.
    """
    work = _Work()
    for name, sheet in sheets().items():
        if name in found:
            work.table(sheet, found[name])
    return [Reading(one.record, one.places) for one in work.drafts.values()], work.issues


def key_of_heading(heading: str) -> str:
    """Return the name of a column as the layout has it.

    Examples
    --------
    >>> key_of_heading("Specimen accession")
    'specimen_accession'
    """
    return "_".join(heading.casefold().replace("_", " ").split())


@dataclass
class _Draft:
    """A record that grows, and the places of its values."""

    record: Record
    places: dict[str, Location] = field(default_factory=dict)

    def set(self, path: tuple[str | int, ...], value: Any, place: Location) -> None:
        node: Any = self.record
        for key in path[:-1]:
            node = _step(node, key)
        node[path[-1]] = value
        self.places[pointer(*path)] = place

    def add(self, path: tuple[str | int, ...], node: Record, place: Location) -> tuple[str | int, ...]:
        """Add a node to a list and return its path."""
        holder: Any = self.record
        for key in path[:-1]:
            holder = _step(holder, key)
        rows = holder.setdefault(path[-1], [])
        rows.append(node)
        own = (*path, len(rows) - 1)
        self.places[pointer(*own)] = place
        return own


class _Work:
    def __init__(self) -> None:
        self.drafts: dict[str, _Draft] = {}
        self.issues: list[Issue] = []

    def table(self, sheet: Sheet, table: Table) -> None:
        names = [key_of_heading(one) for one in table.headings]
        place = table.place(table.heading_line)
        missing = [key for key in sheet.keys if key not in names]
        if missing:
            self.issues.append(issue("I-SHE-01", location=place, sheet=sheet.title, value=", ".join(missing)))
            return
        columns = {one.name: one for one in sheet.columns}
        for at, name in enumerate(names):
            if name not in columns and name not in sheet.keys and any(row.cells[at] for row in table.rows):
                where = table.place(table.heading_line, at)
                near = nearest(name, columns)
                self.issues.append(
                    issue("I-SHE-02", location=where, sheet=sheet.title, value=table.headings[at], nearest=near)
                )
        for row in table.rows:
            self._row(sheet, table, row, names, columns)

    def _row(self, sheet: Sheet, table: Table, row: Row, names: list[str], columns: Mapping[str, Column]) -> None:
        keys = [row.cells[names.index(key)].strip() for key in sheet.keys]
        place = table.place(row.line, names.index(sheet.keys[0]))
        if sheet.is_part and not keys[1]:
            keys[1] = _only_part(sheet.class_name)
        if "" in keys:
            empty = sheet.keys[keys.index("")]
            where = table.place(row.line, names.index(empty))
            self.issues.append(issue("I-SHE-03", location=where, record=keys[0], sheet=sheet.title, key=empty))
        elif sheet.name == "records" and keys[0] in self.drafts:
            first = self.drafts[keys[0]].places[""].line
            self.issues.append(issue("I-REC-01", location=place, record=keys[0], value=keys[0], first=first))
        else:
            draft = self._draft(keys[0], sheet, place)
            cells = {key: table.place(row.line, names.index(key)) for key in sheet.keys}
            at = self._node(draft, sheet, keys, table.place(row.line), cells)
            if at is not None:
                _fill(draft, at, sheet, table, row, columns)
                return
        if keys[0]:
            _keep(self._draft(keys[0], sheet, place), sheet, table, row)

    def _draft(self, record_id: str, sheet: Sheet, place: Location) -> _Draft:
        if record_id not in self.drafts:
            self.drafts[record_id] = _Draft({"id": record_id}, {"": place, "/id": place})
            if sheet.name != "records":
                self.issues.append(issue("I-SHE-04", location=place, record=record_id, value=record_id))
        return self.drafts[record_id]

    def _node(
        self, draft: _Draft, sheet: Sheet, keys: list[str], row: Location, cells: Mapping[str, Location]
    ) -> tuple[str | int, ...] | None:
        """Return the path of the node that a row describes; it is made, or found by the keys, which stand in cells."""
        if sheet.name == "records":
            return ()
        if sheet.single:
            if sheet.name in draft.record:
                first = draft.places[pointer(sheet.name)].line
                said = issue(
                    "I-SHE-08", location=cells["record"], record=keys[0], sheet=sheet.title, value=keys[0], first=first
                )
                self.issues.append(said)
                return None
            draft.set((sheet.name,), {}, row)
            return (sheet.name,)
        if sheet.is_part:
            return draft.add(("parts",), {"id": keys[1], "type": sheet.class_name}, row)
        if sheet.name in ("observed", "commitments"):
            if sheet.name == "commitments" and keys[2] not in COMMITMENTS:
                said = issue("I-SHE-05", location=cells["property"], record=keys[0], value=keys[2], key="property")
                self.issues.append(said)
                return None
            own = self._find(draft, "parts", keys[1], cells["part"])
            return None if own is None else draft.add((*own, "observed" if len(keys) == 2 else keys[2]), {}, row)
        if sheet.name == "shows":
            own = self._find(draft, "evidence", keys[1], cells["evidence"])
            return None if own is None else draft.add((*own, "shows"), {}, row)
        return draft.add(_LISTS.get(sheet.name, (sheet.name,)), {}, row)

    def _find(self, draft: _Draft, name: str, node_id: str, cell: Location) -> tuple[str | int, ...] | None:
        for at, node in enumerate(draft.record.get(name) or ()):
            if node.get("id") == node_id:
                return (name, at)
        record_id = str(draft.record["id"])
        what = "part" if name == "parts" else name
        self.issues.append(issue("I-SHE-05", location=cell, record=record_id, value=node_id, key=what))
        return None


def _step(node: Any, key: str | int) -> Any:
    """Go one step down a record; a mapping that is not there yet is made."""
    return node[key] if isinstance(key, int) else node.setdefault(key, {})


def _fill(
    draft: _Draft, at: tuple[str | int, ...], sheet: Sheet, table: Table, row: Row, columns: Mapping[str, Column]
) -> None:
    """Set the values of a row; words under a heading that is not known stay as remarks."""
    for number, text in enumerate(row.cells):
        name = key_of_heading(table.headings[number])
        if not text or name in sheet.keys:
            continue
        where = table.place(row.line, number)
        if (column := columns.get(name)) is None:
            draft.add(("remarks",), {"text": text, "place": f"{sheet.title}: {table.headings[number]}"}, where)
        elif (value := read_cell(text, column.slot)) != []:
            draft.set((*at, *column.path), value, where)


def _keep(draft: _Draft, sheet: Sheet, table: Table, row: Row) -> None:
    """Keep a row that has no place in its record as a remark, in words."""
    words = "; ".join(f"{head}: {text}" for head, text in zip(table.headings, row.cells, strict=True) if text)
    draft.add(("remarks",), {"text": words, "place": f"{sheet.title}: line {row.line}"}, table.place(row.line))


def _only_part(class_name: str) -> str:
    """Return the conventional id of a class that has one only; an empty text for any other class."""
    found = [one.id for one in tables().parts.values() if one.type == class_name]
    return found[0] if len(found) == 1 else ""
