"""A result of an engine, in one spelling whichever engine found it.

::

    Result(focus, path, rule, value, severity, component)
           <iri>  SPARQL  iri   N-Triples  "Violation" "NotConstraintComponent"
                  path                     "Warning"
                                           "Info"

Differences that are spelling only are taken out: blank nodes become ``_:`` (their labels mean nothing), language tags
are lower case, paths have the one spelling of `chordae.shapes.paths`, and a blank-node shape is named by the nearest
shape around it that has a name.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Result", "bare", "quote"]


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


def bare(term: str) -> str:
    """The IRI of a node in N-Triples syntax without its brackets; ``_:`` of a blank node."""
    if term.startswith("<"):
        return term[1:-1]
    return "_:" if term.startswith("_:") else term


def quote(lexical: str) -> str:
    """The characters of a literal between quotation marks, escaped as N-Triples asks."""
    for character, escape in (("\\", "\\\\"), ('"', '\\"'), ("\n", "\\n"), ("\r", "\\r")):
        lexical = lexical.replace(character, escape)
    return f'"{lexical}"'
