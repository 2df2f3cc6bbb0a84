"""From a FHIR R4 bundle to records: our own bundles whole, foreign ones as far as their codes are ours.

::

    Bundle  -> by Basic (code Record): one record each
            -> by Specimen, where there is no Basic: one record with what could be read, the rest as remarks and issues

An observation without a value is never read as a finding, and ``false`` is read as *absent* of the thing itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from chordae.formats.fhir.observations import NEGATIVE
from chordae.formats.fhir.pieces import MODEL, STATE_SYSTEM, TERM, Resource
from chordae.issues import Issue, Location, issue
from chordae.model import Slot, tables
from chordae.record import Reading, Record

__all__ = ["from_bundle"]

_LISTS = ("other_numbers",)


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
    resources: dict[str, Resource] = {}
    for entry in bundle.get("entry") or ():
        if isinstance(entry, Mapping) and isinstance(entry.get("resource"), dict):
            resources[str(entry.get("fullUrl") or f"urn:uuid:{entry['resource'].get('id')}")] = entry["resource"]
    heads = {url: one for url, one in resources.items() if _own_code(one.get("code")) == "Record"}
    if not heads:
        heads = {url: one for url, one in resources.items() if one.get("resourceType") == "Specimen"}
    issues: list[Issue] = []
    readings = [Reading(_Reader(resources, head, file, issues).record()) for _, head in sorted(heads.items())]
    if not heads:
        issues.append(issue("I-FHIR-01", location=Location(file), name=file or "read"))
    return readings, issues


class _Reader:
    def __init__(
        self, resources: Mapping[str, Resource], head: Resource, file: str | None, issues: list[Issue]
    ) -> None:
        self.resources, self.head, self.file, self.issues = resources, head, file, issues
        self.parts: dict[str, Record] = {}
        own = head["resourceType"] == "Basic"
        self.specimen_url = _target(head.get("subject")) if own else _url_of(resources, head)
        self.id = _named(head, "id") if own else _accession(head)

    def record(self) -> Record:
        """Put the record together in the order of its keys."""
        record: Record = {"id": self.id}
        head, specimen = self.head, self.resources.get(self.specimen_url or "", {})
        record |= _extensions(head) if head["resourceType"] == "Basic" else {}
        record["specimen"] = self._specimen(specimen)
        mine = [one for one in self.resources.values() if _target(one.get("specimen")) == self.specimen_url]
        structures = {url: one for url, one in self.resources.items() if one.get("resourceType") == "BodyStructure"}
        wanted = {_target(focus) for one in mine for focus in one.get("focus") or ()}
        donor = _target(specimen.get("subject"))
        for url, one in structures.items():
            if url in wanted or (donor and _target(one.get("patient")) == donor):
                self.parts[url] = self._part(one)
        stated: Record = {}
        measurements: list[Record] = []
        for one in mine:
            category = _own_code((one.get("category") or [{}])[0])
            if category == "stated":
                self._conclude(one, stated)
            elif category == "measured":
                measurements.append(self._measurement(one))
            elif category != "derived":
                self._observe(one, record)
        evidence = [
            self._evidence(one)
            for one in self.resources.values()
            if one.get("resourceType") == "DocumentReference" and _named(one, "id")
        ]
        for key, value in (
            ("parts", list(self.parts.values())),
            ("measurements", measurements),
            ("evidence", evidence),
            ("stated", stated),
        ):
            if value:
                record[key] = value
        if not record["specimen"]:
            del record["specimen"]
        return record

    def _specimen(self, one: Resource) -> Record:
        found: Record = {}
        if number := (one.get("accessionIdentifier") or {}).get("value"):
            found["accession"] = number
        if others := [str(identifier.get("value")) for identifier in one.get("identifier") or ()]:
            found["other_numbers"] = others
        if material := _word("material", one.get("type")):
            found["material"] = material
        for step in one.get("processing") or ():
            if fixation := _word("fixation", step.get("procedure")):
                found["fixation"] = fixation
        if note := one.get("note"):
            found["note"] = note[0].get("text")
        return found | _extensions(one)

    def _part(self, one: Resource) -> Record:
        kind = _own_code(one.get("location"))
        found: Record = {"id": _named(one, "id") or str(one.get("id")), "type": kind}
        for qualifier in one.get("locationQualifier") or ():
            if side := _word("side", qualifier):
                found["side"] = side
        if "description" in one:
            found["note"] = one["description"]
        return found

    def _observe(self, one: Resource, record: Record) -> None:
        name = _own_code(one.get("code"))
        part = self.parts.get(_target((one.get("focus") or [None])[0]) or "")
        slot = tables().slots.get(name or "")
        if slot is None or part is None or name is None:
            words = (one.get("code") or {}).get("text") or _display(one.get("code"))
            self.issues.append(issue("I-FHIR-02", location=Location(self.file), record=self.id, value=words))
            record.setdefault("remarks", []).append({"text": _as_words(one), "place": f"Observation {one.get('id')}"})
            return
        more = _extensions(one)
        more.pop("sequence", None)
        if "component" in one:
            row = {
                _own_code(c.get("code")): _plain(tables().slots[str(_own_code(c.get("code")))], c)
                for c in one["component"]
            }
            part.setdefault(name, []).append(row | _note(one))
            return
        value = None if more.pop("observed_only", False) else _plain(slot, one)
        if name == "state" and "state_reason" in more:
            part["state_reason"] = more.pop("state_reason")
        entry: Record = {"feature": name} | more | _note(one)
        if refs := [self._document_id(_target(ref)) for ref in one.get("derivedFrom") or ()]:
            entry["evidence_refs"] = refs
        if value is not None:
            if slot.multivalued:
                part.setdefault(name, []).append(value)
            else:
                part[name] = value
        if len(entry) > 1:
            part.setdefault("observed", []).append(entry)

    def _document_id(self, url: str | None) -> str:
        return _named(self.resources.get(url or "", {}), "id") or str(url)

    def _conclude(self, one: Resource, stated: Record) -> None:
        name = _own_code(one.get("code"))
        slot = tables().slots.get(name or "")
        if slot is None or name is None:
            return
        if slot.kind == "node":
            value: Any = _extensions(one).get(name)
            value = value[0] if isinstance(value, list) else value
        elif slot.kind == "term":
            value = next((c["code"] for c in _codings(one.get("code")) if c.get("system") == TERM), None)
        else:
            value = _plain(slot, one)
        if slot.multivalued:
            stated.setdefault(name, []).append(value)
        else:
            stated[name] = value

    def _measurement(self, one: Resource) -> Record:
        found = _extensions(one)
        if word := _word("quantity", one.get("code")):
            found["quantity"] = word
        measured = one.get("valueQuantity") or {}
        found["value"] = measured.get("value")
        if "code" in measured:
            found["unit"] = measured["code"]
        part = self.parts.get(_target((one.get("focus") or [None])[0]) or "")
        return found | ({"part": part["id"]} if part else {}) | _note(one)

    def _evidence(self, one: Resource) -> Record:
        found: Record = {"id": _named(one, "id")} | _extensions(one)
        found["source_file"] = one["content"][0]["attachment"].get("url")
        if kind := _word("evidence_kind", one.get("type")):
            found["evidence_kind"] = kind
        if "description" in one:
            found["note"] = one["description"]
        return found


def _plain(slot: Slot, one: Mapping[str, Any]) -> Any:
    """Return the word or number of an observation or component; None if it has no value."""
    if "dataAbsentReason" in one:
        return next((c["code"] for c in _codings(one["dataAbsentReason"]) if c.get("code") in STATE_SYSTEM), None)
    if "valueBoolean" in one and slot.kind == "enum":
        words = {iri.removeprefix(TERM): word for word, iri in slot.values.items()}
        finding = next(
            (words[c["code"]] for c in _codings(one.get("code")) if c.get("system") == TERM and c.get("code") in words),
            None,
        )
        if one["valueBoolean"]:
            return finding or ("present" if "present" in slot.values else None)
        return None if finding else next((word for word in NEGATIVE if word in slot.values), None)
    if "valueQuantity" in one:
        return one["valueQuantity"].get("value")
    return one.get("valueInteger", one.get("valueString"))


def _extensions(one: Mapping[str, Any]) -> Record:
    found: Record = {}
    for extension in one.get("extension") or ():
        url = str(extension.get("url"))
        if not url.startswith(MODEL):
            continue
        name = url.removeprefix(MODEL)
        slot = tables().slots.get(name)
        if "extension" in extension:
            value: Any = _extensions(extension)
        else:
            value = next((v for k, v in extension.items() if k.startswith("value")), None)
        if slot is not None and slot.multivalued:
            found.setdefault(name, []).append(value)
        else:
            found[name] = value
    return found


def _codings(concept: Any) -> Iterable[Mapping[str, Any]]:
    return (concept or {}).get("coding") or () if isinstance(concept, Mapping) else ()


def _own_code(concept: Any) -> str | None:
    return next((str(c.get("code")) for c in _codings(concept) if str(c.get("system")).startswith(MODEL)), None)


def _word(slot: str, concept: Any) -> str | None:
    words = {iri.removeprefix(TERM): word for word, iri in tables().slots[slot].values.items()}
    return next((words[str(c.get("code"))] for c in _codings(concept) if c.get("code") in words), None)


def _named(one: Mapping[str, Any], name: str) -> str | None:
    return next((str(i.get("value")) for i in one.get("identifier") or () if i.get("system") == MODEL + name), None)


def _accession(one: Mapping[str, Any]) -> str:
    number = (one.get("accessionIdentifier") or {}).get("value")
    return str(number or next((i.get("value") for i in one.get("identifier") or ()), None) or one.get("id"))


def _target(ref: Any) -> str | None:
    return str(ref["reference"]) if isinstance(ref, Mapping) and "reference" in ref else None


def _url_of(resources: Mapping[str, Resource], one: Resource) -> str | None:
    return next((url for url, other in resources.items() if other is one), None)


def _note(one: Mapping[str, Any]) -> Record:
    return {"note": one["note"][0].get("text")} if one.get("note") else {}


def _display(concept: Any) -> str:
    return "; ".join(str(c.get("display") or c.get("code")) for c in _codings(concept))


def _as_words(one: Mapping[str, Any]) -> str:
    code = (one.get("code") or {}).get("text") or _display(one.get("code"))
    value = next((v for k, v in one.items() if k.startswith("value")), None)
    reason = _display(one.get("dataAbsentReason"))
    return f"{code}: {'no value, ' + reason if 'dataAbsentReason' in one else value}"
