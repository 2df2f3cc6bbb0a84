"""A graph without blank nodes as RDF/XML, sorted: the same bytes on every run, unlike what rdflib writes.

::

    <owl:Class rdf:about="...">            the first type of a node is its element, as readers of ontologies expect
      <rdfs:label xml:lang="en">...</rdfs:label>
      <rdfs:subClassOf rdf:resource="..."/>
    </owl:Class>

Source: RDF 1.1 XML Syntax.
"""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from rdflib import OWL, RDF, BNode, Graph, Literal
from rdflib.term import Node

from chordae.errors import FormatError

__all__ = ["write_rdfxml"]

_FIRST = (OWL.Ontology, OWL.AnnotationProperty, OWL.ObjectProperty, OWL.Class)
"""Types in the order in which their nodes are written; the rest follows."""


def write_rdfxml(graph: Graph) -> bytes:
    """Return the graph as UTF-8.

    Raises
    ------
    FormatError
        The graph holds a blank node, which has no name to sort by.
    """
    used: dict[str, str] = {"rdf": str(RDF)}
    blocks = [
        _block(graph, subject, used) for subject in sorted(set(graph.subjects()), key=lambda one: _rank(graph, one))
    ]
    spaces = "".join(f"\n  xmlns:{prefix}={quoteattr(space)}" for prefix, space in sorted(used.items()))
    text = f'<?xml version="1.0" encoding="UTF-8"?>\n<rdf:RDF{spaces}>\n{"".join(blocks)}</rdf:RDF>\n'
    return text.encode()


def _rank(graph: Graph, subject: Node) -> tuple[int, str]:
    types = set(graph.objects(subject, RDF.type))
    place = next((number for number, one in enumerate(_FIRST) if one in types), len(_FIRST))
    return place, str(subject)


def _block(graph: Graph, subject: Node, used: dict[str, str]) -> str:
    if isinstance(subject, BNode):
        raise FormatError("A graph with blank nodes cannot be written in one order.")
    types = sorted(graph.objects(subject, RDF.type), key=str)
    element = _name(graph, types[0], used) if types else "rdf:Description"
    lines = [f"  <{element} rdf:about={quoteattr(str(subject))}>"]
    lines += [f"    <rdf:type rdf:resource={quoteattr(str(one))}/>" for one in types[1:]]
    for predicate, value in sorted(graph.predicate_objects(subject), key=lambda pair: (str(pair[0]), pair[1].n3())):
        if predicate != RDF.type:
            lines.append(_property(_name(graph, predicate, used), value))
    return "\n".join([*lines, f"  </{element}>\n"])


def _property(name: str, value: Node) -> str:
    if not isinstance(value, Literal):
        return f"    <{name} rdf:resource={quoteattr(str(value))}/>"
    note = f" xml:lang={quoteattr(value.language)}" if value.language else ""
    if value.datatype:
        note = f" rdf:datatype={quoteattr(str(value.datatype))}"
    return f"    <{name}{note}>{escape(str(value))}</{name}>"


def _name(graph: Graph, iri: Node, used: dict[str, str]) -> str:
    prefix, space, name = graph.namespace_manager.compute_qname(str(iri), generate=False)
    used[prefix] = str(space)
    return f"{prefix}:{name}"
