"""From a phenopacket, as JSON, to a record: our own whole as far as they go, foreign ones by the codes that are ours.

An excluded feature is *absent*; a feature that is not there was not recorded. A code of the Human Phenotype Ontology
that is exactly a term of ours becomes a stated diagnosis; every other foreign feature is kept as a remark.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from chordae.canonical import canonical
from chordae.formats.fhir.observations import NEGATIVE
from chordae.formats.json_input import listed, mapped
from chordae.formats.phenopackets.packet import FILE_KEYS
from chordae.formats.phenopackets.pieces import Piece, class_of_part
from chordae.issues import Issue, Location, issue
from chordae.mapping import terms_for
from chordae.model import Slot, is_a, tables
from chordae.rdf.terms import TERM
from chordae.record import Reading, Record
from chordae.terms import vocabulary

__all__ = ["from_packet"]

_SEX = {"FEMALE": "female", "MALE": "male"}


def from_packet(packet: Mapping[str, Any], file: str) -> tuple[Reading | None, list[Issue]]:
    """Read one packet that the official package has accepted.

    Returns
    -------
    Reading or None, list of Issue
        ``None`` for a packet without an id.
    """
    place = Location(file)
    identifier = str(packet.get("id") or "")
    if not identifier:
        return None, [issue("I-REC-02", location=place)]
    work = _Work(identifier, place)
    work.subject(mapped(packet.get("subject")))
    for one in listed(packet.get("biosamples")):
        work.biosample(one)
    for one in listed(packet.get("phenotypicFeatures")):
        if not work.feature(one):
            said = "excluded" if one.get("excluded") is True else "found"
            work.remark(_words(mapped(one.get("type"))), said, "phenotypicFeatures")
    for one in listed(packet.get("measurements")):
        if not work.measure(one):
            quantity = mapped(mapped(one.get("value")).get("quantity"))
            said = f"{quantity.get('value')} {_words(mapped(quantity.get('unit')))}"
            work.remark(_words(mapped(one.get("assay"))), said, "measurements")
    for one in listed(packet.get("files")):
        work.file(one)
    for name in ("diseases", "interpretations", "medicalActions"):
        for one in listed(packet.get(name)):
            work.remark(_words(mapped(one.get("term"))) or name, "as in the packet", name)
    return Reading(canonical(work.record), {"": place}), work.issues


class _Work:
    def __init__(self, identifier: str, place: Location) -> None:
        self.record: Record = {"id": identifier}
        self.issues: list[Issue] = []
        self.place = place

    def subject(self, one: Piece) -> None:
        found: Record = {}
        if numbers := [str(number) for number in one.get("alternateIds") or ()]:
            found["other_numbers"] = numbers
        if one.get("sex") in _SEX:
            found["sex"] = _SEX[str(one["sex"])]
        age = _word("age_group", mapped(mapped(one.get("timeAtLastEncounter")).get("ontologyClass")))
        if age:
            found["age_group"] = age
        if found:
            self.record.setdefault("specimen", {}).update(found)

    def biosample(self, one: Piece) -> None:
        found: Record = self.record.setdefault("specimen", {})
        if one.get("id") not in (None, f"{self.record['id']}/specimen"):
            found["accession"] = str(one["id"])
        for slot, key in (("material", "sampleType"), ("fixation", "sampleStorage")):
            if word := _word(slot, mapped(one.get(key))):
                found[slot] = word
        if one.get("description"):
            found["note"] = one["description"]

    def feature(self, one: Piece) -> bool:
        code = str(mapped(one.get("type")).get("id") or "")
        tags = [str(modifier.get("id")) for modifier in listed(one.get("modifiers"))]
        excluded = one.get("excluded") is True
        name = next((tag[6:] for tag in tags if tag.startswith("model:") and tag[6:] in tables().slots), None)
        if name is None or name == "diagnoses":
            return self._diagnosis(code, tags, excluded, own=name is not None)
        slot = tables().slots[name]
        word = _finding(slot, code, excluded)
        if word is None:
            return False
        part = self._part(tags)
        if part is None:
            return self._of_record(slot, word)
        if slot.multivalued:
            part.setdefault(name, []).append(word)
        else:
            part[name] = word
        self._note(part, name, one, tags)
        return True

    def _of_record(self, slot: Slot, word: str) -> bool:
        holder = "specimen" if slot.name == "operated" else "stated"
        if slot.name not in tables().classes["Specimen" if holder == "specimen" else "StatedConclusions"].slots:
            return False
        self.record.setdefault(holder, {})[slot.name] = word
        return True

    def _diagnosis(self, code: str, tags: list[str], excluded: bool, *, own: bool) -> bool:
        slugs = [one.removeprefix("term:") for one in (code, *tags) if one.startswith("term:")]
        if not slugs:
            slugs = [slug for slug, kind in terms_for(code) if kind == "exact"]
        slug = next((one for one in slugs if own or one in vocabulary()), None)
        named = own or code.startswith("HP:") or (slug is not None and vocabulary()[slug].kind == "malformation")
        if excluded or slug is None or not named:
            return False
        self.record.setdefault("stated", {}).setdefault("diagnoses", []).append(slug)
        return True

    def _note(self, part: Record, name: str, one: Piece, tags: list[str]) -> None:
        entry: Record = {"feature": name}
        words = {iri.removeprefix(TERM): word for word, iri in tables().slots["certainty"].values.items()}
        for tag in tags:
            if tag.startswith("term:") and tag[5:] in words:
                entry["certainty"] = words[tag[5:]]
        if one.get("description"):
            entry["note"] = one["description"]
        found = [str(mapped(piece.get("reference")).get("id")) for piece in listed(one.get("evidence"))]
        if refs := [ref.removeprefix("evidence:") for ref in found if ref.startswith("evidence:")]:
            entry["evidence_refs"] = refs
        if len(entry) > 1:
            part.setdefault("observed", []).append(entry)

    def measure(self, one: Piece) -> bool:
        code = str(mapped(one.get("assay")).get("id") or "")
        quantity = mapped(mapped(one.get("value")).get("quantity"))
        number, unit = quantity.get("value", 0.0), str(mapped(quantity.get("unit")).get("id") or "")
        if isinstance(number, str) or not math.isfinite(number):
            return False
        plain: int | float = int(number) if float(number).is_integer() and abs(number) < 2**53 else number
        site = str(mapped(mapped(one.get("procedure")).get("bodySite")).get("id") or "")
        name = code.removeprefix("model:")
        if code.startswith("model:") and name in tables().slots and site.startswith("part:"):
            part = self._part([site], name)
            if part is None:
                return False
            part[name] = plain
            return True
        word = _word("quantity", mapped(one.get("assay")))
        if word is None:
            return False
        rows = self.record.setdefault("measurements", [])
        found: Record = {"quantity": word, "value": plain}
        label, _, rest = str(one.get("description") or "").partition("; ")
        found["id"] = label or f"m{len(rows) + 1}"
        if rest:
            remark = {"text": rest, "place": f"measurements: {found['id']}"}
            self.record.setdefault("remarks", []).append(remark)
        if unit.startswith("UCUM:") and unit != "UCUM:1":
            found["unit"] = unit.removeprefix("UCUM:")
        if site.startswith("part:"):
            found["part"] = site.removeprefix("part:")
        rows.append(found)
        return True

    def file(self, one: Piece) -> None:
        told = {str(key): str(value) for key, value in mapped(one.get("fileAttributes")).items()}
        rows = self.record.setdefault("evidence", [])
        found: Record = {"id": told.get("id") or f"file{len(rows) + 1}", "source_file": str(one.get("uri") or "")}
        rows.append(found | {key: told[key] for key in FILE_KEYS if key in told})

    def remark(self, what: str, said: str, place: str) -> None:
        self.issues.append(issue("I-PHE-02", location=self.place, record=self.record["id"], value=what))
        self.record.setdefault("remarks", []).append({"text": f"{what}: {said}", "place": place})

    def _part(self, tags: list[str], slot: str | None = None) -> Record | None:
        part_id = next((tag.removeprefix("part:") for tag in tags if tag.startswith("part:")), None)
        if part_id is None:
            return None
        for part in self.record.get("parts") or ():
            if part["id"] == part_id:
                found: Record = part
                return found
        kind = next((tag[6:] for tag in tags if tag.startswith("model:") and is_a(tag[6:], "Part")), None)
        if kind is None and slot is not None:
            kind = class_of_part(part_id, slot)
        if kind is None:
            return None
        made: Record = {"id": part_id, "type": kind}
        self.record.setdefault("parts", []).append(made)
        return made


def _finding(slot: Slot, code: str, excluded: bool) -> str | None:
    """Return the word of a slot that a feature stands for; ``None`` if it is none of its words."""
    if slot.kind != "enum":
        return None
    named = code.removeprefix("model:") if code.startswith("model:") else None
    if named == slot.name or (slot.name == "state" and is_a(named, "Part")):
        words = NEGATIVE if excluded else ("present",)
        return next((word for word in words if word in slot.values), None)
    # That one finding is excluded says nothing about the others of the same slot.
    return None if excluded else _word(slot.name, {"id": code})


def _word(slot: str, code: Mapping[str, Any]) -> str | None:
    words = {iri.removeprefix(TERM): word for word, iri in tables().slots[slot].values.items()}
    return words.get(str(code.get("id") or "").removeprefix("term:"))


def _words(code: Mapping[str, Any]) -> str:
    return str(code.get("label") or code.get("id") or "")
