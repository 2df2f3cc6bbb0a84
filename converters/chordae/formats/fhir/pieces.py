"""The small pieces of FHIR R4 that every resource here is made of: codings, references, extensions.

::

    feature("apical_trabeculation")         {"system": ".../model/", "code": "apical_trabeculation", "display": ...}
    term_of("Ventricle feature", "coarse")  {"system": ".../term/", "code": "coarse_apical_trabeculations", ...}
    extension("sex", "female")              {"url": ".../model/sex", "valueCode": "female"}

Sources: HL7 FHIR R4 (4.0.1) data types; data-absent-reason code system of the same release.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from chordae import terms
from chordae.model import tables
from chordae.record import pointer

__all__ = [
    "ABSENT_REASON",
    "MODEL",
    "STATE_SYSTEM",
    "TERM",
    "UCUM",
    "Resource",
    "concept",
    "extension",
    "feature",
    "identity",
    "node_extension",
    "places",
    "quantity",
    "reference",
    "term_coding",
    "value_coding",
]

Resource = dict[str, Any]

MODEL = "https://w3id.org/chordae/model/"
TERM = "https://w3id.org/chordae/term/"
UCUM = "http://unitsofmeasure.org"
ABSENT_REASON = "http://terminology.hl7.org/CodeSystem/data-absent-reason"
STATE_SYSTEM: Mapping[str, str] = {"not_assessable": "unknown", "not_examined": "not-performed"}
"""Our two unseen states and the nearest code of data-absent-reason; our own code always stands beside it."""


def identity(iri: str) -> str:
    """Name-based UUID (RFC 9562 version 5) of an IRI: the same record gives the same bundle."""
    return str(uuid.uuid5(uuid.NAMESPACE_URL, iri))


def reference(iri: str, display: str | None = None) -> Resource:
    """Reference to a resource of the same bundle by the IRI it stands for."""
    made: Resource = {"reference": f"urn:uuid:{identity(iri)}"}
    return made | ({"display": display} if display else {})


def feature(slot: str) -> Resource:
    """Coding of a feature, by its slot in the schema."""
    return {"system": MODEL, "code": slot, "display": slot.replace("_", " ")}


def term_coding(slug: str) -> Resource:
    """Coding of a term of the vocabulary, with the label of the European school."""
    known = terms.vocabulary().get(slug)
    return {"system": TERM, "code": slug, "display": known.european if known else slug.replace("_", " ")}


def value_coding(slot: str, word: str) -> Resource:
    """Coding of a word of a slot: the term that the word means."""
    return term_coding(tables().slots[slot].values[word].removeprefix(TERM))


def concept(codings: Iterable[Resource], text: str | None = None) -> Resource:
    """Codeable concept."""
    made: Resource = {"coding": list(codings)}
    return made | ({"text": text} if text else {})


def quantity(value: Any, unit: str | None) -> Resource:
    """Quantity with its UCUM unit; the number keeps its digits."""
    number = Decimal(str(value))
    made: Resource = {"value": int(number) if number == number.to_integral_value() else float(number)}
    return made | ({"unit": unit, "system": UCUM, "code": unit} if unit else {})


def extension(slot: str, value: Any) -> Resource:
    """Extension named by a slot of the schema, typed by its kind."""
    kind = tables().slots[slot].kind
    key = {"enum": "valueCode", "integer": "valueInteger", "uri": "valueUri", "identifier": "valueString"}.get(
        kind, "valueString"
    )
    return {"url": MODEL + slot, key: value if key == "valueInteger" else str(value)}


def node_extension(slot: str, node: Mapping[str, Any]) -> Resource:
    """Extension that holds the inner extensions of one node, lists one by one."""
    inner: list[Resource] = []
    for key, value in node.items():
        for one in value if isinstance(value, list) else [value]:
            inner.append(node_extension(key, one) if isinstance(one, Mapping) else extension(key, one))
    return {"url": MODEL + slot, "extension": inner}


def places(value: Any, path: str) -> Iterator[str]:
    """Yield the JSON pointer of every word, number or text in a value that stands at a place of a record."""
    if isinstance(value, Mapping):
        for key, one in value.items():
            yield from places(one, path + pointer(key))
    elif isinstance(value, list):
        for at, one in enumerate(value):
            yield from places(one, path + pointer(at))
    else:
        yield path
