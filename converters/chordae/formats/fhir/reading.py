"""From a FHIR R4 bundle to records: our own bundles whole, foreign ones as far as their codes are ours.

::

    Bundle  -> by Basic (code Record): one record each
            -> by Specimen, where there is no Basic: one record with what could be read, the rest as remarks and issues

An observation without a value is never read as a finding, and ``false`` is read as *absent* of the thing itself.
Source: HL7 FHIR R4 (4.0.1), for relative references section "Resolving references in Bundles".
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from chordae.canonical import canonical
from chordae.formats.fhir.bundle_index import BundleIndex
from chordae.formats.fhir.elements import (
    as_words,
    display,
    extensions,
    named,
    note,
    own_code,
    term_code,
    value_of,
    word,
)
from chordae.formats.fhir.pieces import Resource
from chordae.formats.json_input import listed, mapped
from chordae.issues import Issue, Location, issue
from chordae.model import class_slots, tables
from chordae.record import Reading, Record

__all__ = ["from_bundle", "from_resources"]

_STATED = class_slots("StatedConclusions")


def from_bundle(bundle: Mapping[str, Any], file: str | None = None) -> tuple[list[Reading], list[Issue]]:
    """Read a bundle.

    Parameters
    ----------
    bundle
        Parsed JSON of a Bundle.
    file
        Name for the issues.

    Returns
    -------
    list of Reading, list of Issue
        One record for each description; an issue for each resource that could not be read as a statement.
    """
    if bundle.get("resourceType") != "Bundle":
        found = bundle.get("resourceType")
        said = f'the resource "{found}"' if isinstance(found, str) else "something else"
        return [], [issue("I-FHIR-03", location=Location(file), found=said)]
    entries = bundle.get("entry") or []
    pairs = [
        (str(one.get("fullUrl") or ""), one.get("resource")) if isinstance(one, dict) else ("", None)
        for one in (entries if isinstance(entries, list) else [entries])
    ]
    return from_resources(pairs, file)


def from_resources(entries: Iterable[tuple[str, Any]], file: str | None = None) -> tuple[list[Reading], list[Issue]]:
    """Read resources, each with the URL that others may refer to it by (or an empty text)."""
    issues: list[Issue] = []
    pairs = list(entries)
    sound = [(url, one) for url, one in pairs if isinstance(one, dict)]
    if len(sound) < len(pairs):
        missing = len(pairs) - len(sound)
        issues.append(issue("I-FHIR-05", location=Location(file), value="entry without a resource", count=missing))
    index = BundleIndex(sound, file, issues)
    heads = {url: one for url, one in index.at.items() if own_code(one.get("code")) == "Record"}
    if not heads:
        heads = {url: one for url, one in index.at.items() if one.get("resourceType") == "Specimen"}
    readings: list[Reading] = []
    ids: set[str] = set()
    for url, head in heads.items():
        record = _Reader(index, url, head, len(heads) == 1, issues).record()
        number = str(record.get("id") or "")
        if not number.strip():
            issues.append(issue("I-REC-02", location=Location(file), path="/id"))
        elif number in ids:
            issues.append(issue("I-REC-01", location=Location(file), record=number, value=number, first=1))
        else:
            ids.add(number)
            readings.append(Reading(record, {"": Location(file)}))
    index.report_rest(issues)
    if not heads:
        issues.append(issue("I-FHIR-01", location=Location(file), name=file or "read"))
    return readings, issues


class _Reader:
    """Puts one record together from the resources that refer to its specimen."""

    def __init__(self, index: BundleIndex, url: str, head: Resource, alone: bool, issues: list[Issue]) -> None:
        self.index, self.head, self.alone, self.issues = index, head, alone, issues
        self.parts: dict[str, Record] = {}
        self.own = own_code(head.get("code")) == "Record"
        self.specimen_url = index.target(head.get("subject")) if self.own else url
        self.id = (named(head, "id") if self.own else None) or _accession(head)
        index.take(url)

    def record(self) -> Record:
        """Return the record."""
        index = self.index
        record: Record = {"id": self.id} | (extensions(self.head) if self.own else {})
        specimen = index.take(self.specimen_url)
        record["specimen"] = self._specimen(specimen)
        mine = index.observations.get(self.specimen_url, []) if self.specimen_url is not None else []
        observations = [index.take(url) for url in index.in_order(mine)]
        wanted = {index.target(focus) for one in observations for focus in listed(one.get("focus"))}
        donor = index.target(specimen.get("subject"))
        bodies = [one for one in wanted if index.at.get(one or "", {}).get("resourceType") == "BodyStructure"]
        bodies += index.bodies.get(donor, []) if donor else []
        for url in index.in_order(one for one in bodies if one is not None):
            self.parts[url] = self._part(index.take(url))
        for one in observations:
            self._read(one, record)
        documents = list(index.documents.get(donor, [])) if donor else []
        if self.alone:
            documents += index.documents.get(None, [])
        for url in index.in_order(documents):
            record.setdefault("evidence", []).append(self._evidence(index.take(url)))
        if self.parts:
            record["parts"] = list(self.parts.values())
        return canonical(record)

    def _read(self, one: Resource, record: Record) -> None:
        category = own_code((listed(one.get("category")) or [{}])[0])
        if category == "derived":
            return
        if category == "measured":
            done = self._measure(one, record)
        elif category == "stated":
            done = self._conclude(one, record.setdefault("stated", {}))
        else:
            done = self._observe(one)
        if not done:
            words = display(one.get("code"))
            self.issues.append(issue("I-FHIR-02", location=Location(self.index.file), record=self.id, value=words))
            remark = {"text": as_words(one), "place": f"Observation {one.get('id') or ''}".strip()}
            record.setdefault("remarks", []).append(remark)

    def _specimen(self, one: Resource) -> Record:
        found: Record = extensions(one)
        number = mapped(one.get("accessionIdentifier")).get("value")
        if isinstance(number, str):
            found["accession"] = number
        if others := [str(other["value"]) for other in listed(one.get("identifier")) if "value" in other]:
            found["other_numbers"] = others
        if material := word("material", one.get("type")):
            found["material"] = material
        for step in listed(one.get("processing")):
            if fixation := word("fixation", step.get("procedure")):
                found["fixation"] = fixation
        return found | note(one)

    def _part(self, one: Resource) -> Record:
        found: Record = {"id": named(one, "id") or str(one.get("id")), "type": own_code(one.get("location"))}
        for qualifier in listed(one.get("locationQualifier")):
            if side := word("side", qualifier):
                found["side"] = side
        if isinstance(one.get("description"), str):
            found["note"] = one["description"]
        return found

    def _observe(self, one: Resource) -> bool:
        name = own_code(one.get("code")) or ""
        part = self.parts.get(self.index.target(one.get("focus")) or "")
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
        if name == "state" and "state_reason" in more:
            part["state_reason"] = more.pop("state_reason")
        entry: Record = {"feature": name} | more | note(one)
        if refs := [self._document_id(self.index.target(ref)) for ref in listed(one.get("derivedFrom"))]:
            entry["evidence_refs"] = refs
        if value is not None and slot is not None and slot.multivalued:
            part.setdefault(name, []).append(value)
        elif value is not None and part.setdefault(name, value) != value:
            return False  # an earlier observation says something else
        if value is None and not observed_only:
            return False
        if len(entry) > 1 or observed_only:
            part.setdefault("observed", []).append(entry)
        return True

    def _document_id(self, url: str | None) -> str:
        return named(self.index.at.get(url or "", {}), "id") or str(url)

    def _conclude(self, one: Resource, stated: Record) -> bool:
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

    def _measure(self, one: Resource, record: Record) -> bool:
        found = extensions(one)
        measured = mapped(one.get("valueQuantity"))
        quantity = word("quantity", one.get("code"))
        if quantity is None or "value" not in measured:
            return False
        found |= {"quantity": quantity, "value": measured["value"]}
        if "code" in measured:
            found["unit"] = measured["code"]
        part = self.parts.get(self.index.target(one.get("focus")) or "")
        record.setdefault("measurements", []).append(found | ({"part": part["id"]} if part else {}) | note(one))
        return True

    def _evidence(self, one: Resource) -> Record:
        found: Record = {"id": named(one, "id") or str(one.get("id"))} | extensions(one)
        attachment = mapped((listed(one.get("content")) or [{}])[0].get("attachment"))
        found["source_file"] = attachment.get("url")
        if kind := word("evidence_kind", one.get("type")):
            found["evidence_kind"] = kind
        if isinstance(one.get("description"), str):
            found["note"] = one["description"]
        return found


def _accession(one: Mapping[str, Any]) -> str:
    number = mapped(one.get("accessionIdentifier")).get("value")
    others = [other.get("value") for other in listed(one.get("identifier"))]
    return str(next((found for found in (number, *others) if found), None) or one.get("id") or "")
