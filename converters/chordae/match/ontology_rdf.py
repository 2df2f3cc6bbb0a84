"""From an ontology in OWL or SKOS, in any syntax of RDF, to targets, read by pyoxigraph.

::

    label        skos:prefLabel (English before no language before others), else rdfs:label
    synonyms     skos:altLabel, skos:hiddenLabel, hasExactSynonym, hasBroadSynonym, ... of OBO ontologies
    definition   skos:definition, else IAO:0000115
    left out     owl:deprecated true, blank nodes, things without a label, properties
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import Any

from chordae.errors import FormatError
from chordae.identifiers import contract
from chordae.match.targets import Name, Scope, Target
from chordae.xmltraps import refuse_entities

__all__ = ["RDF_ENDINGS", "from_rdf"]

RDF_ENDINGS: Mapping[str, str] = {
    ".owl": "RDF_XML",
    ".rdf": "RDF_XML",
    ".xml": "RDF_XML",
    ".ttl": "TURTLE",
    ".nt": "N_TRIPLES",
    ".nq": "N_QUADS",
    ".trig": "TRIG",
    ".jsonld": "JSON_LD",
}
"""Ending of a file -> format."""

_SKOS = "http://www.w3.org/2004/02/skos/core#"
_OBO = "http://www.geneontology.org/formats/oboInOwl#"
_TYPE = "http://www.w3.org/1999/02/22-rdf-syntax-ns#type"
_LABELS = (f"{_SKOS}prefLabel", "http://www.w3.org/2000/01/rdf-schema#label")
_DEFINITIONS = (f"{_SKOS}definition", "http://purl.obolibrary.org/obo/IAO_0000115")
_DEPRECATED = "http://www.w3.org/2002/07/owl#deprecated"
_SYNONYM_TYPE = f"{_OBO}hasSynonymType"
_KINDS = (f"{_SKOS}Concept", "http://www.w3.org/2002/07/owl#Class")
_SYNONYMS: Mapping[str, Scope] = {
    f"{_SKOS}prefLabel": "exact",
    f"{_SKOS}altLabel": "exact",
    f"{_SKOS}hiddenLabel": "exact",
    f"{_OBO}hasExactSynonym": "exact",
    f"{_OBO}hasBroadSynonym": "broad",
    f"{_OBO}hasNarrowSynonym": "narrow",
    f"{_OBO}hasRelatedSynonym": "related",
}
_KEPT = frozenset((_TYPE, _DEPRECATED, *_LABELS, *_DEFINITIONS, *_SYNONYMS))
_AXIOM = "http://www.w3.org/2002/07/owl#annotatedTarget"

Values = Mapping[str, list[Any]]


def from_rdf(data: bytes, ending: str, name: str) -> Iterator[Target]:
    """Give each concept or class that has a label and is not deprecated.

    Parameters
    ----------
    data
        The file.
    ending
        A key of ``RDF_ENDINGS``; RDF/XML and Turtle are told apart by the first bytes where an ``.owl`` is Turtle.
    name
        Its name, for messages.

    Raises
    ------
    FormatError
        It is not well formed.
    """
    import pyoxigraph

    kind = RDF_ENDINGS[ending]
    if kind == "RDF_XML" and not data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        kind = "TURTLE"
    if kind == "RDF_XML":
        refuse_entities(data, name)
    subjects: dict[str, dict[str, list[Any]]] = {}
    short: dict[Any, set[str]] = defaultdict(set)
    try:
        for quad in pyoxigraph.parse(data, format=getattr(pyoxigraph.RdfFormat, kind), base_iri="urn:ontology:"):
            predicate = quad.predicate.value
            if isinstance(quad.object, pyoxigraph.Triple):
                continue  # a statement about a statement names no term
            if isinstance(quad.subject, pyoxigraph.NamedNode) and predicate in _KEPT:
                subjects.setdefault(quad.subject.value, {}).setdefault(predicate, []).append(quad.object)
            elif predicate in (_AXIOM, _SYNONYM_TYPE):
                short[quad.subject].add(quad.object.value)
    except (SyntaxError, OSError, ValueError) as error:
        told = " ".join(str(error).split())[:120]
        raise FormatError(f"{name} cannot be read as RDF: {told}.", "Is it whole, and named by its format?") from None
    marked = [told for told in short.values() if any("abbreviation" in one.lower() for one in told)]
    abbreviations = {text for told in marked for text in told}
    for iri, values in subjects.items():
        if (target := _target(iri, values, abbreviations)) is not None:
            yield target


def _target(iri: str, values: Values, abbreviations: set[str]) -> Target | None:
    kinds = {one.value for one in values.get(_TYPE, ())}
    if kinds.isdisjoint(_KINDS) or any(one.value == "true" for one in values.get(_DEPRECATED, ())):
        return None
    label = _first(values, _LABELS)
    if not label:
        return None
    names = [Name(label, "label")]
    for predicate, scope in _SYNONYMS.items():
        for text in sorted({one.value for one in values.get(predicate, ())} - {label}):
            names.append(Name(text, "abbreviation" if text in abbreviations else "synonym", scope=scope))
    curie = contract(_obo_curie(iri))
    source = curie.partition(":")[0] if "//" not in curie else ""
    return Target(curie, label, tuple(dict.fromkeys(names)), _first(values, _DEFINITIONS), source)


def _first(values: Values, predicates: tuple[str, ...]) -> str:
    """Return the text of the first predicate that is there: English, else without language, else the first."""
    for predicate in predicates:
        texts = values.get(predicate)
        if texts:
            ranked = sorted(texts, key=lambda one: (_RANK.get(_language(one), 3), one.value))
            return " ".join(str(ranked[0].value).split())
    return ""


_RANK = {"en": 0, "en-gb": 0, "en-us": 1, "": 2}


def _language(text: Any) -> str:
    return (getattr(text, "language", None) or "").lower()


def _obo_curie(iri: str) -> str:
    """Return the CURIE of a term of an OBO ontology whose prefix is not in our list; else the IRI."""
    start = "http://purl.obolibrary.org/obo/"
    prefix, underscore, local = iri.removeprefix(start).partition("_")
    if iri.startswith(start) and underscore and prefix.isalpha() and local and contract(iri) == iri:
        return f"{prefix}:{local}"
    return iri
