"""Check what one place of a record says of another: ids, references, states. Issues with places come out.

::

    S-DUP    two parts (measurements, pieces of evidence) have one id      S-REF   nothing has the id referred to
    S-CONV   a conventional id stands for a part of another type           S-AIM   what has it is of another kind
    S-ID     an id that crosswalks use for something else                  S-FEAT  no such feature of the part
    S-STATE  a feature has a value, and another state under ``observed``

The record has passed the JSON Schema or not: values of a wrong kind are passed over here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from chordae.issues import Issue, issue, nearest
from chordae.model import Slot, class_slots, is_a, tables
from chordae.record import Reading, say, state_of
from chordae.soundrefs import NO_FEATURE, RESERVED, all_well, conventional_type, followed

__all__ = ["check_references"]

_LISTS = ("parts", "measurements", "evidence")


def check_references(reading: Reading) -> Iterator[Issue]:
    """Yield every fault between the places of one record."""
    record = reading.record
    if all_well(record):
        return
    ids = {name: _ids(record.get(name)) for name in _LISTS}
    look = _Look(reading, ids)
    for name in _LISTS:
        values = record.get(name)
        if not isinstance(values, list):
            continue
        if len(ids[name]) != len(values):
            yield from look.repeated(name, values)
        for number, node in enumerate(values):
            if isinstance(node, Mapping):
                path = f"/{name}/{number}"
                if name == "parts":
                    yield from look.part(node, path)
                else:
                    yield from look.node(node, path, tables().slots[name].range or "", None)
    for name in ("derived", "waivers", "stated"):
        if name in record:
            yield from look.value(record[name], f"/{name}", tables().slots[name], None)


class _Look:
    """What is looked up while one record is gone through; ``ids`` maps a list of the record to id -> node."""

    def __init__(self, reading: Reading, ids: dict[str, dict[str, Mapping[str, Any]]]) -> None:
        self._reading = reading
        self._ids = ids

    def part(self, part: Mapping[str, Any], path: str) -> Iterator[Issue]:
        part_id, type_name = part.get("id"), part.get("type")
        if isinstance(part_id, str) and isinstance(type_name, str):
            kind = conventional_type(part_id)
            if kind is not None and kind != type_name and type_name in tables().classes:
                yield self._at(f"{path}/type", "S-CONV", part, value=part_id, expected=kind, found=type_name)
            elif part_id in RESERVED:
                yield self._at(f"{path}/id", "S-ID", part, value=part_id)
        yield from self.node(part, path, type_name if isinstance(type_name, str) else "", part)
        if observed := part.get("observed"):
            yield from self._observed(part, observed, path)

    def node(
        self, node: Mapping[str, Any], path: str, class_name: str, part: Mapping[str, Any] | None
    ) -> Iterator[Issue]:
        """Follow the references of a node, and those of the nodes inside it."""
        for slot in followed(class_name):
            if (value := node.get(slot.name)) is not None:
                yield from self.value(value, f"{path}/{slot.name}", slot, part)

    def value(self, value: Any, path: str, slot: Slot, part: Mapping[str, Any] | None) -> Iterator[Issue]:
        if isinstance(value, list):
            for number, one in enumerate(value):
                yield from self.value(one, f"{path}/{number}", slot, part)
        elif slot.kind == "node" and isinstance(value, Mapping):
            yield from self.node(value, path, slot.range or "", part)
        elif slot.kind == "reference" and isinstance(value, str):
            yield from self._reference(value, path, slot, part)

    def _reference(self, value: str, path: str, slot: Slot, part: Mapping[str, Any] | None) -> Iterator[Issue]:
        evidence = slot.range == "Evidence"
        known = self._ids["evidence" if evidence else "parts"]
        fields: dict[str, Any] = {"key": slot.name, "value": value}
        if value not in known:
            kind = "piece of evidence" if evidence else "part"
            yield self._at(path, "S-REF", part, kind=kind, nearest=nearest(value, known), **fields)
        elif not evidence and slot.range and not is_a(known[value].get("type"), slot.range):
            found, expected = say(known[value]), _words(slot.range)
            yield self._at(path, "S-AIM", part, found=found, expected=expected, **fields)

    def _observed(self, part: Mapping[str, Any], observed: Any, path: str) -> Iterator[Issue]:
        met: set[str] = set()
        features = class_slots(str(part.get("type")))
        for number, entry in enumerate(observed if isinstance(observed, list) else ()):
            feature = entry.get("feature") if isinstance(entry, Mapping) else None
            if not isinstance(feature, str) or not features:
                continue
            place = f"{path}/observed/{number}"
            if feature not in features or feature in NO_FEATURE:
                known = [one for one in features if one not in NO_FEATURE]
                near = nearest(feature, known)
                yield self._at(f"{place}/feature", "S-FEAT", part, value=feature, what=say(part), nearest=near)
            elif feature in met:
                yield self._at(f"{place}/feature", "S-TWICE", part, key="observed", value=feature)
            met.add(feature)
            said, value = entry.get("state"), part.get(feature)
            if said is not None and value is not None and (state := state_of(feature, value)) != said:
                fields: dict[str, Any] = {"key": feature, "value": value, "found": said, "expected": state}
                yield self._at(f"{place}/state", "S-STATE", part, **fields)

    def repeated(self, name: str, values: list[Any]) -> Iterator[Issue]:
        met: set[str] = set()
        for number, node in enumerate(values):
            value = node.get("id") if isinstance(node, Mapping) else None
            if isinstance(value, str) and value in met:
                kind = {"parts": "parts", "evidence": "pieces of evidence"}.get(name, name)
                yield self._at(
                    f"/{name}/{number}/id", "S-DUP", node if name == "parts" else None, value=value, kind=kind
                )
            elif isinstance(value, str):
                met.add(value)

    def _at(self, path: str, rule: str, part: Mapping[str, Any] | None, **fields: Any) -> Issue:
        record, part_id = self._reading.record.get("id"), part.get("id") if part else None
        return issue(
            rule,
            location=self._reading.place(path),
            record=None if record is None else str(record),
            part=None if part_id is None else str(part_id),
            path=path,
            **fields,
        )


def _ids(values: Any) -> dict[str, Mapping[str, Any]]:
    nodes = [one for one in values if isinstance(one, Mapping)] if isinstance(values, list) else []
    return {one["id"]: one for one in reversed(nodes) if isinstance(one.get("id"), str)}


def _words(class_name: str) -> str:
    return "".join(f" {one.lower()}" if one.isupper() else one for one in class_name).strip()
