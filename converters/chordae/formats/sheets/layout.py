"""The tables that a record is laid out in, made from the schema: one for each class of part, one for each inner list.

::

    records             id, vocabulary_version, collection, specimen_accession, ..., stated_topology, ...
    atrium              record, part, state, state_reason, side, note, appendage_shape, ...
    observed            record, part, feature, state, certainty, ...
    commitments         record, part, property, ventricle, per_cent, note      (opens_into and arises_from)
    evidence, shows, measurements, material_states, conclusion_basis, waivers, remarks
    derived, identities, derived_diagnoses, undetermined                       (what the toolkit says, apart)
    reconciliation, origins, open_questions                                    (how it was made of two others)

The first columns are keys: they say which record, and which part of it, a row belongs to.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from chordae.model import Slot, class_slots, tables

__all__ = ["COMMITMENTS", "SINGLE", "Column", "Sheet", "part_sheet", "sheets"]

COMMITMENTS = ("opens_into", "arises_from")
"""Slots of parts whose rows stand in one table together."""
_NODES = ("specimen", "description", "stated")
_INNER: Mapping[str, tuple[str, ...]] = {
    "material_states": ("record",),
    "conclusion_basis": ("record",),
    "measurements": ("record",),
    "evidence": ("record",),
    "shows": ("record", "evidence"),
    "waivers": ("record",),
    "remarks": ("record",),
}
SINGLE: Mapping[str, tuple[str, ...]] = {
    "derived": ("identities", "derived_diagnoses", "undetermined"),
    "reconciliation": ("origins", "open_questions"),
}
"""Nodes that a record has once, with a table of their own and one for each of their lists; the toolkit makes them."""
_MADE = frozenset(one for node, lists in SINGLE.items() for one in (node, *lists))


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its name, and the slot that its cells hold; ``path`` leads from the node of the row to the value."""

    name: str
    slot: Slot
    path: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One table.

    ``keys`` are the columns that say what a row belongs to, ``columns`` the others; ``class_name`` is the class whose
    nodes the rows are. ``made`` tables hold what the toolkit says, and are never filled in by hand.
    """

    name: str
    title: str
    class_name: str
    keys: tuple[str, ...]
    columns: tuple[Column, ...]

    @property
    def made(self) -> bool:
        """Whether the toolkit makes the rows: they are derived, or say how descriptions were reconciled."""
        return self.name in _MADE

    @property
    def single(self) -> bool:
        """Whether a record has one row at most, for a node of its own."""
        return self.name in SINGLE

    @property
    def is_part(self) -> bool:
        """Whether each row is a part."""
        return self.keys == ("record", "part") and self.name != "observed"

    @property
    def headings(self) -> tuple[str, ...]:
        """Names of all columns."""
        return (*self.keys, *(one.name for one in self.columns))


@cache
def sheets() -> Mapping[str, Sheet]:
    """Return every table by its name, in the order of a description."""
    return {one.name: one for one in _sheets()}


def part_sheet(class_name: str) -> Sheet:
    """Return the table of a class of parts.

    Raises
    ------
    KeyError
        There is no such class.
    """
    return sheets()[_snake(class_name)]


def _sheets() -> Iterator[Sheet]:
    own = [_column(name, ()) for name in class_slots("Record") if _plain(name)]
    own += [
        _column(name, (node,))
        for node in _NODES
        for name in class_slots(tables().slots[node].range or "")
        if _plain(name)
    ]
    yield Sheet("records", "Records", "Record", ("id",), tuple(own))
    for name in _part_classes():
        columns = tuple(_column(slot, ()) for slot in class_slots(name) if _plain(slot))
        yield Sheet(_snake(name), _words(name), name, ("record", "part"), columns)
    yield _inner("observed", ("record", "part"))
    slots = tuple(_column(one, ()) for one in class_slots("Commitment"))
    yield Sheet("commitments", "Commitments", "Commitment", ("record", "part", "property"), slots)
    for name, keys in _INNER.items():
        yield _inner(name, keys)
    for node, lists in SINGLE.items():
        class_name = tables().slots[node].range or ""
        flat = tuple(_column(slot, ()) for slot in class_slots(class_name) if _plain(slot))
        yield Sheet(node, _words(node), class_name, ("record",), flat)
        for name in lists:
            yield _inner(name, ("record",))


def _inner(name: str, keys: tuple[str, ...]) -> Sheet:
    class_name = tables().slots[name].range or ""
    columns = (_column(slot, ()) for slot in class_slots(class_name) if tables().slots[slot].kind != "node")
    return Sheet(name, _words(name), class_name, keys, tuple(columns))


def _column(name: str, node: tuple[str, ...]) -> Column:
    return Column("_".join((*node, name)), tables().slots[name], (*node, name))


def _plain(name: str) -> bool:
    return tables().slots[name].kind not in ("node", "identifier", "type")


def _part_classes() -> list[str]:
    """Classes of parts in the order of sequential segmental analysis; those without a conventional part last."""
    order = [one.type for one in tables().parts.values()]
    every = [name for name, one in tables().classes.items() if "Part" in one.ancestors and not one.abstract]
    return sorted(every, key=lambda name: (order.index(name) if name in order else len(order), name))


def _snake(class_name: str) -> str:
    return re.sub(r"(?<!^)(?=[A-Z])", "_", class_name).lower()


def _words(name: str) -> str:
    words = _snake(name).replace("_", " ")
    return words[:1].upper() + words[1:]
