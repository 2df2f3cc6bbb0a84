"""Run shapes over one graph: two engines behind one function, the same results from both.

Goes in: a graph as N-Triples text, and shapes compiled once. Comes out: a sorted list of `Result`::

    Result(focus, path, rule, value, severity, component)
           <iri>  SPARQL  iri   N-Triples  "Violation" "NotConstraintComponent"
                  path                     "Warning"
                                           "Info"

``fast`` is the PyPI package *shacl* (Rust): it frees the interpreter lock, and one compiled set of shapes
serves all threads. ``reference`` is pySHACL as it is shipped. ``reference_cached`` is pySHACL at its
best: it reads the shapes once, and each SPARQL text once. By itself it parses a query again for every focus node.

Differences that are spelling only are taken out here: blank nodes become ``_:`` (their labels mean nothing),
language tags are lower case, paths have the one spelling of `chordae.shapes.paths`, and a blank-node shape is
named by the nearest shape around it that has a name. Real differences are listed in ``KNOWN_DIFFERENCES``.

pySHACL switches rdflib's rewriting of literals for the whole process; the reference engines hold a lock,
parse with rewriting off (so ``"01"`` stays ``"01"``), and put the setting back.
"""

from __future__ import annotations

import hashlib
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache
from typing import TYPE_CHECKING, Any, Literal, get_args

from chordae.errors import InputError, ShapesError
from chordae.shapes.order import cheap_first
from chordae.shapes.paths import SH, format_path
from chordae.shapes.short import shorten

if TYPE_CHECKING:
    import shacl
    from pyshacl.graph_abstraction import DataGraph
    from pyshacl.shapes_graph import ShapesGraph
    from rdflib import Graph
    from rdflib.term import Node

Engine = Literal["fast", "reference", "reference_cached"]
ENGINES: tuple[Engine, ...] = get_args(Engine)

KNOWN_DIFFERENCES: Mapping[str, str] = {
    "blank-node-order": "pySHACL stops when sh:lessThan or sh:lessThanOrEquals meets a blank node; the fast "
    "engine reports the pair. No record of ours has blank nodes.",
    "incomparable": "pySHACL lets a boolean, a date, NaN or an ill-typed number pass an upper bound or "
    "sh:lessThan with a number; the fast engine reports it, as the Recommendation asks.",
    "computed-value": "The fast engine leaves out a value that a query computed and that stands nowhere in the graph. "
    "Queries of ours select terms of the graph only.",
    "repeated-solution": "pySHACL reports equal solutions of a query once, the fast engine each time. Queries of "
    "ours say DISTINCT.",
    "nan-and-decimal": "pySHACL stops when a decimal bound meets NaN; the fast engine reports the value.",
}


@dataclass(frozen=True, slots=True, order=True)
class Result:
    """One finding of a shape about one node.

    ``focus`` is an IRI or ``_:``. ``path`` is a SPARQL property path or ``""``. ``rule`` is the shape's IRI.
    ``value`` is a term in N-Triples syntax (``<iri>``, ``"text"@en``), ``_:`` or ``""``.
    ``severity`` and ``component`` are names of the SHACL vocabulary without its address, or a foreign IRI.
    """

    focus: str
    path: str
    rule: str
    value: str
    severity: str
    component: str


class CompiledShapes:
    """Shapes ready to use with either engine; each engine's own form is made when it is first asked for.

    Parameters
    ----------
    turtle
        The shapes graph.

    Raises
    ------
    ShapesError
        On first use: the text is not Turtle, or holds no shape.

    Examples
    --------
    >>> shapes = CompiledShapes('''@prefix sh: <http://www.w3.org/ns/shacl#> . @prefix ex: <http://ex/> .
    ...     ex:R a sh:PropertyShape ; sh:targetClass ex:Valve ; sh:path ex:leaflets ; sh:minCount 1 .''')
    >>> triple = "<http://ex/v> <http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <http://ex/Valve> ."
    >>> [(result.focus, result.rule) for result in validate(triple, shapes)]
    [('http://ex/v', 'http://ex/R')]
    """

    def __init__(self, turtle: str) -> None:
        self.turtle = turtle
        self.digest = hashlib.sha256(turtle.encode()).hexdigest()

    @cached_property
    def fast(self) -> shacl.Shapes:
        """The shapes as the fast engine compiles them: cheap questions first."""
        return _compiled(lambda: cheap_first(self.turtle))

    @cached_property
    def short(self) -> shacl.Shapes:
        """The same for graphs under short IRIs (`chordae.shapes.short`)."""
        return _compiled(lambda: shorten(cheap_first(self.turtle)))

    @cached_property
    def graph(self) -> Graph:
        """The shapes as an rdflib graph, for the reference engine."""
        from rdflib import Graph

        with literals_as_written():
            try:
                return Graph().parse(data=self.turtle, format="turtle")
            except Exception as error:  # rdflib's Turtle parser raises many kinds
                raise ShapesError(f"The shapes are not Turtle: {error}") from None

    @cached_property
    def reference(self) -> ShapesGraph:
        """The shapes as pySHACL reads them, so that ``reference_cached`` need not read them for each graph."""
        import logging

        from pyshacl.shapes_graph import ShapesGraph

        return ShapesGraph(self.graph, False, logging.getLogger(__name__))

    @cached_property
    def named(self) -> dict[str, str]:
        """Blank-node shape -> IRI of the nearest shape around it that has one."""
        return _named_ancestors(self.graph)


def _compiled(write: Callable[[], str]) -> shacl.Shapes:
    import shacl

    try:
        shapes = shacl.Shapes.from_text(write(), "ntriples")
    except (SyntaxError, ValueError) as error:
        raise ShapesError(f"The shapes cannot be compiled: {error}") from None
    if not len(shapes):
        raise ShapesError("The shapes graph holds no shape: nothing would be checked.")
    return shapes


@cache
def default_engine() -> Engine:
    """The fast engine where its package is installed (not on Linux with ARM), else the reference."""
    from importlib.util import find_spec

    return "fast" if find_spec("shacl") else "reference_cached"


def validate(ntriples: str, shapes: CompiledShapes, engine: Engine = "fast") -> list[Result]:
    """Check one graph.

    Parameters
    ----------
    ntriples
        The graph as N-Triples text.
    shapes
        Compiled shapes; share one object between all calls and threads.
    engine
        ``"fast"``, ``"reference"`` or ``"reference_cached"``.

    Returns
    -------
    list[Result]
        Sorted; a finding that an engine reports twice stands twice.

    Raises
    ------
    InputError
        The text is not N-Triples.
    ShapesError
        The shapes cannot be compiled, or the engine gave up (see ``KNOWN_DIFFERENCES``).

    References
    ----------
    W3C Recommendation *Shapes Constraint Language (SHACL)*, 2017, sections 3.4 and 3.6 (validation report).
    """
    return sorted(_ENGINES[engine](ntriples, shapes))


def _fast(ntriples: str, shapes: CompiledShapes) -> list[Result]:
    compiled = shapes.fast
    try:
        report = compiled.validate_text(ntriples, "ntriples")
    except ValueError as error:
        if str(error).startswith("SPARQL"):
            raise ShapesError(f"A query of the rules was refused: {error}") from None
        raise InputError(f"The graph is not N-Triples: {error}") from None
    return [
        Result(
            focus=_bare(found.focus_node),
            path=found.path or "",
            rule=_bare(found.root_shape or found.source_shape or ""),
            value=plain_term(found.value, found.value_plain),
            severity=found.severity_iri.removeprefix(SH),
            component=found.component_iri.removeprefix(SH),
        )
        for found in report.results
    ]


def _bare(term: str) -> str:
    if term.startswith("<"):
        return term[1:-1]
    return "_:" if term.startswith("_:") else term


def plain_term(term: str | None, lexical: str | None) -> str:
    """A value as the fast engine reports it, in the spelling of `Result`."""
    if term is None or lexical is None:
        return ""
    if term.startswith("_:"):
        return "_:"
    if not term.startswith('"'):
        return term
    suffix = term[term.rindex('"') + 1 :]
    return _quote(lexical) + (suffix.lower() if suffix.startswith("@") else suffix)


def _quote(lexical: str) -> str:
    for character, escape in (("\\", "\\\\"), ('"', '\\"'), ("\n", "\\n"), ("\r", "\\r")):
        lexical = lexical.replace(character, escape)
    return f'"{lexical}"'


def _reference(ntriples: str, shapes: CompiledShapes) -> list[Result]:
    from rdflib import Graph

    def run(graph: DataGraph) -> Any:
        import pyshacl

        return pyshacl.validate(graph, shacl_graph=shapes.graph, inference="none")

    return _run_pyshacl(ntriples, shapes, Graph(bind_namespaces="none"), run)


def _reference_cached(ntriples: str, shapes: CompiledShapes) -> list[Result]:
    def run(graph: DataGraph) -> Any:
        from pyshacl.validator import Validator

        validator: Any = Validator(graph, shacl_graph=shapes.graph, options={"inference": "none"})
        validator.shacl_graph = shapes.reference
        return validator.run()

    return _run_pyshacl(ntriples, shapes, _graph_with_parsed_queries()(bind_namespaces="none"), run)


_ENGINES: Mapping[Engine, Callable[[str, CompiledShapes], list[Result]]] = {
    "fast": _fast,
    "reference": _reference,
    "reference_cached": _reference_cached,
}


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
        return list(_read_report(report, named))


def _read_report(report: Graph, named: Mapping[str, str]) -> Iterator[Result]:
    from rdflib import URIRef

    def one(node: Node, name: str) -> Node | None:
        return report.value(node, URIRef(SH + name))

    for node in report.objects(None, URIRef(SH + "result")):  # results under sh:detail are no results of their own
        path, source = one(node, "resultPath"), one(node, "sourceShape")
        yield Result(
            focus=_bare(_write(one(node, "focusNode"))),
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
        text, kind = _quote(str(term)), str(term.datatype or "")
        if term.language:
            return f"{text}@{term.language.lower()}"
        return text if kind in {"", "http://www.w3.org/2001/XMLSchema#string"} else f"{text}^^<{kind}>"
    raise ShapesError(f"The reference engine reported a term of a kind RDF does not have: {type(term).__name__}.")


def _named_ancestors(graph: Graph) -> dict[str, str]:
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
def _graph_with_parsed_queries() -> Any:
    """A graph class whose ``query`` parses each SPARQL text once; made on first use: rdflib loads late."""
    from rdflib import Graph
    from rdflib.plugins.sparql import prepareQuery

    parsed = lru_cache(maxsize=1024)(prepareQuery)

    class ParsedQueryGraph(Graph):
        def query(self, query_object: Any, *args: Any, **options: Any) -> Any:
            query = parsed(query_object) if isinstance(query_object, str) else query_object
            return super().query(query, *args, **options)

    return ParsedQueryGraph
