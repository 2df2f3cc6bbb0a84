"""From the rows of columns.tsv to rules for columns, and an issue for each mistake."""

from __future__ import annotations

from typing import Any

from chordae import model
from chordae.intake.crosswalk_rules import DATE_STYLES, EXTRAS, FITS, KINDS, UNITS, ColumnRule
from chordae.intake.grid import Row, Table
from chordae.intake.targets import Mistake, Target, find_target, typed
from chordae.issues import Issue, Location, issue, nearest

__all__ = ["ColumnReader", "RowReader"]


class RowReader:
    """Reads the cells of one row by heading and writes issues about them."""

    def __init__(self, table: Table, issues: list[Issue]) -> None:
        self.table = table
        self.issues = issues

    def cell(self, row: Row, heading: str) -> str:
        """Return the text under a heading; empty if the table has no such column."""
        index = self.table.index(heading)
        return row.cells[index] if index is not None else ""

    def wrong(self, row: Row, heading: str, rule: str, value: str | None = None, **fields: Any) -> None:
        """Add an issue about the cell of a row under a heading; ``fields`` fill the sentence of the rule."""
        index = self.table.index(heading)
        place = self.table.place(row.line, index)
        self.issues.append(issue(rule, location=place, value=value, **fields))

    def one_of(self, row: Row, heading: str, rule: str, known: tuple[str, ...], **fields: Any) -> bool:
        """Say whether a cell is empty or holds a known word; if not, add an issue that names the nearest."""
        value = self.cell(row, heading)
        if not value or value in known:
            return True
        near = nearest(value, known)
        self.wrong(row, heading, rule, value, expected=", ".join(known) or "none", nearest=near, **fields)
        return False

    def target(self, row: Row, part: str, property: str) -> Target | None:
        """Return the place in the record that a part and a property name; ``None``, with an issue, for none."""
        found = find_target(part, property)
        if isinstance(found, Target):
            return found
        heading = "part" if found.rule == "I-XW-03" else "property"
        self.wrong(row, heading, found.rule, found.value, **found.fields)
        return None


class ColumnReader(RowReader):
    """Reads the rows of columns.tsv; ``faulty`` holds the columns that have a row with a mistake."""

    def __init__(self, table: Table, issues: list[Issue]) -> None:
        super().__init__(table, issues)
        self.faulty: set[str] = set()
        self._seen: dict[tuple[str, ...], int] = {}

    def rule(self, row: Row) -> ColumnRule | None:
        """Return what a row says of a column; ``None``, with an issue, if it cannot be used."""
        column = " ".join(self.cell(row, "column").split())
        found = self._rule(row, column) if column else None
        if not column:
            self.wrong(row, "column", "I-XW-10", what="the name of the column")
        elif found is None:
            self.faulty.add(column)
        return found

    def _rule(self, row: Row, column: str) -> ColumnRule | None:
        kind, style, unit = (self.cell(row, one) for one in ("kind", "style", "unit"))
        part, property = self.cell(row, "part"), self.cell(row, "property")
        if not kind:
            self.wrong(row, "kind", "I-XW-10", what=f"the kind of the column {column!r}")
            return None
        if not self.one_of(row, "kind", "I-XW-02", tuple(KINDS)):
            return None
        key = (column, kind, part, property)
        if key in self._seen:
            self.wrong(row, "column", "I-XW-11", column, first=self._seen[key])
            return None
        self._seen[key] = row.line
        place = self.table.place(row.line, self.table.index("column"))
        if kind in ("ignore", "remark", "notation"):
            return ColumnRule(column, kind, None, place)
        if not self._style(row, kind, style):
            return None
        if kind == "measurement":
            return self._measurement(row, column, place)
        if not part and (kind == "value" or kind == "identifier"):
            return ColumnRule(column, kind, None, place, style)
        if not part or (not property and kind != "value"):
            self.wrong(row, "property" if part else "part", "I-XW-10", what="the part and the property")
            return None
        target = self.target(row, part, property)
        if target is None or not self._fits(row, kind, target):
            return None
        return ColumnRule(column, kind, target, place, style, unit, part=part)

    def _style(self, row: Row, kind: str, style: str) -> bool:
        if kind == "date" and style:
            parts = style.split("|")
            unknown = [one for one in parts if one not in DATE_STYLES]
            if unknown or {"d/m/y", "m/d/y"} <= set(parts):
                near = nearest(unknown[0], DATE_STYLES) if unknown else " Day and month cannot be told apart then."
                self.wrong(row, "style", "I-XW-06", style, kind=kind, expected=", ".join(DATE_STYLES), nearest=near)
                return False
            return True
        if kind == "date":
            self.wrong(row, "style", "I-XW-10", what=f"the style of the dates ({', '.join(DATE_STYLES)})")
            return False
        return self.one_of(row, "style", "I-XW-06", KINDS[kind], kind=kind)

    def _fits(self, row: Row, kind: str, target: Target) -> bool:
        if target.kind in FITS[kind]:
            if kind != "constant" or not isinstance(found := typed(target, self.cell(row, "column")), Mistake):
                return True
            self.wrong(row, "column", found.rule, found.value, **found.fields)
            return False
        fitting = ", ".join(one for one, kinds in FITS.items() if target.kind in kinds)
        self.wrong(row, "kind", "I-XW-17", kind, target=str(target), expected=fitting)
        return False

    def _measurement(self, row: Row, column: str, place: Location) -> ColumnRule | None:
        part, quantity, unit = (self.cell(row, one) for one in ("part", "property", "unit"))
        if part not in ("", "record", "specimen") and model.part_type(part) is None:
            self.target(row, part, quantity)
            return None
        known = tuple(model.enum_of("quantity") or ())
        if not quantity:
            self.wrong(row, "property", "I-XW-10", what=f"what was measured ({', '.join(known)})")
            return None
        if quantity not in known:
            fields = {"part": "a measurement", "property": "quantity", "nearest": nearest(quantity, known)}
            self.wrong(row, "property", "I-XW-05", quantity, **fields)
            return None
        if unit not in UNITS:
            self.wrong(row, "unit", "I-XW-15", unit, expected=", ".join(UNITS))
            return None
        extras = {one: self.cell(row, one) for one in EXTRAS if self.cell(row, one)}
        state = extras.get("material_state", "")
        states = tuple(model.enum_of("material_state") or ())
        if state and state not in states:
            fields = {"part": "a measurement", "property": "material_state", "nearest": nearest(state, states)}
            self.wrong(row, "material_state", "I-XW-05", state, **fields)
            return None
        about = "" if part in ("record", "specimen") else part
        return ColumnRule(column, "measurement", None, place, self.cell(row, "style"), unit, quantity, about, extras)
