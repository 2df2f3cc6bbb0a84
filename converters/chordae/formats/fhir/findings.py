"""From an observation of a FHIR bundle to a finding, a conclusion or a measurement of a record, if it is one.

::

    code [pectinate_muscles_to_crux, pectinate_extent]  valueBoolean true    part  pectinate_extent: to_crux
    code [moderator_band]   dataAbsentReason [not_examined]                  part  moderator_band: not_examined
    status entered-in-error, or a modifierExtension                          nothing: withdrawn, or means something else

Each function says whether it could; where it could not, nothing was changed and the caller keeps the words.
Source: HL7 FHIR R4 (4.0.1): observation-status; section 2.4.0.1, where a modifierExtension that is not understood
forbids to process the resource.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.formats.fhir.bundle_index import BundleIndex
from chordae.formats.fhir.elements import extensions, named, note, own_code, term_code, value_of, word
from chordae.formats.fhir.pieces import Resource
from chordae.formats.json_input import listed, mapped
from chordae.model import class_slots, tables
from chordae.record import Record

__all__ = ["conclude", "measure", "observe", "withdrawn"]

_STATED = class_slots("StatedConclusions")
_WITHDRAWN = ("entered-in-error", "cancelled")


def withdrawn(one: Mapping[str, Any]) -> bool:
    """Say whether a resource may not be read as it stands: taken back by its author, or changed by what is not known.

    Examples
    --------
    >>> withdrawn({"status": "final"}), withdrawn({"status": "entered-in-error"}), withdrawn({"active": False})
    (False, True, True)
    """
    changed = any(bool(each.get("modifierExtension")) for each in (one, *listed(one.get("component"))))
    return changed or one.get("status") in _WITHDRAWN or one.get("active") is False


def observe(one: Resource, parts: Mapping[str, Record], index: BundleIndex) -> bool:
    """Put a finding into the part that it speaks of; say whether that could be done."""
    name = own_code(one.get("code")) or ""
    part = parts.get(index.target(one.get("focus")) or "")
    slot = tables().slots.get(name)
    more = extensions(one)
    more.pop("sequence", None)
    observed_only = more.pop("observed_only", False) is True
    # What is only noted of a feature may bear a name that the schema does not know.
    if part is None or not name or name in ("id", "type", "observed") or (slot is None and not observed_only):
        return False
    if slot is not None and slot.kind == "node" and not observed_only:
        row: Record = {}
        for inner in listed(one.get("component")):
            if (inner_slot := tables().slots.get(own_code(inner.get("code")) or "")) is not None:
                row[inner_slot.name] = value_of(inner_slot, inner)
        row = {key: value for key, value in row.items() if value is not None} | note(one)
        if row:
            part.setdefault(name, []).append(row)
        return bool(row)
    value = None if observed_only or slot is None else value_of(slot, one)
    reason = more.pop("state_reason", None) if name == "state" else None
    entry: Record = {"feature": name} | more | note(one)
    if refs := [_document_id(index, ref) for ref in listed(one.get("derivedFrom"))]:
        entry["evidence_refs"] = refs
    if value is not None and slot is not None and slot.multivalued:
        part.setdefault(name, []).append(value)
    elif value is not None and part.setdefault(name, value) != value:
        return False  # an earlier observation says something else
    if value is None and not observed_only:
        return False
    if reason is not None:
        part["state_reason"] = reason
    if len(entry) > 1 or observed_only:
        part.setdefault("observed", []).append(entry)
    return True


def conclude(one: Resource, stated: Record) -> bool:
    """Put a conclusion among the stated ones; say whether that could be done."""
    name = own_code(one.get("code")) or ""
    if name not in _STATED:
        return False
    slot = tables().slots[name]
    if slot.kind == "node":
        value: Any = extensions(one).get(name)
        value = value[0] if isinstance(value, list) else value
    elif one.get("valueBoolean") is False:
        return False
    else:
        value = term_code(one.get("code")) if slot.kind == "term" else value_of(slot, one)
    if value is None:
        return False
    if slot.multivalued:
        stated.setdefault(name, []).append(value)
        return True
    return bool(stated.setdefault(name, value) == value)


def measure(one: Resource, record: Record, parts: Mapping[str, Record], index: BundleIndex) -> bool:
    """Put a measurement into the record; say whether that could be done."""
    found = extensions(one)
    measured = mapped(one.get("valueQuantity"))
    quantity = word("quantity", one.get("code"))
    if quantity is None or "value" not in measured:
        return False
    found |= {"quantity": quantity, "value": measured["value"]}
    if "code" in measured:
        found["unit"] = measured["code"]
    part = parts.get(index.target(one.get("focus")) or "")
    record.setdefault("measurements", []).append(found | ({"part": part["id"]} if part else {}) | note(one))
    return True


def _document_id(index: BundleIndex, reference: Any) -> str:
    url = index.target(reference)
    return named(index.at.get(url or "", {}), "id") or str(url)
