"""Say quickly that all ids, references and states of a record fit; most records do.

The answer is yes or no. What is wrong, where, and what to do, is told by :mod:`chordae.references`, which is asked
only when the answer is no.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Any

from chordae.model import Slot, class_slots, conventional, is_a, tables
from chordae.record import state_of

__all__ = ["NO_FEATURE", "RESERVED", "all_well", "conventional_type", "followed"]

RESERVED = frozenset({"record", "specimen", "description", "stated", "derived", "ignore"})
"""Ids no part may have: a crosswalk uses these words for other places of the record."""

NO_FEATURE = frozenset({"id", "type", "state", "state_reason", "observed", "note"})
"""Slots of a part that are no features of it."""

_OTHERS = ("measurements", "waivers", "stated", "derived")


def all_well(record: Mapping[str, Any]) -> bool:
    """Say whether every id stands once, every reference leads somewhere fitting, and no state contradicts a value.

    A record that has not the shape of the schema gives ``False``, so that it is looked at closely.

    Examples
    --------
    >>> all_well({"id": "7", "parts": [{"id": "a", "type": "AtrioventricularValve", "junction": "b"}]})
    False
    """
    try:
        return _all_well(record)
    except (AttributeError, KeyError, TypeError):
        return False


def _all_well(record: Mapping[str, Any]) -> bool:
    parts = record.get("parts") or ()
    types = {part["id"]: part["type"] for part in parts}
    evidence = record.get("evidence") or ()
    shown = {one["id"] for one in evidence}
    measured = record.get("measurements") or ()
    if len(types) != len(parts) or len(shown) != len(evidence) or len({one["id"] for one in measured}) != len(measured):
        return False
    for part_id, type_name in types.items():
        kind = conventional_type(part_id)
        if (kind is not None and kind != type_name) or part_id in RESERVED:
            return False
    known = (types, shown)
    for part in parts:
        if not _node(part, part["type"], known):
            return False
        observed = part.get("observed")
        if observed and not _observed(part, observed):
            return False
    slots = tables().slots
    return all(_node(one, "Evidence", known) for one in evidence) and all(
        _node(one, slots[name].range or "", known)
        for name in _OTHERS
        if name in record
        for one in _listed(record[name])
    )


def _listed(value: Any) -> Any:
    return value if isinstance(value, list) else (value,)


def _node(node: Mapping[str, Any], class_name: str, known: tuple[Mapping[str, str], set[str]]) -> bool:
    for name, one, fitting, evidence in _steps(class_name):
        value = node.get(name)
        if value is None:
            continue
        if one is not None:
            if not all(_node(inner, one, known) for inner in _listed(value)):
                return False
        elif evidence:
            if not all(inner in known[1] for inner in _listed(value)):
                return False
        elif known[0].get(value) not in fitting:
            return False
    return True


def _observed(part: Mapping[str, Any], observed: list[Mapping[str, Any]]) -> bool:
    features = [entry["feature"] for entry in observed]
    known = class_slots(part["type"])
    if len(set(features)) != len(features):
        return False
    for entry, feature in zip(observed, features, strict=True):
        if feature in NO_FEATURE or feature not in known:
            return False
        said, value = entry.get("state"), part.get(feature)
        if said is not None and value is not None and state_of(feature, value) != said:
            return False
    return True


@cache
def followed(class_name: str) -> tuple[Slot, ...]:
    """Return the slots of a class that refer to something, or lead to a node that does."""
    slots = (tables().slots[name] for name in class_slots(class_name))
    return tuple(
        slot for slot in slots if slot.kind == "reference" or (slot.kind == "node" and followed(slot.range or ""))
    )


@lru_cache(maxsize=4096)
def conventional_type(part_id: str) -> str | None:
    """Return the class of a conventional part id."""
    found = conventional(part_id)
    return found.type if found else None


@cache
def _steps(class_name: str) -> tuple[tuple[str, str | None, frozenset[str], bool], ...]:
    """(slot, class of the inner node or ``None``, classes that a reference may lead to, whether to evidence)."""
    return tuple(
        (
            slot.name,
            slot.range if slot.kind == "node" else None,
            frozenset(name for name in tables().classes if is_a(name, slot.range or "")),
            slot.range == "Evidence",
        )
        for slot in followed(class_name)
    )
