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
from chordae.formats.fhir.elements import as_words, display, extensions, named, note, own_code, word
from chordae.formats.fhir.findings import conclude, measure, observe, withdrawn
from chordae.formats.fhir.pieces import Resource
from chordae.formats.json_input import listed, mapped
from chordae.issues import Issue, Location, issue
from chordae.record import Reading, Record

__all__ = ["from_bundle", "from_resources"]

_THINGS = ("Basic", "Specimen", "BodyStructure", "DocumentReference")
"""Resources that a statement is about, or that carry it."""


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
    standing = []
    for url, one in sound:
        if one.get("resourceType") in _THINGS and withdrawn(one):
            name = f"{one['resourceType']} {one.get('id') or ''}".strip()
            issues.append(issue("I-FHIR-06", location=Location(file), value=name))
        else:
            standing.append((url, one))
    index = BundleIndex(standing, file, issues)
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
        if category == "derived" and self.own:
            return
        if withdrawn(one):
            said = issue(
                "I-FHIR-06", location=Location(self.index.file), record=self.id, value=display(one.get("code"))
            )
            self._keep(one, said, record)
            return
        if category == "measured":
            done = measure(one, record, self.parts, self.index)
        elif category == "stated":
            done = conclude(one, record.setdefault("stated", {}))
        else:
            done = observe(one, self.parts, self.index)
        if not done:
            words = display(one.get("code"))
            said = issue("I-FHIR-02", location=Location(self.index.file), record=self.id, value=words)
            self._keep(one, said, record)

    def _keep(self, one: Resource, said: Issue, record: Record) -> None:
        """Keep an observation as words, with the issue that says why."""
        self.issues.append(said)
        status = f" ({one['status']})" if withdrawn(one) and isinstance(one.get("status"), str) else ""
        remark = {"text": as_words(one) + status, "place": f"Observation {one.get('id') or ''}".strip()}
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
