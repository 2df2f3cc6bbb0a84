"""The vocabulary as OWL: terms in, a graph of classes and properties out.

===================================  ============================================
term of the kind *relation*          owl:ObjectProperty, rdfs:subPropertyOf
every other term                     owl:Class, rdfs:subClassOf; wholes as ``model:part_of``
pairs of a group of disjoint terms   owl:disjointWith (``schema/disjoint.tsv``)
labels, definitions, matches, wholes annotations: nothing outside is imported
===================================  ============================================

A match is an annotation and not an equivalence, so that errors of an outside hierarchy (double outlet as a kind of
septal defect) cannot become ours. Within OWL 2 DL; no blank nodes.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Sequence
from functools import cache
from itertools import combinations

from rdflib import DCTERMS, OWL, RDF, RDFS, SKOS, XSD, Graph, Literal, URIRef

from chordae import resources
from chordae.errors import VocabularyError
from chordae.identifiers import BASE, model_iri, source_iri, term_iri
from chordae.mapping import Code
from chordae.terms import Term, Vocabulary
from chordae.vocabulary.skos import CAUTION, LICENCE, TITLE, bind, other_labels

__all__ = ["ONTOLOGY", "disjoint_groups", "owl_graph"]

ONTOLOGY = URIRef(f"{BASE}vocabulary.owl")
DISJOINT = "schema/disjoint.tsv"
_ANNOTATIONS = (
    SKOS.altLabel,
    SKOS.definition,
    SKOS.scopeNote,
    SKOS.exactMatch,
    SKOS.closeMatch,
    SKOS.broadMatch,
    SKOS.narrowMatch,
    SKOS.relatedMatch,
    DCTERMS.title,
    DCTERMS.description,
    DCTERMS.license,
    DCTERMS.source,
    DCTERMS.isReplacedBy,
)
_OWN = ("plain_label", "north_american_label", "part_of", "since")


def owl_graph(known: Vocabulary, codes: Callable[[str], Sequence[Code]]) -> Graph:
    """Return the vocabulary as an ontology; parameters as for :func:`chordae.vocabulary.skos.skos_graph`."""
    graph = Graph()
    bind(graph)
    graph.add((ONTOLOGY, RDF.type, OWL.Ontology))
    graph.add((ONTOLOGY, OWL.versionIRI, URIRef(f"{BASE}vocabulary/{known.version}/vocabulary.owl")))
    graph.add((ONTOLOGY, OWL.versionInfo, Literal(known.version)))
    graph.add((ONTOLOGY, DCTERMS.title, Literal(TITLE, "en")))
    graph.add((ONTOLOGY, DCTERMS.description, Literal(CAUTION, "en")))
    graph.add((ONTOLOGY, DCTERMS.license, LICENCE))
    for name in (*_ANNOTATIONS, *(URIRef(model_iri(one)) for one in _OWN)):
        graph.add((name, RDF.type, OWL.AnnotationProperty))
    for term in known:
        _entity(graph, term)
        for code in codes(term.slug):
            graph.add((URIRef(term.iri), SKOS[f"{code.predicate}Match"], URIRef(code.iri)))
    for slugs in disjoint_groups().values():
        for one, other in combinations(slugs, 2):
            graph.add((URIRef(known[one].iri), OWL.disjointWith, URIRef(known[other].iri)))
    return graph


@cache
def disjoint_groups() -> dict[str, tuple[str, ...]]:
    """Return the groups of terms of which a thing can be one at most.

    Raises
    ------
    VocabularyError
        The table is not as it must be.
    """
    rows = csv.DictReader(io.StringIO(resources.read_text(DISJOINT)), delimiter="\t", quoting=csv.QUOTE_NONE)
    groups: dict[str, list[str]] = {}
    for row in rows:
        if not row.get("group") or not row.get("term"):
            raise VocabularyError(f"{DISJOINT} has a row without group or term.")
        groups.setdefault(row["group"], []).append(row["term"])
    return {group: tuple(slugs) for group, slugs in groups.items()}


def _entity(graph: Graph, term: Term) -> None:
    node = URIRef(term.iri)
    is_relation = term.kind == "relation"
    graph.add((node, RDF.type, OWL.ObjectProperty if is_relation else OWL.Class))
    for slug in term.broader:
        above = RDFS.subPropertyOf if is_relation else RDFS.subClassOf
        graph.add((node, above, URIRef(term_iri(slug))))
    for slug in term.part_of:
        graph.add((node, URIRef(model_iri("part_of")), URIRef(term_iri(slug))))
    graph.add((node, RDFS.label, Literal(term.european, "en")))
    graph.add((node, URIRef(model_iri("north_american_label")), Literal(term.north_american, "en")))
    graph.add((node, URIRef(model_iri("plain_label")), Literal(term.plain, "en")))
    for name in other_labels(term):
        graph.add((node, SKOS.altLabel, Literal(name, "en")))
    graph.add((node, SKOS.definition, Literal(term.definition.strip(), "en")))
    if term.scope_note:
        graph.add((node, SKOS.scopeNote, Literal(term.scope_note.strip(), "en")))
    graph.add((node, DCTERMS.source, URIRef(source_iri(term.source))))
    graph.add((node, URIRef(model_iri("since")), Literal(term.since)))
    if term.deprecated:
        graph.add((node, OWL.deprecated, Literal("true", datatype=XSD.boolean)))
        if term.replaced_by:
            graph.add((node, DCTERMS.isReplacedBy, URIRef(term_iri(term.replaced_by))))
