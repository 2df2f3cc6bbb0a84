"""The JSON-LD 1.1 context: one term a class and a slot; the values of an enum are terms of its slots alone.

The same word may stand for two things under two keys (``absent`` of a leaflet and of a spleen), so each slot
with an enum brings its values in a context of its own (JSON-LD 1.1, section 4.1.8, property-scoped contexts).
The prefix of the vocabulary is ``terms``, for ``term`` is a slot. There is no ``@vocab``: a key that the schema does
not know makes no triple.
"""

from __future__ import annotations

from typing import Any

__all__ = ["CONTEXT_IRI", "make_context"]

CONTEXT_IRI = "https://w3id.org/chordae/context/chordae.context.jsonld"

_XSD = "http://www.w3.org/2001/XMLSchema#"
_RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"


def make_context(tables: dict[str, Any]) -> dict[str, Any]:
    """Return the context document."""
    context: dict[str, Any] = {
        "@version": 1.1,
        "model": tables["prefixes"]["model"],
        "terms": tables["prefixes"]["term"],
        "xsd": _XSD,
        "rdf": _RDF,
        "prov": "http://www.w3.org/ns/prov#",
        "rdfs": "http://www.w3.org/2000/01/rdf-schema#",
        "id": "@id",
        "type": "@type",
    }
    short = {tables["prefixes"]["model"]: "model:", tables["prefixes"]["term"]: "terms:"}
    if taken := sorted(set(context) & (set(tables["slots"]) | set(tables["classes"])) - {"id", "type"}):
        raise ValueError(f"prefixes of the context are names of the schema: {taken}")
    for name, one in tables["classes"].items():
        context[name] = _curie(one["iri"], short)
    for name, slot in tables["slots"].items():
        if slot["kind"] not in {"identifier", "type"}:
            context[name] = _slot(slot, tables["enums"], short)
    context["in_order_of"] = {"@id": "model:in_order_of", "@type": "@id"}
    return {"@context": context}


def _slot(slot: dict[str, Any], enums: dict[str, Any], short: dict[str, str]) -> Any:
    iri = _curie(slot["iri"], short)
    kind = slot["kind"]
    if kind == "enum":
        values = enums[slot["enum"]]["values"]
        scoped = {text: _curie(value["iri"], short) for text, value in values.items()}
        return {"@id": iri, "@type": "@vocab", "@context": scoped}
    if kind in {"reference", "node", "term", "uri"}:
        return {"@id": iri, "@type": "@id"}
    if kind in {"integer", "decimal"}:
        return {"@id": iri, "@type": f"xsd:{kind}"}
    return iri


def _curie(iri: str, short: dict[str, str]) -> str:
    for start, prefix in short.items():
        if iri.startswith(start):
            return prefix + iri.removeprefix(start)
    return iri
