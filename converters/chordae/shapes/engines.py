"""Run shapes over one graph: two engines behind one function, the same results from both.

::

    N-Triples, shapes compiled once  ->  fast, reference or reference_cached  ->  Result ..., sorted

``fast`` is the PyPI package *shacl* (Rust): it frees the interpreter lock, and one compiled set of shapes
serves all threads. ``reference`` is pySHACL as it is shipped, ``reference_cached`` pySHACL at its best
(`chordae.shapes.reference`). Differences that are spelling only are taken out (`chordae.shapes.result`). Real
differences are listed in ``KNOWN_DIFFERENCES``.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from functools import cache, cached_property
from typing import TYPE_CHECKING, Literal, get_args

from chordae.errors import InputError, ShapesError
from chordae.shapes.order import cheap_first
from chordae.shapes.paths import SH
from chordae.shapes.reference import literals_as_written, named_ancestors, reference, reference_cached
from chordae.shapes.result import Result, bare, quote
from chordae.shapes.short import shorten

if TYPE_CHECKING:
    import shacl
    from pyshacl.shapes_graph import ShapesGraph
    from rdflib import Graph

__all__ = [
    "ENGINES",
    "KNOWN_DIFFERENCES",
    "CompiledShapes",
    "Engine",
    "default_engine",
    "plain_term",
    "validate",
]

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
        return named_ancestors(self.graph)


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
            focus=bare(found.focus_node),
            path=found.path or "",
            rule=bare(found.root_shape or found.source_shape or ""),
            value=plain_term(found.value, found.value_plain),
            severity=found.severity_iri.removeprefix(SH),
            component=found.component_iri.removeprefix(SH),
        )
        for found in report.results
    ]


def plain_term(term: str | None, lexical: str | None) -> str:
    """A value as the fast engine reports it, in the spelling of `Result`."""
    if term is None or lexical is None:
        return ""
    if term.startswith("_:"):
        return "_:"
    if not term.startswith('"'):
        return term
    suffix = term[term.rindex('"') + 1 :]
    return quote(lexical) + (suffix.lower() if suffix.startswith("@") else suffix)


_ENGINES: Mapping[Engine, Callable[[str, CompiledShapes], list[Result]]] = {
    "fast": _fast,
    "reference": reference,
    "reference_cached": reference_cached,
}
