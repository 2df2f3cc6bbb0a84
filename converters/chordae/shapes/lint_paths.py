"""Where a shape goes from a node: slots of its paths, and what its queries ask.

::

    sh:path ( model:parts model:sied )       there is no slot sied
    SELECT ?this WHERE { ... }               does not begin as it must
    ?thing ?property ?value                  of a node that is no part: the rule would not be shown all of it
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from chordae.shapes.paths import RDF, REPEATS, SH
from chordae.shapes.shapes_graph import MODEL, ShapesGraph, plain

if TYPE_CHECKING:
    from chordae.shapes.lint import Names
    from chordae.shapes.shapes_graph import Term

__all__ = ["ANY_SLOT", "lint_paths", "lint_queries"]

ANY_SLOT = re.compile(r"\?\w+\s+\?\w+\s*[.;}]")
"""A query that asks for the value of whatever slot it meets."""


def lint_paths(graph: ShapesGraph, shape: Term, names: Names) -> Iterator[str]:
    """Yield the faults of the paths of a shape, each as the end of a sentence."""
    for _, predicate, term in graph.inside(shape):
        if predicate == SH + "path":
            for iri in _steps(graph, term):
                if not iri.startswith(RDF) and iri.removeprefix(MODEL) not in names.slots:
                    yield f"a path goes over {iri}, which is no slot of the schema."


def _steps(graph: ShapesGraph, node: Term) -> Iterator[str]:
    if type(node).__name__ == "NamedNode":
        yield plain(node)
        return
    for member in graph.members(node):
        yield from _steps(graph, member)
    for predicate in (SH + "inversePath", SH + "alternativePath", *REPEATS):
        for inner in graph.objects(node, predicate):
            yield from _steps(graph, inner)


def lint_queries(graph: ShapesGraph, shape: Term, names: Names) -> Iterator[str]:
    """Yield the faults of the queries of a shape, each as the end of a sentence."""
    import pyoxigraph

    for _, predicate, term in graph.inside(shape):
        if predicate != SH + "select":
            continue
        query = plain(term)
        try:
            pyoxigraph.Store().query(query)
        except SyntaxError as error:
            yield f"its query does not parse: {error}"
        if "SELECT DISTINCT $this" not in query or re.search(r"\bAS \?value|BIND", query):
            yield "its query must begin with SELECT DISTINCT $this and select terms of the graph (engines.py says why)."
        if ANY_SLOT.search(query) and not re.search(r"model:parts \?|\?\w+ model:observed", query):
            yield "its query asks for any slot of a node that is no part (reads.py says why it would not see them all)."
        for name in re.findall(r"\bmodel:([A-Za-z_]+)", query):
            if name not in names.classes | names.slots:
                yield f"its query asks for {name}, which is no class or slot of the schema."
        for name in re.findall(r"\bterm:([a-z][a-z0-9_]*)", query):
            if name not in names.terms:
                yield f"its query asks for {name}, which is no term of the vocabulary."
