"""One order for a record, whatever order it was written in: the same description is the same text.

Keys stand in the order of the schema. Parts stand in the order of sequential segmental analysis
(``schema/parts.yaml``), then by id. Lists without an order of their own are sorted and hold a value once; the
order of arch branches, commitments, remarks and waivers is kept. Keys without a value, and empty lists and
mappings, are left out: they say nothing. Keys that the schema does not know are kept, last.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from chordae.model import Slot, class_slots, conventional, tables
from chordae.record import Record

__all__ = ["canonical"]


def canonical(record: Mapping[str, Any]) -> Record:
    """Return the record in its one order, as a new mapping.

    Examples
    --------
    >>> canonical({"stated": {}, "parts": [{"type": "Ventricle", "id": "right_sided_ventricle"},
    ...     {"apex": None, "type": "HeartPosition", "id": "heart_position"}], "id": "7"})
    {'id': '7', 'parts': [{'id': 'heart_position', 'type': 'HeartPosition'}, \
{'id': 'right_sided_ventricle', 'type': 'Ventricle'}]}
    """
    return _node(record, "Record")


def _node(node: Mapping[str, Any], class_name: str) -> dict[str, Any]:
    known = class_slots(class_name)
    slots = tables().slots
    ordered: dict[str, Any] = {}
    for name in known:
        if (value := node.get(name)) is not None:
            found = _value(value, slots[name])
            if found != [] and found != {}:
                ordered[name] = found
    for name in sorted(set(node) - set(known), key=str):
        if node[name] is not None:
            ordered[name] = node[name]
    return ordered


def _value(value: Any, slot: Slot) -> Any:
    if not slot.multivalued or not isinstance(value, list):
        return _one(value, slot)
    values = [one for one in (_one(one, slot) for one in value) if one is not None and one != {} and one != []]
    if slot.ordered:
        return values
    values.sort(key=lambda one: _rank(one, slot))
    return [one for number, one in enumerate(values) if number == 0 or one != values[number - 1]]


def _one(value: Any, slot: Slot) -> Any:
    if slot.kind == "node" and isinstance(value, Mapping) and slot.range is not None:
        type_name = value.get("type") if slot.range == "Part" else slot.range
        return _node(value, type_name if isinstance(type_name, str) else "Part")
    return value


def _rank(value: Any, slot: Slot) -> tuple[Any, ...]:
    if slot.kind == "enum":
        words = list(slot.values)
        return (words.index(value) if value in words else len(words), str(value))
    if slot.range == "Part" and slot.kind == "node" and not isinstance(value, Mapping):
        return (math.inf, 0, str(value))
    if slot.kind != "node" or not isinstance(value, Mapping):
        return (str(value),)
    if slot.range == "Part":
        return _part_rank(str(value.get("type")), str(value.get("id")))
    return (str(value.get(slot.key or "")), repr(value))


@lru_cache(maxsize=4096)
def _part_rank(type_name: str, part_id: str) -> tuple[Any, ...]:
    names = list(tables().parts)
    found = conventional(part_id)
    if found is not None:
        number = re.search(r"_(\d+)$", part_id) if found.id != part_id else None
        return (names.index(found.id), int(number[1]) if number else 1, part_id)
    same = [number for number, one in enumerate(tables().parts.values()) if one.type == type_name]
    return (same[-1] + 0.5 if same else len(names), 0, part_id)
