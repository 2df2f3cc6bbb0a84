"""Property paths of shapes as text: one spelling, whichever engine reported them.

Goes in: a node of a shapes or report graph that is a SHACL property path. Comes out: the path in SPARQL
property-path syntax, bracketed the same way throughout, so that two engines' results can be compared::

    ex:p                             ->  <http://ex/p>
    [ sh:inversePath ex:p ]          ->  ^<http://ex/p>
    ( ex:p ex:q )                    ->  (<http://ex/p>/<http://ex/q>)
    [ sh:alternativePath (ex:p ..) ] ->  (<http://ex/p>|...)
    [ sh:zeroOrMorePath ex:p ]       ->  (<http://ex/p>)*

Source: W3C Recommendation SHACL (2017), section 2.3.1, which maps each form to SPARQL 1.1 property paths.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from chordae.errors import ShapesError

if TYPE_CHECKING:
    from rdflib import Graph
    from rdflib.term import Node

SH = "http://www.w3.org/ns/shacl#"
RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
REPEATS = {SH + "zeroOrMorePath": "*", SH + "oneOrMorePath": "+", SH + "zeroOrOnePath": "?"}


def format_path(graph: Graph, node: Node) -> str:
    """The property path at ``node`` of ``graph`` in SPARQL syntax.

    Parameters
    ----------
    graph, node
        A graph that holds the path, and the node where the path starts.

    Returns
    -------
    str
        For example ``"(<http://ex/p>/^<http://ex/q>)"``.

    Raises
    ------
    ShapesError
        The node is a blank node that has none of the forms a path can take.
    """
    from rdflib import URIRef
    from rdflib.collection import Collection

    if isinstance(node, URIRef):
        return f"<{node}>"
    if graph.value(node, URIRef(RDF + "first")) is not None:
        return "(" + "/".join(format_path(graph, step) for step in Collection(graph, node)) + ")"
    for predicate, target in graph.predicate_objects(node):
        name = str(predicate)
        if name == SH + "inversePath":
            return "^" + format_path(graph, target)
        if name == SH + "alternativePath":
            return "(" + "|".join(format_path(graph, step) for step in Collection(graph, target)) + ")"
        if name in REPEATS:
            return f"({format_path(graph, target)}){REPEATS[name]}"
    raise ShapesError("A property path has a form that the SHACL Recommendation does not know.")
