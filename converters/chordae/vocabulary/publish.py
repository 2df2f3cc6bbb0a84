"""The vocabulary in the forms that others read: a name of a form in, bytes out; the same bytes on every run.

========  ==========================================================  =====================
form      what                                                        media type
========  ==========================================================  =====================
skos      SKOS with SKOS-XL labels, as Turtle                         text/turtle
owl       OWL 2 classes and properties, as RDF/XML                    application/rdf+xml
jsonld    the SKOS graph as JSON-LD, with its context in the file     application/ld+json
csv       one line a term, lists within a cell parted by ``|``        text/csv
html      one page to browse, offline                                 text/html
tbx       TBX-Core (ISO 30042), one entry a term, for translators     application/x-tbx
========  ==========================================================  =====================

Rows of the mapping sets that say *not this one* or *no such term* are in the page in words, and nowhere as a match.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from typing import Any

from rdflib import RDF, Graph, Literal, URIRef

from chordae.errors import FormatError
from chordae.mapping import PREDICATES, codes_for, never_for, searched_for
from chordae.terms import Term, vocabulary

__all__ = ["FORMS", "publish"]

_NAMES = (
    "slug iri kind theme european north_american plain european_abbreviations north_american_abbreviations synonyms "
    "definition scope_note broader part_of related source since deprecated replaced_by"
)
_COLUMNS = _NAMES.split()


def publish(form: str) -> bytes:
    """Return the whole vocabulary in one form.

    Raises
    ------
    FormatError
        There is no such form.
    """
    if form not in FORMS:
        raise FormatError(f"The vocabulary is not written as '{form}'.", "Use one of " + ", ".join(FORMS) + ".")
    return FORMS[form]()


def _skos() -> bytes:
    from chordae.vocabulary.skos import skos_graph

    return skos_graph(vocabulary(), codes_for).serialize(format="turtle", encoding="utf-8")


def _owl() -> bytes:
    from chordae.vocabulary.owl import owl_graph
    from chordae.vocabulary.rdfxml import write_rdfxml

    return write_rdfxml(owl_graph(vocabulary(), codes_for))


def _jsonld() -> bytes:
    from chordae.vocabulary.skos import skos_graph

    graph = skos_graph(vocabulary(), codes_for)
    used = {str(p) for p in graph.predicates()} | {str(o) for o in graph.objects(None, RDF.type)}
    context = {prefix: str(space) for prefix, space in sorted(graph.namespaces()) if _is_used(str(space), used)}
    nodes = [_node(graph, subject) for subject in sorted(set(graph.subjects()), key=str)]
    text = json.dumps({"@context": context, "@graph": nodes}, ensure_ascii=False, indent=0, sort_keys=True)
    return (text + "\n").encode()


def _is_used(space: str, iris: set[str]) -> bool:
    return any(iri.startswith(space) for iri in iris)


def _node(graph: Graph, subject: Any) -> dict[str, Any]:
    node: dict[str, Any] = {"@id": str(subject)}
    for predicate in sorted(set(graph.predicates(subject)), key=str):
        values = [_value(one, predicate) for one in sorted(graph.objects(subject, predicate), key=str)]
        node["@type" if predicate == RDF.type else _short(graph, predicate)] = values
    return node


def _short(graph: Graph, iri: Any) -> str:
    return graph.namespace_manager.qname(str(iri))


def _value(value: Any, predicate: Any) -> Any:
    if predicate == RDF.type:
        return str(value)
    if isinstance(value, URIRef):
        return {"@id": str(value)}
    if isinstance(value, Literal) and value.language:
        return {"@value": str(value), "@language": value.language}
    if isinstance(value, Literal) and value.datatype:
        return {"@value": str(value), "@type": str(value.datatype)}
    return str(value)


def _csv() -> bytes:
    kinds = tuple(PREDICATES.values())
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([*_COLUMNS, *(f"{kind}_codes" for kind in kinds)])
    for term in sorted(vocabulary(), key=lambda one: one.slug):
        found = codes_for(term.slug)
        codes = ["|".join(code.curie for code in found if code.predicate == kind) for kind in kinds]
        writer.writerow([_cell(term, column) for column in _COLUMNS] + codes)
    return out.getvalue().encode()


def _cell(term: Term, column: str) -> str:
    value = getattr(term, column)
    return "|".join(value) if isinstance(value, tuple) else " ".join(str(value).split())


def _html() -> bytes:
    from chordae.friends import all_friends
    from chordae.vocabulary.page import render_page

    return render_page(vocabulary(), codes_for, never_for, searched_for, all_friends()).encode()


def _tbx() -> bytes:
    from chordae.vocabulary.tbx import render_tbx

    return render_tbx(vocabulary()).encode()


FORMS: dict[str, Callable[[], bytes]] = {
    "skos": _skos,
    "owl": _owl,
    "jsonld": _jsonld,
    "csv": _csv,
    "html": _html,
    "tbx": _tbx,
}
"""Form to the function that writes it."""
