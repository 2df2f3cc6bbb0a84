"""From a record to a FHIR R4 bundle of type collection.

::

    Record                  Basic            what describes the description; observer and time in Provenance
    Specimen                Specimen         catalogue number, material, fixation
    Part                    BodyStructure    one a part
    Feature                 Observation      one a finding (see observations)
    Measurement             Observation      with quantity and UCUM unit
    Evidence                DocumentReference
    stated, derived         Observation      apart by category; derived ones never stand among the observed

FHIR R4 asks for a patient on every BodyStructure. A specimen has no patient: the bundle holds one inactive Patient
without a name that says so. Source: HL7 FHIR R4 (4.0.1).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.formats.fhir.conclusions import concluded, measurements, stated
from chordae.formats.fhir.observations import Scene, observations_of_part
from chordae.formats.fhir.pieces import (
    MODEL,
    Resource,
    concept,
    extension,
    identity,
    node_extension,
    places,
    reference,
    term_coding,
    value_coding,
)
from chordae.formats.losses import Carried
from chordae.formats.settings import CAUTION
from chordae.model import tables
from chordae.record import Record, pointer, say
from chordae.resources import VERSION

__all__ = ["to_bundle"]

_STAND_IN = "Stand-in for the unnamed donor of a specimen, because R4 asks for one. There is no patient."
_RECORD_KEYS = ("vocabulary_version", "collection")


def to_bundle(
    record: Record, base: str, recorded: str, derived: Mapping[str, Any] | None = None
) -> tuple[Resource, Carried]:
    """Write one record as a bundle.

    Parameters
    ----------
    record
        A record without structural faults.
    base
        IRI under which the collection mints its records.
    recorded
        Instant of the export, as FHIR wants it in Provenance (``2026-01-31T12:00:00Z``).
    derived
        What ``derive`` says of the record; its conclusions become observations of category *derived*.

    Returns
    -------
    dict, dict
        The bundle, and which statements it carries.
    """
    iri = f"{base}{record['id']}"
    carried: Carried = {"/id": "coded"}
    description = record.get("description") or {}
    common: Resource = {"specimen": reference(f"{iri}/specimen"), "subject": reference(f"{iri}/donor")}
    if "described_on" in description:
        common["effectiveDateTime"] = description["described_on"]
    if "observer" in description:
        common["performer"] = [{"display": description["observer"]}]
    scene = Scene(iri, carried, common)
    entries = [
        (f"{iri}/donor", {"resourceType": "Patient", "active": False, "text": _narrative(_STAND_IN)}),
        (f"{iri}/specimen", _specimen(record, iri, carried)),
        (iri, _basic(record, iri, carried)),
    ]
    for at, part in enumerate(record.get("parts") or ()):
        path = pointer("parts", at)
        entries.append((f"{iri}/part/{part['id']}", _structure(part, path, iri, carried)))
        entries += [(_iri(one), one) for one in observations_of_part(part, path, scene)]
    entries += [(_iri(one), one) for one in measurements(record, scene)]
    entries += [
        (f"{iri}/evidence/{one['id']}", _document(one, at, iri, carried))
        for at, one in enumerate(record.get("evidence") or ())
    ]
    entries += [(_iri(one), one) for one in stated(record, scene)]
    entries += [(_iri(one), one) for one in concluded(derived or {}, scene)]
    entries.append((f"{iri}/provenance", _provenance([iri for iri, _ in entries[1:]], recorded, description)))
    return {
        "resourceType": "Bundle",
        "id": identity(f"{iri}/bundle"),
        "type": "collection",
        "entry": [
            {
                "fullUrl": f"urn:uuid:{identity(one)}",
                "resource": {"resourceType": body["resourceType"], "id": identity(one)} | body,
            }
            for one, body in entries
        ],
    }, carried


def _iri(resource: Resource) -> str:
    return str(resource["identifier"][0]["value"])


def _narrative(text: str) -> Resource:
    return {"status": "generated", "div": f'<div xmlns="http://www.w3.org/1999/xhtml">{text}</div>'}


def _basic(record: Record, iri: str, carried: Carried) -> Resource:
    more = [extension(key, record[key]) for key in _RECORD_KEYS if key in record]
    carried |= {pointer(key): "coded" for key in _RECORD_KEYS if key in record}
    for key in ("description", "reconciliation", "remarks", "waivers"):
        value = record.get(key)
        for at, node in enumerate(value if isinstance(value, list) else [value] if value else []):
            more.append(node_extension(key, node))
            where = pointer(key, at) if isinstance(value, list) else pointer(key)
            carried |= dict.fromkeys(places(node, where), "coded")
    return {
        "resourceType": "Basic",
        "text": _narrative(CAUTION),
        "identifier": [{"system": "urn:ietf:rfc:3986", "value": iri}, {"system": f"{MODEL}id", "value": record["id"]}],
        "code": concept([{"system": MODEL, "code": "Record"}], "Description of a heart"),
        "subject": reference(f"{iri}/specimen"),
        "extension": more,
    }


def _specimen(record: Record, iri: str, carried: Carried) -> Resource:
    specimen: Mapping[str, Any] = record.get("specimen") or {}
    made: Resource = {"resourceType": "Specimen", "subject": reference(f"{iri}/donor"), "status": "available"}
    more: list[Resource] = []
    carried |= dict.fromkeys(places(specimen, "/specimen"), "coded")
    for key, value in specimen.items():
        if key == "accession":
            made["accessionIdentifier"] = {"value": value}
        elif key == "material":
            made["type"] = concept([value_coding("material", value)])
        elif key == "fixation":
            made["processing"] = [{"procedure": concept([value_coding("fixation", value)])}]
        elif key == "note":
            made["note"] = [{"text": value}]
        elif key == "other_numbers":
            made["identifier"] = [{"value": one} for one in value]
        else:
            for one in value if isinstance(value, list) else [value]:
                more.append(node_extension(key, one) if isinstance(one, Mapping) else extension(key, one))
    return made | ({"extension": more} if more else {})


def _structure(part: Mapping[str, Any], path: str, iri: str, carried: Carried) -> Resource:
    kind = tables().classes[part["type"]]
    codings = [{"system": MODEL, "code": part["type"]}, *(term_coding(slug) for slug in kind.related)]
    made: Resource = {
        "resourceType": "BodyStructure",
        "identifier": [{"system": f"{MODEL}id", "value": part["id"]}],
        "active": True,
        "location": concept(codings, say(part)),
        "patient": reference(f"{iri}/donor"),
    }
    carried |= {path + pointer(key): "coded" for key in ("id", "type")}
    if "side" in part:
        made["locationQualifier"] = [concept([value_coding("side", part["side"])])]
        carried[f"{path}/side"] = "coded"
    if "note" in part:
        made["description"] = part["note"]
        carried[f"{path}/note"] = "coded"
    return made


def _document(one: Mapping[str, Any], at: int, iri: str, carried: Carried) -> Resource:
    carried |= dict.fromkeys(places(one, pointer("evidence", at)), "coded")
    more = [
        node_extension(key, value) if isinstance(value, Mapping) else extension(key, value)
        for key in one
        if key not in ("source_file", "evidence_kind", "note")
        for value in (one[key] if isinstance(one[key], list) else [one[key]])
    ]
    made: Resource = {
        "resourceType": "DocumentReference",
        "status": "current",
        "subject": reference(f"{iri}/donor"),
        "identifier": [{"system": f"{MODEL}id", "value": one["id"]}],
        "content": [{"attachment": {"url": one["source_file"]}}],
        "extension": more,
    }
    if "evidence_kind" in one:
        made["type"] = concept([value_coding("evidence_kind", one["evidence_kind"])])
    if "note" in one:
        made["description"] = one["note"]
    shown = [reference(f"{iri}/part/{target['part']}") for target in one.get("shows") or ()]
    return made | ({"context": {"related": shown}} if shown else {})


def _provenance(targets: list[str], recorded: str, description: Mapping[str, Any]) -> Resource:
    agents = [{"type": concept([], "observer"), "who": {"display": str(description.get("observer") or "not recorded")}}]
    agents.append({"type": concept([], "software"), "who": {"display": f"chordae {VERSION}"}})
    for agent in agents:
        agent["type"].pop("coding")
    return {
        "resourceType": "Provenance",
        "target": [reference(one) for one in targets],
        "recorded": recorded,
        "agent": agents,
    }
