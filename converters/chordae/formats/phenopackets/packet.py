"""From a record to a phenopacket, as JSON: what was found and what was looked for and not found, and no more.

::

    apical_trabeculation: coarse           type term:coarse_apical_trabeculations
    septomarginal_trabeculation: absent    type model:septomarginal_trabeculation, excluded
    moderator_band: not_assessable         nothing: neither found nor excluded
    leaflet_count: 3                       measurement of model:leaflet_count, 3
    stated.diagnoses                       type of the Human Phenotype Ontology where one is exactly that

Modifiers say which part, class and slot a feature belongs to, and how sure the observer was. What was not assessable or
not examined is never written, neither as a feature nor as an excluded one: the loss report names it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any
from urllib.parse import quote

from chordae.formats.fhir.observations import NEGATIVE
from chordae.formats.losses import Carried
from chordae.formats.phenopackets.pieces import (
    Piece,
    class_class,
    class_of_part,
    part_class,
    phenotype_of,
    resources,
    slot_class,
    term_class,
    word_class,
)
from chordae.model import Slot, tables
from chordae.rdf.emit import record_iri
from chordae.record import Record
from chordae.resources import VERSION

__all__ = ["FILE_KEYS", "UNSEEN", "to_packet"]

UNSEEN = ("not_assessable", "not_examined")
FILE_KEYS = ("evidence_kind", "source_file", "selector", "view", "made_by", "made_on", "note")
"""Slots of evidence that stand as attributes of a file."""
_CONCLUSIONS = ("atrial_arrangement", "topology", "av_connection", "va_connection", "disharmony", "convention")
_SEX = {"female": "FEMALE", "male": "MALE"}


def to_packet(record: Record, base: str | None, recorded: str) -> tuple[Piece, Carried]:
    """Return the packet and what it carries.

    Parameters
    ----------
    record
        A record without structural faults, in canonical order.
    base
        IRI under which the records stand.
    recorded
        Instant of the export.
    """
    iri = record_iri(record["id"], base)
    work = _Work(record)
    packet: Piece = {"id": record["id"], "subject": work.subject()}
    features = [*work.part_features(), *work.conclusions()]
    measured = [*work.part_numbers(), *work.measurements()]
    for key, value in (
        ("phenotypicFeatures", features),
        ("measurements", measured),
        ("biosamples", [work.biosample()] if record.get("specimen") else []),
        ("files", list(work.files())),
    ):
        if value:
            packet[key] = value
    packet["metaData"] = {
        "created": recorded,
        "createdBy": f"chordae {VERSION}",
        "phenopacketSchemaVersion": "2.0",
        "resources": resources(iri, _identifiers(packet)),
    }
    return packet, work.carried


class _Work:
    def __init__(self, record: Record) -> None:
        self.record = record
        self.carried: Carried = {"/id": "coded"}
        self.evidence = {str(one["id"]): one for one in record.get("evidence") or ()}
        self.types = {str(part["id"]): str(part["type"]) for part in record.get("parts") or ()}

    def subject(self) -> Piece:
        specimen = self.record.get("specimen") or {}
        made: Piece = {"id": f"{self.record['id']}/donor"}
        if numbers := specimen.get("other_numbers"):
            made["alternateIds"] = list(numbers)
            self.carried |= {f"/specimen/other_numbers/{at}": "coded" for at in range(len(numbers))}
        if specimen.get("sex") in _SEX:
            made["sex"] = _SEX[specimen["sex"]]
            self.carried["/specimen/sex"] = "coded"
        if (age := specimen.get("age_group")) is not None and age not in UNSEEN:
            made["timeAtLastEncounter"] = {"ontologyClass": word_class("age_group", age)}
            self.carried["/specimen/age_group"] = "coded"
        return made

    def biosample(self) -> Piece:
        specimen: Mapping[str, Any] = self.record["specimen"]
        identifier = specimen.get("accession") or f"{self.record['id']}/specimen"
        made: Piece = {"id": identifier, "individualId": f"{self.record['id']}/donor"}
        made["sampledTissue"] = term_class("heart")
        if "accession" in specimen:
            self.carried["/specimen/accession"] = "coded"
        for slot, key in (("material", "sampleType"), ("fixation", "sampleStorage")):
            if (word := specimen.get(slot)) is not None and word not in UNSEEN:
                made[key] = word_class(slot, word)
                self.carried[f"/specimen/{slot}"] = "coded"
        if specimen.get("note"):
            made["description"] = specimen["note"]
            self.carried["/specimen/note"] = "coded"
        return made

    def part_features(self) -> Iterator[Piece]:
        for number, part in enumerate(self.record.get("parts") or ()):
            path = f"/parts/{number}"
            noted = {one["feature"]: at for at, one in enumerate(part.get("observed") or ())}
            for name, value in part.items():
                slot = tables().slots[name]
                if slot.kind != "enum" or name == "state_reason":
                    continue  # why a thing could not be seen is no feature of it
                for at, one in enumerate(value if isinstance(value, list) else [value]):
                    if one in UNSEEN:
                        continue
                    made = _feature(slot, one)
                    if name == "state":
                        made["type"] = class_class(part["type"])
                    made["modifiers"] = [*self._place(part, path), slot_class(name)]
                    self.carried[f"{path}/{name}/{at}" if slot.multivalued else f"{path}/{name}"] = "coded"
                    if name in noted:
                        self._annotate(made, part, path, noted[name])
                    yield made

    def _annotate(self, made: Piece, part: Mapping[str, Any], path: str, at: int) -> None:
        entry, where = part["observed"][at], f"{path}/observed/{at}"
        before = len(self.carried)
        if "certainty" in entry:
            made["modifiers"].append(word_class("certainty", entry["certainty"]))
            self.carried[f"{where}/certainty"] = "coded"
        if entry.get("note"):
            made["description"] = entry["note"]
            self.carried[f"{where}/note"] = "coded"
        for number, one in enumerate(entry.get("evidence_refs") or ()):
            shown = self.evidence.get(str(one))
            if shown is None:
                continue
            kind = shown.get("evidence_kind")
            code = word_class("evidence_kind", kind) if kind else class_class("Evidence")
            reference = {"id": f"evidence:{one}", "description": shown["source_file"]}
            made.setdefault("evidence", []).append({"evidenceCode": code, "reference": reference})
            self.carried[f"{where}/evidence_refs/{number}"] = "coded"
        if len(self.carried) > before:
            self.carried[f"{where}/feature"] = "coded"

    def part_numbers(self) -> Iterator[Piece]:
        for number, part in enumerate(self.record.get("parts") or ()):
            path = f"/parts/{number}"
            for name, value in part.items():
                slot = tables().slots[name]
                if slot.kind in ("integer", "decimal"):
                    if f"{path}/type" not in self.carried and class_of_part(str(part["id"]), name) != part["type"]:
                        continue  # nothing would say what sort of part it is
                    self.carried[f"{path}/{name}"] = "coded"
                    yield {
                        "assay": slot_class(name),
                        "value": _quantity(value, slot.unit),
                        "procedure": {"code": slot_class("description"), "bodySite": self._site(part, path)},
                    }

    def measurements(self) -> Iterator[Piece]:
        for at, one in enumerate(self.record.get("measurements") or ()):
            path = f"/measurements/{at}"
            words = [str(one["id"])]
            for key in ("method", "site", "material_state", "reference_set", "body_measure", "modality", "note"):
                if key in one:
                    words.append(f"{key.replace('_', ' ')}: {one[key]}")
                    self.carried[f"{path}/{key}"] = "text"
            made: Piece = {
                "description": "; ".join(words),
                "assay": word_class("quantity", one["quantity"]),
                "value": _quantity(one["value"], one.get("unit")),
            }
            self.carried |= {f"{path}/{key}": "coded" for key in ("id", "quantity", "value", "unit") if key in one}
            if (site := one.get("part")) in self.types:
                procedure = {"code": slot_class("measurements"), "bodySite": part_class(site, self.types[site])}
                made["procedure"] = procedure
                self.carried[f"{path}/part"] = "coded"
            yield made

    def conclusions(self) -> Iterator[Piece]:
        stated = self.record.get("stated") or {}
        for name in _CONCLUSIONS:
            if (word := stated.get(name)) is not None and word not in UNSEEN:
                self.carried[f"/stated/{name}"] = "coded"
                yield _feature(tables().slots[name], word) | {"modifiers": [slot_class(name)]}
        for at, slug in enumerate(stated.get("diagnoses") or ()):
            self.carried[f"/stated/diagnoses/{at}"] = "coded"
            exact = phenotype_of(slug)
            code = {"id": exact.curie, "label": exact.label} if exact else term_class(slug)
            yield {"type": code, "modifiers": [slot_class("diagnoses"), *([term_class(slug)] if exact else [])]}
        if (word := (self.record.get("specimen") or {}).get("operated")) is not None and word not in UNSEEN:
            self.carried["/specimen/operated"] = "coded"
            yield _feature(tables().slots["operated"], word) | {"modifiers": [slot_class("operated")]}

    def files(self) -> Iterator[Piece]:
        for at, one in enumerate(self.record.get("evidence") or ()):
            kept = {key: str(one[key]) for key in FILE_KEYS if key in one}
            self.carried |= {f"/evidence/{at}/{key}": "coded" for key in ("id", *kept)}
            uri = quote(one["source_file"], safe="/:?#[]@!$&'()*+,;=%")
            yield {"uri": uri, "fileAttributes": {"id": one["id"], **kept}}

    def _place(self, part: Mapping[str, Any], path: str) -> list[Piece]:
        return [self._site(part, path), class_class(part["type"])]

    def _site(self, part: Mapping[str, Any], path: str) -> Piece:
        self.carried |= {f"{path}/id": "coded", f"{path}/type": "coded"}
        return part_class(str(part["id"]), str(part["type"]))


def _feature(slot: Slot, word: str) -> Piece:
    if word == "present" or word in NEGATIVE:
        return {"type": slot_class(slot.name)} | ({"excluded": True} if word in NEGATIVE else {})
    return {"type": word_class(slot.name, word)}


def _quantity(value: Any, unit: str | None) -> Piece:
    return {"quantity": {"unit": {"id": f"UCUM:{unit or '1'}", "label": unit or "count"}, "value": float(value)}}


def _identifiers(value: Any) -> Iterator[str]:
    if isinstance(value, Mapping):
        for key, one in value.items():
            if key == "id" and isinstance(one, str) and ":" in one and ("label" in value or "description" in value):
                yield one
            else:
                yield from _identifiers(one)
    elif isinstance(value, list):
        for one in value:
            yield from _identifiers(one)
