"""From a record to the rows of its tables, each cell with the statements that it carries.

::

    {"id": "7", "parts": [{"id": "aorta", "type": "ArterialTrunk", "semilunar_leaflets": 3}]}

    records         Row(("7",), {})
    arterial_trunk  Row(("7", "aorta"), {"semilunar_leaflets": 3})
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from chordae.formats.losses import Carried
from chordae.formats.sheets.cells import fits
from chordae.formats.sheets.layout import COMMITMENTS, SINGLE, Sheet, part_sheet, sheets
from chordae.record import Record, pointer

__all__ = ["Row", "flatten"]


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the values of the key columns, and those of the other columns by name; empty cells are left out."""

    sheet: Sheet
    keys: tuple[str, ...]
    values: Mapping[str, Any]


def flatten(record: Record, carried: Carried) -> Iterator[Row]:
    """Yield the rows of a record, and mark in ``carried`` what they carry.

    Parameters
    ----------
    record
        A record of the shape of the schema, whose ``derived`` has that shape too.
    carried
        Filled in: a text that a cell would change is carried as text only.
    """
    work = _Work(str(record["id"]), carried)
    carried["/id"] = "coded"
    yield Row(sheets()["records"], (work.id,), work.values(sheets()["records"], record, ""))
    specimen, stated = record.get("specimen") or {}, record.get("stated") or {}
    yield from work.inner("material_states", specimen.get("material_states"), "/specimen/material_states")
    for at, part in enumerate(record.get("parts") or ()):
        yield from work.part(part, pointer("parts", at))
    for name in ("measurements", "evidence", "waivers", "remarks"):
        yield from work.inner(name, record.get(name), pointer(name))
    yield from work.inner("conclusion_basis", stated.get("conclusion_basis"), "/stated/conclusion_basis")
    for single, lists in SINGLE.items():
        if node := record.get(single):
            yield Row(sheets()[single], (work.id,), work.values(sheets()[single], node, pointer(single)))
            for name in lists:
                yield from work.inner(name, node.get(name), pointer(single, name))


class _Work:
    def __init__(self, record_id: str, carried: Carried) -> None:
        self.id = record_id
        self.carried = carried

    def part(self, part: Mapping[str, Any], path: str) -> Iterator[Row]:
        part_id = str(part["id"])
        self.carried |= {f"{path}/id": "coded", f"{path}/type": "coded"}
        sheet = part_sheet(str(part["type"]))
        yield Row(sheet, (self.id, part_id), self.values(sheet, part, path))
        yield from self.inner("observed", part.get("observed"), f"{path}/observed", part_id)
        sheet = sheets()["commitments"]
        for name in COMMITMENTS:
            for at, node in enumerate(part.get(name) or ()):
                yield Row(sheet, (self.id, part_id, name), self.values(sheet, node, f"{path}/{name}/{at}"))

    def inner(self, name: str, nodes: Any, path: str, *keys: str) -> Iterator[Row]:
        sheet = sheets()[name]
        for at, node in enumerate(nodes or ()):
            yield Row(sheet, (self.id, *keys), self.values(sheet, node, f"{path}/{at}"))
            for number, shown in enumerate(node.get("shows") or ()):
                inner = sheets()["shows"]
                where = f"{path}/{at}/shows/{number}"
                yield Row(inner, (self.id, str(node["id"])), self.values(inner, shown, where))

    def values(self, sheet: Sheet, node: Mapping[str, Any], path: str) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for column in sheet.columns:
            value: Any = node
            for key in column.path:
                value = value.get(key) if isinstance(value, Mapping) else None
            if value is None or value == []:
                continue
            found[column.name] = value
            where = path + pointer(*column.path)
            whole = column.slot.kind == "enum" or fits(value)
            single = enumerate(value) if isinstance(value, list) else [("", value)]
            for at, one in single:
                if str(one).strip():
                    self.carried[f"{where}/{at}".rstrip("/")] = "coded" if whole else "text"
        return found
