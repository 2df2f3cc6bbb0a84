"""Bring the state of a feature to the feature: what stands under ``observed``, or with the material, fills its slot.

::

    {"id": "tricuspid_valve", "type": "AtrioventricularValve",
     "observed": [{"feature": "septal_chordal_attachment", "state": "absent"}]}
                       becomes  "septal_chordal_attachment": "absent", beside the entry, which stays

    specimen.material_states: [{"structure": "tricuspid_valve.septal_leaflet", "state": "not_assessable"}]
                       becomes  "septal_leaflet": "not_assessable" of that part, if nothing is recorded of it

A state may be written in two places; rules, graphs and tables then find it in one. Only a slot that is empty is
filled, and only with a word that the slot knows: nothing recorded is changed, and nothing is inferred.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from chordae.issues import Location
from chordae.model import class_slots, tables
from chordae.record import Reading, pointer

__all__ = ["fill_states"]


def fill_states(reading: Reading) -> Reading:
    """Return the reading with every state in the slot of its feature; the same reading if there is nothing to do.

    The record may be of any shape; what is not shaped like a part is passed over.

    Examples
    --------
    >>> said = [{"feature": "cleft", "state": "absent"}, {"feature": "stenosis", "state": "not_examined"}]
    >>> valve = {"id": "v", "type": "AtrioventricularValve", "cleft": "present", "observed": said}
    >>> filled = fill_states(Reading({"id": "7", "parts": [valve]})).record["parts"][0]
    >>> filled["cleft"], filled["stenosis"]
    ('present', 'not_examined')
    """
    record = reading.record
    parts = record.get("parts")
    if not isinstance(parts, list):
        return reading
    material = _material(record)
    filled: dict[int, dict[str, Any]] = {}
    taken: dict[str, str] = {}
    for number, part in enumerate(parts):
        if not isinstance(part, Mapping) or not isinstance(part.get("type"), str):
            continue
        for feature, state, path in (*_observed(part, number), *material.get(str(part.get("id")), ())):
            now = filled.get(number, part)
            if now.get(feature) in (None, []) and _fits(now["type"], feature, state):
                several = tables().slots[feature].multivalued
                filled[number] = {**now, feature: [state] if several else state}
                taken[f"/parts/{number}{pointer(feature)}"] = path
    if not filled:
        return reading
    whole = {**record, "parts": [filled.get(number, part) for number, part in enumerate(parts)]}
    return Reading(whole, _Places(reading, taken))


class _Places(Mapping[str, Location]):
    """The places of a reading, and of slots that were filled from elsewhere; looked up only when one is asked for."""

    def __init__(self, reading: Reading, taken: Mapping[str, str]) -> None:
        self._reading = reading
        self._taken = taken

    def __getitem__(self, key: str) -> Location:
        path = self._taken.get(key)
        return self._reading.places[key] if path is None else self._reading.place(path)

    def __iter__(self) -> Iterator[str]:
        yield from self._reading.places
        yield from (key for key in self._taken if key not in self._reading.places)

    def __len__(self) -> int:
        return sum(1 for _ in self)


def _observed(part: Mapping[str, Any], number: int) -> Iterator[tuple[str, str, str]]:
    entries = part.get("observed")
    for place, entry in enumerate(entries if isinstance(entries, list) else ()):
        if isinstance(entry, Mapping):
            feature, state = entry.get("feature"), entry.get("state")
            if isinstance(feature, str) and isinstance(state, str):
                yield feature, state, f"/parts/{number}/observed/{place}/state"


def _material(record: Mapping[str, Any]) -> dict[str, list[tuple[str, str, str]]]:
    """Id of a part -> the features that the material of the specimen speaks of, as ``part.feature``."""
    specimen = record.get("specimen")
    states = specimen.get("material_states") if isinstance(specimen, Mapping) else None
    found: dict[str, list[tuple[str, str, str]]] = {}
    for number, entry in enumerate(states if isinstance(states, list) else ()):
        if not isinstance(entry, Mapping) or not isinstance(entry.get("structure"), str):
            continue
        part, dot, feature = entry["structure"].rpartition(".")
        if dot and isinstance(state := entry.get("state"), str):
            found.setdefault(part, []).append((feature, state, f"/specimen/material_states/{number}/state"))
    return found


def _fits(type_name: str, feature: str, state: str) -> bool:
    if feature in ("state", "id", "type") or feature not in class_slots(type_name):
        return False
    slot = tables().slots[feature]
    return slot.kind == "enum" and state in slot.values
