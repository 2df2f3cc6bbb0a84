"""From RDF in any of five formats to its statements by subject; nothing is fetched, and what is lost is named.

::

    data  "ntriples" | "nquads" | "turtle" | "trig" | "jsonld"
      |
    Statements   subject -> predicate -> objects (terms of pyoxigraph), over all graphs
    issues       I-RDF-01 not well formed      I-RDF-02 a context that is not shipped with chordae

JSON-LD drops, by its own rules, keys that its context does not know and identifiers that are no IRIs. They are
named in issues, for a record must not lose anything in silence.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from functools import cache
from typing import TYPE_CHECKING, Any

from chordae import resources
from chordae.errors import FormatError
from chordae.files import MAX_DEPTH
from chordae.issues import Issue, Location, issue
from chordae.rdf.emit import DEFAULT_BASE

if TYPE_CHECKING:
    from pyoxigraph import BlankNode, Literal, NamedNode, QuadParser, RdfFormat, Triple

    Term = NamedNode | BlankNode | Literal | Triple

__all__ = ["CONTEXT_FILE", "CONTEXT_IRI", "FORMATS", "Statements", "format_of", "parse", "shipped_context"]

FORMATS: Mapping[str, str] = {
    "ntriples": "N-Triples",
    "nquads": "N-Quads",
    "turtle": "Turtle",
    "trig": "TriG",
    "jsonld": "JSON-LD",
}
"""Names of the formats, and how a sentence names them."""

CONTEXT_FILE = "schema/generated/chordae.context.jsonld"
CONTEXT_IRI = "https://w3id.org/chordae/context/chordae.context.jsonld"
"""A document may name the shipped context by this IRI; it is read from the package."""

_ENDINGS = {".nt": "ntriples", ".nq": "nquads", ".ttl": "turtle", ".trig": "trig", ".jsonld": "jsonld"}
_UNSAFE = re.compile(r"[\x00-\x20<>\"{}|^`\\]")
_KEYWORDS = frozenset({"id", "type"})


class Statements:
    """The statements of one document by subject and predicate; ``count`` is how many there are, each once.

    ``prefixes`` are those that the document declares, with what they stand for.
    """

    def __init__(self) -> None:
        self.by_subject: dict[Term, dict[str, dict[Term, None]]] = {}
        self.count = 0
        self.prefixes: dict[str, str] = {}

    def add(self, subject: Term, predicate: str, value: Term) -> None:
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
    place = Location(name)
    issues: list[Issue] = []
    if format == "jsonld":
        prepared = _localised(data, place, issues)
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


@cache
def shipped_context() -> dict[str, Any]:
    """Return the context that is shipped with chordae, without the key around it."""
    import orjson

    found: dict[str, Any] = orjson.loads(resources.read_bytes(CONTEXT_FILE))["@context"]
    return found


def _localised(data: bytes, place: Location, issues: list[Issue]) -> bytes | None:
    """Put the shipped context in the place of its IRI; refuse any other that would have to be fetched."""
    import orjson

    try:
        document = orjson.loads(data)
    except orjson.JSONDecodeError as error:
        found = Location(place.file, error.lineno, error.colno)
        issues.append(issue("I-RDF-01", location=found, format="JSON-LD", problem=error.msg))
        return None
    work = _Contexts()
    document = work.walk(document, 0)
    if work.deep:
        issues.append(issue("I-DOC-04", location=place, limit=MAX_DEPTH))
    for refused in sorted(work.refused):
        issues.append(issue("I-RDF-02", location=place, value=refused))
    if work.deep or work.refused:
        return None
    for key in sorted(work.keys - work.known) if not work.open else ():
        issues.append(issue("I-RDF-03", location=place, value=key))
    for value in sorted(work.unsafe):
        issues.append(issue("I-RDF-04", location=place, value=value))
    return orjson.dumps(document)


class _Contexts:
    """One walk over a JSON-LD document: contexts put in place, keys and identifiers looked at."""

    def __init__(self) -> None:
        self.refused: set[str] = set()
        self.known: set[str] = set(_KEYWORDS)
        self.keys: set[str] = set()
        self.unsafe: set[str] = set()
        self.open = False
        self.deep = False

    def walk(self, value: Any, depth: int) -> Any:
        if depth > MAX_DEPTH:
            self.deep = True
            return None
        if isinstance(value, list):
            return [self.walk(one, depth + 1) for one in value]
        if not isinstance(value, dict):
            return value
        found: dict[str, Any] = {}
        for key, inner in value.items():
            if key == "@context":
                found[key] = self.context(inner, depth + 1)
                continue
            if key in {"id", "@id"} and isinstance(inner, str) and _UNSAFE.search(inner):
                self.unsafe.add(inner)
            if not key.startswith("@") and ":" not in key:
                self.keys.add(key)
            found[key] = self.walk(inner, depth + 1)
        return found

    def context(self, value: Any, depth: int) -> Any:
        """Look through a context, and the contexts inside its terms."""
        if depth > MAX_DEPTH:
            self.deep = True
            return None
        if isinstance(value, list):
            return [self.context(one, depth + 1) for one in value]
        if value == CONTEXT_IRI:
            self.known |= shipped_context().keys()
            return shipped_context()
        if isinstance(value, str):
            self.refused.add(value)
        if not isinstance(value, dict):
            return value
        found: dict[str, Any] = {}
        self.open = self.open or "@vocab" in value
        for key, inner in value.items():
            if key == "@import":
                self.refused.add(str(inner))
            if isinstance(inner, dict) and "@context" in inner:
                inner = {**inner, "@context": self.context(inner["@context"], depth + 1)}
            found[key] = inner
        self.known |= value.keys()
        return found
