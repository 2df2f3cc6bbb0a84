"""The vocabulary as SKOS: terms in, a graph out, the labels of both schools kept apart.

::

    term:criss_cross_heart a skos:Concept ;
        skos:prefLabel "criss-cross heart"@en ;             one a language (S14): the label of the European school
        skos:altLabel "..."@en ;                            the North American label, synonyms, short forms
        skosxl:prefLabel <.../label/european> ;             the labels as things of their own, so that each can say
        skosxl:altLabel <.../label/north_american> ;        in which school it is preferred: model:preferred_in
        model:plain_label "twisted heart"@en .              the words for laypeople

Why not a language tag a school? ``en-GB`` and ``en-US`` are spellings of English, not schools of nomenclature, and
private tags (``en-x-...``) are dropped by many readers. So the tag is ``en``, and the school stands on SKOS-XL labels.

A whole stands above its parts as a genus above its kinds (``skos:broader``); that it is a whole is said by
``iso-thes:broaderPartitive``, a narrower property of the extension of SKOS for ISO 25964.

Only matches that hold are exported: rows that say *not this one* or *no such term* are no matches. No blank nodes.
Sources: SKOS Reference (integrity conditions S9, S13, S14, S27, S37, S46) and its appendix B, SKOS-XL (S55-S57).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from rdflib import DCTERMS, OWL, RDF, SKOS, XSD, Graph, Literal, Namespace, URIRef

from chordae.identifiers import BASE, model_iri, prefixes, source_iri, term_iri
from chordae.mapping import Code
from chordae.terms import SCHOOLS, Term, Vocabulary

__all__ = ["ISO_THES", "LICENCE", "SCHEME", "SKOSXL", "bind", "other_labels", "skos_graph"]

SCHEME = URIRef(f"{BASE}vocabulary")
SKOSXL = Namespace("http://www.w3.org/2008/05/skos-xl#")
ISO_THES = Namespace("http://purl.org/iso25964/skos-thes#")
LICENCE = URIRef("https://creativecommons.org/licenses/by/4.0/")
TITLE = "Terms of sequential segmental analysis of congenitally malformed hearts"
CAUTION = (
    "Describes specimens for teaching, research and registries; not for diagnosis or for planning treatment. "
    "Defers to local codes on human remains, consent and data protection."
)
_MATCH = {
    "exact": SKOS.exactMatch,
    "close": SKOS.closeMatch,
    "broad": SKOS.broadMatch,
    "narrow": SKOS.narrowMatch,
    "related": SKOS.relatedMatch,
}
_PREFERRED_IN = URIRef(model_iri("preferred_in"))
_PLAIN = URIRef(model_iri("plain_label"))
_SINCE = URIRef(model_iri("since"))


def skos_graph(known: Vocabulary, codes: Callable[[str], Sequence[Code]]) -> Graph:
    """Return the whole vocabulary as SKOS.

    Parameters
    ----------
    known
        The vocabulary.
    codes
        From a term to its outside codes (:func:`chordae.mapping.codes_for`).
    """
    graph = Graph()
    bind(graph)
    _scheme(graph, known)
    for term in known:
        _concept(graph, term)
        _relations(graph, term, known)
        for code in codes(term.slug):
            graph.add((URIRef(term.iri), _MATCH[code.predicate], URIRef(code.iri)))
    return graph


def bind(graph: Graph) -> None:
    """Bind the prefixes that the graphs of the vocabulary use."""
    used = ("chordae", "term", "model", "UBERON", "HP", "MONDO", "PATO", "RO", "BFO", "BSPO", "icd11.code", "ICD10CM")
    for prefix in used:
        graph.bind(prefix, prefixes()[prefix])
    for prefix, space in (
        ("skosxl", SKOSXL),
        ("iso-thes", ISO_THES),
        ("dcterms", DCTERMS),
        ("owl", OWL),
        ("skos", SKOS),
    ):
        graph.bind(prefix, space)


def other_labels(term: Term) -> list[str]:
    """Return every name of a term but the preferred one of the European school: each once, in order."""
    names = (
        term.north_american,
        *term.synonyms,
        *term.european_abbreviations,
        *term.north_american_abbreviations,
    )
    return [name for name in dict.fromkeys(names) if name != term.european]


def _scheme(graph: Graph, known: Vocabulary) -> None:
    graph.add((SCHEME, RDF.type, SKOS.ConceptScheme))
    graph.add((SCHEME, DCTERMS.title, Literal(TITLE, "en")))
    graph.add((SCHEME, DCTERMS.description, Literal(CAUTION, "en")))
    graph.add((SCHEME, DCTERMS.license, LICENCE))
    graph.add((SCHEME, OWL.versionInfo, Literal(known.version)))
    for kind, meaning in sorted(known.kinds.items()):
        group = URIRef(f"{SCHEME}/kind/{kind}")
        graph.add((group, RDF.type, SKOS.Collection))
        graph.add((group, SKOS.prefLabel, Literal(kind, "en")))
        graph.add((group, SKOS.definition, Literal(meaning, "en")))


def _concept(graph: Graph, term: Term) -> None:
    node = URIRef(term.iri)
    graph.add((node, RDF.type, SKOS.Concept))
    graph.add((node, SKOS.inScheme, SCHEME))
    graph.add((node, DCTERMS.identifier, Literal(term.slug)))
    graph.add((node, SKOS.prefLabel, Literal(term.european, "en")))
    for name in other_labels(term):
        graph.add((node, SKOS.altLabel, Literal(name, "en")))
    for label, name, schools in _school_labels(term):
        item = URIRef(f"{term.iri}/label/{label}")
        role = SKOSXL.prefLabel if label == "european" else SKOSXL.altLabel
        graph.add((node, role, item))
        graph.add((item, RDF.type, SKOSXL.Label))
        graph.add((item, SKOSXL.literalForm, Literal(name, "en")))
        for school in schools:
            graph.add((item, _PREFERRED_IN, URIRef(term_iri(f"{school}_school"))))
    graph.add((node, _PLAIN, Literal(term.plain, "en")))
    graph.add((node, SKOS.definition, Literal(term.definition.strip(), "en")))
    if term.scope_note:
        graph.add((node, SKOS.scopeNote, Literal(term.scope_note.strip(), "en")))
    graph.add((node, DCTERMS.source, URIRef(source_iri(term.source))))
    graph.add((node, _SINCE, Literal(term.since)))
    graph.add((URIRef(f"{SCHEME}/kind/{term.kind}"), SKOS.member, node))
    if term.deprecated:
        graph.add((node, OWL.deprecated, Literal("true", datatype=XSD.boolean)))
        if term.replaced_by:
            graph.add((node, DCTERMS.isReplacedBy, URIRef(term_iri(term.replaced_by))))


def _school_labels(term: Term) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    if term.european == term.north_american:
        yield "european", term.european, SCHOOLS
    else:
        yield "european", term.european, ("european",)
        yield "north_american", term.north_american, ("north_american",)


def _relations(graph: Graph, term: Term, known: Vocabulary) -> None:
    node = URIRef(term.iri)
    if not term.broader and not term.part_of:
        graph.add((node, SKOS.topConceptOf, SCHEME))
        graph.add((SCHEME, SKOS.hasTopConcept, node))
    for slug in (*term.broader, *term.part_of):
        graph.add((node, SKOS.broader, URIRef(term_iri(slug))))
        graph.add((URIRef(term_iri(slug)), SKOS.narrower, node))
    for slug in term.part_of:
        graph.add((node, ISO_THES.broaderPartitive, URIRef(term_iri(slug))))
        graph.add((URIRef(term_iri(slug)), ISO_THES.narrowerPartitive, node))
    for slug in term.related:
        # Related and broader exclude each other (S27); the hierarchy goes before.
        if slug not in known.above(term.slug) and term.slug not in known.above(slug):
            graph.add((node, SKOS.related, URIRef(term_iri(slug))))
            graph.add((URIRef(term_iri(slug)), SKOS.related, node))
