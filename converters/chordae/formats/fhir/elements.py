"""The pieces of a FHIR resource as they are read: codings, extensions, references, values; nothing is taken on trust.

What does not have the form that R4 gives it is passed over here as if it were not there; the reader keeps the whole
resource as words where nothing could be read of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from chordae.formats.fhir.observations import NEGATIVE
from chordae.formats.fhir.pieces import MODEL, STATE_SYSTEM, TERM
from chordae.formats.json_input import listed, mapped
from chordae.model import Slot, tables
from chordae.record import Record

__all__ = [
    "as_words",
    "display",
    "extensions",
    "named",
    "note",
    "own_code",
    "target",
    "term_code",
    "value_of",
    "word",
]


def codings(concept: Any) -> list[dict[str, Any]]:
    """Return the codings of a codeable concept."""
    return listed(mapped(concept).get("coding"))


def own_code(concept: Any) -> str | None:
    """Return the class or slot of our schema that a concept is coded with."""
    return next((str(c.get("code")) for c in codings(concept) if str(c.get("system")).startswith(MODEL)), None)


def term_code(concept: Any) -> str | None:
    """Return the term of our vocabulary that a concept is coded with."""
    return next((str(c.get("code")) for c in codings(concept) if c.get("system") == TERM), None)


def word(slot: str, concept: Any) -> str | None:
    """Return the word of a slot that a concept is coded with."""
    words = {iri.removeprefix(TERM): one for one, iri in tables().slots[slot].values.items()}
    own = (str(c.get("code")) for c in codings(concept) if c.get("system") == TERM)
    return next((words[code] for code in own if code in words), None)


def target(reference: Any) -> str | None:
    """Return what a reference refers to; of a list, the first."""
    one = (listed(reference) or [{}])[0] if isinstance(reference, list) else mapped(reference)
    return one["reference"] if isinstance(one.get("reference"), str) else None


def named(resource: Mapping[str, Any], name: str) -> str | None:
    """Return the identifier of a resource in one of our systems."""
    return next(
        (str(one.get("value")) for one in listed(resource.get("identifier")) if one.get("system") == MODEL + name), None
    )


def note(resource: Mapping[str, Any]) -> Record:
    """Return the first note, as a key of a record."""
    text = next((one.get("text") for one in listed(resource.get("note"))), None)
    return {"note": text} if isinstance(text, str) else {}


def extensions(resource: Mapping[str, Any]) -> Record:
    """Return our extensions as keys of a record; lists where the slot has several values."""
    found: Record = {}
    for one in listed(resource.get("extension")):
        url = str(one.get("url"))
        if not url.startswith(MODEL):
            continue
        name = url.removeprefix(MODEL)
        slot = tables().slots.get(name)
        value: Any = extensions(one) if "extension" in one else _bare(one)
        if slot is not None and slot.multivalued:
            found.setdefault(name, []).append(value)
        else:
            found[name] = value
    return found


def value_of(slot: Slot, resource: Mapping[str, Any]) -> Any:
    """Return the word or number of an observation or component; ``None`` if it has no value.

    ``false`` of a single finding says only that it is not that one: no word is made of it.
    """
    if "dataAbsentReason" in resource:
        found = term_code(resource["dataAbsentReason"])
        return found if found in STATE_SYSTEM else None
    if "valueBoolean" in resource and slot.kind == "enum":
        words = {iri.removeprefix(TERM): one for one, iri in slot.values.items()}
        term = term_code(resource.get("code"))
        finding = words.get(term) if term else None
        if resource["valueBoolean"] is True:
            return finding or ("present" if "present" in slot.values and term is None else None)
        if resource["valueBoolean"] is False and term is None:
            return next((one for one in NEGATIVE if one in slot.values), None)
        return None
    if "valueQuantity" in resource:
        return mapped(resource["valueQuantity"]).get("value")
    return _bare({key: one for key, one in resource.items() if key in ("valueInteger", "valueString")})


def display(concept: Any) -> str:
    """Return a concept in words."""
    text = mapped(concept).get("text")
    shown = "; ".join(str(c.get("display") or c.get("code")) for c in codings(concept))
    return str(text) if isinstance(text, str) and text else shown


def as_words(resource: Mapping[str, Any]) -> str:
    """Return an observation in words, so that nothing of it is lost."""
    if "dataAbsentReason" in resource:
        return f"{display(resource.get('code'))}: no value, {display(resource['dataAbsentReason'])}"
    said = [display(resource.get("code")) + f": {_said(_bare(resource))}"]
    said += [f"{display(one.get('code'))}: {_said(_bare(one))}" for one in listed(resource.get("component"))]
    return "; ".join(said)


def texts(values: Any) -> Iterable[str]:
    """Yield the texts of a list."""
    return (one for one in values if isinstance(one, str)) if isinstance(values, list) else ()


def _bare(holder: Mapping[str, Any]) -> Any:
    return next((one for key, one in holder.items() if key.startswith("value")), None)


def _said(value: Any) -> str:
    if isinstance(value, dict):
        if "coding" in value or "text" in value:
            return display(value)
        return f"{value.get('value')} {value.get('unit') or value.get('code') or ''}".strip()
    return str(value)
