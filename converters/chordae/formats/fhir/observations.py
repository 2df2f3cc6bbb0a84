"""From the features of a part to FHIR observations: one yes/no observation a finding.

::

    apical_trabeculation: coarse          code [coarse_apical_trabeculations, apical_trabeculation]  valueBoolean true
    septomarginal_trabeculation: absent   code [septomarginal_trabeculation]                         valueBoolean false
    moderator_band: not_assessable        code [moderator_band]   dataAbsentReason [not_assessable, unknown]
    leaflet_count: 3                      code [leaflet_count]                                       valueInteger 3

A finding that was not there is always ``false`` of the thing itself, so that nobody who reads the value alone can take
*absent* for *present*. What could not be judged has no value at all.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from chordae.formats.fhir.pieces import (
    ABSENT_REASON,
    MODEL,
    STATE_SYSTEM,
    Resource,
    concept,
    extension,
    feature,
    identity,
    quantity,
    reference,
    term_coding,
    value_coding,
)
from chordae.formats.losses import Carried
from chordae.model import Slot, tables
from chordae.record import pointer, say

__all__ = ["NEGATIVE", "Scene", "absent_value", "observations_of_part"]

NEGATIVE = ("absent", "none")
"""Words of an enum that say the thing of the slot was looked for and not found."""

_OWN = ("id", "type", "side", "note", "observed")
_NESTED = ("opens_into", "arises_from")


class Scene:
    """What all observations of one record share: where they belong and who made them."""

    def __init__(self, iri: str, carried: Carried, common: Mapping[str, Any]) -> None:
        self.iri, self.carried, self._common = iri, carried, common

    def observation(self, iri: str, code: Resource, category: str, focus: str | None) -> Resource:
        """Start an observation named by an IRI."""
        made: Resource = {
            "resourceType": "Observation",
            "id": identity(iri),
            "identifier": [{"system": "urn:ietf:rfc:3986", "value": iri}],
            "status": "final",
            "category": [concept([{"system": f"{MODEL}category", "code": category}])],
            "code": code,
            **self._common,
        }
        if focus:
            made["focus"] = [reference(focus)]
        return made


def observations_of_part(part: Mapping[str, Any], path: str, scene: Scene) -> Iterator[Resource]:
    """Yield the observations of one part.

    Parameters
    ----------
    part
        A part of a record.
    path
        Its JSON pointer.
    scene
        The record it stands in; what is carried is marked there.
    """
    iri = f"{scene.iri}/part/{part['id']}"
    noted = {entry["feature"]: at for at, entry in enumerate(part.get("observed") or ())}
    for name, value in part.items():
        if name in _OWN or name == "state_reason":
            continue
        if name in _NESTED:
            yield from _commitments(name, value, path, iri, part, scene)
            continue
        several = isinstance(value, list)
        for at, one in enumerate(value if several else [value]):
            own = f"{iri}/feature/{name}" + (f"/{at + 1}" if several else "")
            made = scene.observation(own, _code(part, name, one), "observed", iri)
            made |= _value(tables().slots[name], one)
            if several:
                made.setdefault("extension", []).append({"url": f"{MODEL}sequence", "valueInteger": at + 1})
            if name == "state" and part.get("state_reason"):
                made.setdefault("extension", []).append(extension("state_reason", part["state_reason"]))
                scene.carried[path + pointer("state_reason")] = "coded"
            scene.carried[path + (pointer(name, at) if several else pointer(name))] = "coded"
            if name in noted:
                _annotate(made, part, path, noted.pop(name), scene)
            yield made
    for name, at in sorted(noted.items()):
        entry = part["observed"][at]
        made = scene.observation(f"{iri}/feature/{name}", _code(part, name, None), "observed", iri)
        made |= _value(None, entry.get("state") or "not_recorded")
        made["extension"] = [{"url": f"{MODEL}observed_only", "valueBoolean": True}]
        _annotate(made, part, path, at, scene)
        yield made


def absent_value(word: str) -> Resource:
    """Reason why an observation has no value: our own word and the standard code nearest to it."""
    codings = [term_coding(word)]
    if word in STATE_SYSTEM:
        codings.append({"system": ABSENT_REASON, "code": STATE_SYSTEM[word]})
    return {"dataAbsentReason": concept(codings, word.replace("_", " "))}


def _value(slot: Slot | None, value: Any) -> Resource:
    if value in STATE_SYSTEM:
        return absent_value(value)
    if value == "not_recorded":
        return {"dataAbsentReason": concept([{"system": ABSENT_REASON, "code": "unknown"}], "no value was recorded")}
    if value == "present" or (slot is not None and slot.kind == "enum"):
        return {"valueBoolean": value not in NEGATIVE}
    if value == "absent":
        return {"valueBoolean": False}
    kind = slot.kind if slot else "text"
    if kind == "integer":
        return {"valueInteger": value}
    if kind == "decimal" and slot is not None:
        return {"valueQuantity": quantity(value, slot.unit)}
    return {"valueString": str(value)}


def _code(part: Mapping[str, Any], name: str, value: Any) -> Resource:
    slot = tables().slots.get(name)
    codings = [feature(name)]
    finding = (
        slot is not None
        and slot.kind == "enum"
        and value in slot.values
        and value not in ("present", *NEGATIVE, *STATE_SYSTEM)
    )
    if finding:
        codings.insert(0, value_coding(name, value))
    return concept(codings, f"{say(part)}: {codings[0]['display']}")


def _annotate(made: Resource, part: Mapping[str, Any], path: str, at: int, scene: Scene) -> None:
    entry, where = part["observed"][at], f"{path}/observed/{at}"
    for key, value in entry.items():
        if key == "evidence_refs":
            made["derivedFrom"] = [reference(f"{scene.iri}/evidence/{one}") for one in value]
            scene.carried |= {f"{where}/evidence_refs/{n}": "coded" for n in range(len(value))}
        elif key == "note":
            made["note"] = [{"text": value}]
            scene.carried[f"{where}/note"] = "coded"
        else:
            if key != "feature":
                made.setdefault("extension", []).append(extension(key, value))
            if key != "feature" or len(entry) > 1 or not _has_value(part, entry["feature"]):
                scene.carried[f"{where}/{key}"] = "coded"


def _has_value(part: Mapping[str, Any], name: str) -> bool:
    return part.get(name) not in (None, [])


def _commitments(
    name: str, rows: list[Mapping[str, Any]], path: str, iri: str, part: Mapping[str, Any], scene: Scene
) -> Iterator[Resource]:
    for at, row in enumerate(rows):
        made = scene.observation(f"{iri}/{name}/{at + 1}", _code(part, name, None), "observed", iri)
        made["extension"] = [{"url": f"{MODEL}sequence", "valueInteger": at + 1}]
        parts: list[Resource] = []
        for key, value in row.items():
            if key == "note":
                made["note"] = [{"text": value}]
            else:
                parts.append({"code": concept([feature(key)])} | _value(tables().slots[key], value))
            scene.carried[f"{path}/{name}/{at}/{key}"] = "coded"
        if parts:
            made["component"] = parts
        yield made
