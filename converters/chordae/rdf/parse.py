"""From RDF in any of five formats to its statements by subject; nothing is fetched, and what is lost is named.

::

    data  "ntriples" | "nquads" | "turtle" | "trig" | "jsonld"
      |
    Statements   subject -> predicate -> objects (terms of pyoxigraph), over all graphs
    issues       I-RDF-01 not well formed      I-RDF-02 a context that is not shipped with chordae

What JSON-LD would drop is looked for before (:mod:`chordae.rdf.contexts`).
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING

from chordae.errors import FormatError
from chordae.issues import Issue, Location, issue
from chordae.rdf.contexts import localised
from chordae.rdf.emit import DEFAULT_BASE

if TYPE_CHECKING:
    from pyoxigraph import BlankNode, Literal, NamedNode, QuadParser, RdfFormat, Triple

    Term = NamedNode | BlankNode | Literal | Triple

__all__ = ["FORMATS", "Statements", "format_of", "parse"]

FORMATS: Mapping[str, str] = {
    "ntriples": "N-Triples",
    "nquads": "N-Quads",
    "turtle": "Turtle",
    "trig": "TriG",
    "jsonld": "JSON-LD",
}
"""Names of the formats, and how a sentence names them."""

_ENDINGS = {".nt": "ntriples", ".nq": "nquads", ".ttl": "turtle", ".trig": "trig", ".jsonld": "jsonld"}


class Statements:
    """The statements of one document by subject and predicate; ``count`` is how many there are, each once.

    ``prefixes`` are those that the document declares, with what they stand for.
    """

    def __init__(self) -> None:
        self.by_subject: dict[Term, dict[str, dict[Term, None]]] = {}
        self.count = 0
        self.prefixes: dict[str, str] = {}

    def add(self, subject: Term, predicate: str, value: Term) -> None:
        """Add a statement; one that is there already is not counted again."""
        values = self.by_subject.setdefault(subject, {}).setdefault(predicate, {})
        if value not in values:
            values[value] = None
            self.count += 1

    def of(self, subject: Term) -> Mapping[str, Collection[Term]]:
        """Return predicate -> objects of a subject."""
        return self.by_subject.get(subject, {})


def format_of(name: str) -> str | None:
    """Return the format that the ending of a file name stands for.

    Examples
    --------
    >>> format_of("hearts.ttl"), format_of("hearts.csv")
    ('turtle', None)
    """
    return next((found for ending, found in _ENDINGS.items() if name.lower().endswith(ending)), None)


def parse(data: bytes, format: str, name: str | None = None) -> tuple[Statements, list[Issue]]:
    """Read a document.

    Parameters
    ----------
    data
        The document, UTF-8.
    format
        A key of ``FORMATS``.
    name
        Name of the file, for the places of issues.

    Returns
    -------
    tuple[Statements, list[Issue]]
        Where the document is not well formed, the statements before the fault.

    Raises
    ------
    FormatError
        The format is not one of them.
    """
    if format not in FORMATS:
        raise FormatError(f"{format!r} is no RDF format.", f"Formats are: {', '.join(FORMATS)}.")
    issues: list[Issue] = []
    if format == "jsonld":
        prepared = localised(data, name, issues)
        if prepared is None:
            return Statements(), issues
        data = prepared
    statements = Statements()
    try:
        quads = _quads(data, format)
        for quad in quads:
            statements.add(quad.subject, quad.predicate.value, quad.object)
        statements.prefixes = quads.prefixes
    except SyntaxError as error:
        # pyoxigraph gives the line and column where it stopped; a file in another encoding is told in the same way.
        found = Location(name, error.lineno, error.offset)
        issues.append(issue("I-RDF-01", location=found, format=FORMATS[format], problem=_problem(error)))
    return statements, issues


def _quads(data: bytes, format: str) -> QuadParser:
    import pyoxigraph

    kinds: dict[str, RdfFormat] = {
        "ntriples": pyoxigraph.RdfFormat.N_TRIPLES,
        "nquads": pyoxigraph.RdfFormat.N_QUADS,
        "turtle": pyoxigraph.RdfFormat.TURTLE,
        "trig": pyoxigraph.RdfFormat.TRIG,
        "jsonld": pyoxigraph.RdfFormat.JSON_LD,
    }
    base = DEFAULT_BASE if format in {"turtle", "trig", "jsonld"} else None
    return pyoxigraph.parse(data, format=kinds[format], base_iri=base)


def _problem(error: SyntaxError) -> str:
    words = re.sub(r"^Parser error at (line \d+ (between columns \d+ and \d+|column \d+)(?: and)?.*?): ", "", error.msg)
    return words.strip().rstrip(".")[:200]
