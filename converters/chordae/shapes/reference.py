"""The reference engine: pySHACL over rdflib, one graph at a time.

::

    N-Triples, shapes  ->  rdflib graph  ->  pyshacl  ->  sh:ValidationReport  ->  Result ...

pySHACL switches rdflib's rewriting of literals for the whole process; everything here holds a lock, parses with
rewriting off (so ``"01"`` stays ``"01"``), and puts the setting back. By itself pySHACL parses a query again for every
focus node; ``reference_cached`` does not.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from chordae.errors import InputError, ShapesError
from chordae.shapes.paths import SH, format_path
from chordae.shapes.result import Result, bare, quote

if TYPE_CHECKING:
    from pyshacl.graph_abstraction import DataGraph
    from rdflib import Graph
    from rdflib.term import Node

    from chordae.shapes.engines import CompiledShapes

__all__ = [
    "graph_with_parsed_queries",
    "literals_as_written",
    "named_ancestors",
    "read_report",
    "reference",
    "reference_cached",
]


def reference(ntriples: str, shapes: CompiledShapes) -> list[Result]:
    """pySHACL as it is shipped."""
    from rdflib import Graph

    def run(graph: DataGraph) -> Any:
        import pyshacl

        return pyshacl.validate(graph, shacl_graph=shapes.graph, inference="none")

    return _run_pyshacl(ntriples, shapes, Graph(bind_namespaces="none"), run)


def reference_cached(ntriples: str, shapes: CompiledShapes) -> list[Result]:
    """pySHACL at its best: shapes read once, each SPARQL text parsed once."""
    def run(graph: DataGraph) -> Any:
        from pyshacl.validator import Validator

        validator: Any = Validator(graph, shacl_graph=shapes.graph, options={"inference": "none"})
        validator.shacl_graph = shapes.reference
        return validator.run()

    return _run_pyshacl(ntriples, shapes, graph_with_parsed_queries()(bind_namespaces="none"), run)


def _run_pyshacl(ntriples: str, shapes: CompiledShapes, empty: Graph, run: Callable[[DataGraph], Any]) -> list[Result]:
    from pyshacl.errors import ValidationFailure
    from pyshacl.graph_abstraction import DataGraph

    named = shapes.named
    with literals_as_written():
        try:
            empty.parse(data=ntriples, format="nt")
        except Exception as error:  # rdflib's parsers raise many kinds
            raise InputError(f"The graph is not N-Triples: {error}") from None
        try:
            _, report, text = run(DataGraph.from_rdflib(empty))
        except Exception as error:  # pySHACL passes on what decimal, rdflib or its own code raise
            raise ShapesError(f"The reference engine stopped: {error}") from None
        if isinstance(report, ValidationFailure):
            raise ShapesError(f"The reference engine stopped: {text}")
        return list(read_report(report, named))


def read_report(report: Graph, named: Mapping[str, str]) -> Iterator[Result]:
    """The results of a validation report; ``named`` as :func:`named_ancestors` gives it."""
    from rdflib import URIRef

    def one(node: Node, name: str) -> Node | None:
        return report.value(node, URIRef(SH + name))

    for node in report.objects(None, URIRef(SH + "result")):  # results under sh:detail are no results of their own
        path, source = one(node, "resultPath"), one(node, "sourceShape")
        yield Result(
            focus=bare(_write(one(node, "focusNode"))),
            path="" if path is None else format_path(report, path),
            rule=named.get(str(source), str(source)),
            value=_write(one(node, "value")),
            severity=str(one(node, "resultSeverity")).removeprefix(SH),
            component=str(one(node, "sourceConstraintComponent")).removeprefix(SH),
        )


def _write(term: Node | None) -> str:
    from rdflib import BNode, URIRef
    from rdflib import Literal as RDFLiteral

    if term is None:
        return ""
    if isinstance(term, BNode):
        return "_:"
    if isinstance(term, URIRef):
        return f"<{term}>"
    if isinstance(term, RDFLiteral):
        text, kind = quote(str(term)), str(term.datatype or "")
        if term.language:
            return f"{text}@{term.language.lower()}"
        return text if kind in {"", "http://www.w3.org/2001/XMLSchema#string"} else f"{text}^^<{kind}>"
    raise ShapesError(f"The reference engine reported a term of a kind RDF does not have: {type(term).__name__}.")


def named_ancestors(graph: Graph) -> dict[str, str]:
    """Blank-node shape -> IRI of the nearest shape around it that has one."""
    from rdflib import BNode, URIRef

    above: dict[Node, Node] = {}
    for name in ("property", "node", "not", "qualifiedValueShape"):
        above.update((inner, outer) for outer, inner in graph.subject_objects(URIRef(SH + name)))
    for name in ("and", "or", "xone"):
        for outer, members in graph.subject_objects(URIRef(SH + name)):
            above.update((inner, outer) for inner in graph.items(members))
    found = {}
    for inner in above:
        outer, seen = inner, {inner}
        while isinstance(outer, BNode) and outer in above and above[outer] not in seen:
            outer = above[outer]
            seen.add(outer)
        if isinstance(inner, BNode) and isinstance(outer, URIRef):
            found[str(inner)] = str(outer)
    return found


_literals = threading.RLock()


@contextmanager
def literals_as_written() -> Iterator[None]:
    """Keep every literal as written while the block runs, whatever pySHACL sets; one thread at a time."""
    import rdflib

    with _literals:
        before = rdflib.NORMALIZE_LITERALS
        rdflib.NORMALIZE_LITERALS = False
        try:
            yield
        finally:
            rdflib.NORMALIZE_LITERALS = before


@lru_cache(maxsize=1)
def graph_with_parsed_queries() -> Any:
    """A graph class whose ``query`` parses each SPARQL text once; made on first use: rdflib loads late."""
    from rdflib import Graph
    from rdflib.plugins.sparql import prepareQuery

    parsed = lru_cache(maxsize=1024)(prepareQuery)

    class ParsedQueryGraph(Graph):
        def query(self, query_object: Any, *args: Any, **options: Any) -> Any:
            query = parsed(query_object) if isinstance(query_object, str) else query_object
            return super().query(query, *args, **options)

    return ParsedQueryGraph
