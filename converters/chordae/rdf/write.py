"""From records to whole documents: N-Triples, N-Quads, Turtle, TriG, JSON-LD; one record after the other.

N-Triples and N-Quads are written as the records come. In N-Quads and TriG each record has a graph of its own, named
``<record>/graph``. Turtle and TriG get prefixes; JSON-LD holds the shipped context itself, so that nothing has to be
fetched to read it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from chordae.errors import FormatError
from chordae.rdf.contexts import shipped_context
from chordae.rdf.emit import check_base, emit_lines, record_iri
from chordae.rdf.jsonld import as_jsonld, context_for
from chordae.record import Record

__all__ = ["PREFIXES", "WRITERS", "write_rdf"]

PREFIXES: Mapping[str, str] = {
    "model": "https://w3id.org/chordae/model/",
    "prov": "http://www.w3.org/ns/prov#",
    "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "rdfs": "http://www.w3.org/2000/01/rdf-schema#",
    "term": "https://w3id.org/chordae/term/",
    "xsd": "http://www.w3.org/2001/XMLSchema#",
}

Item = tuple[Record, Mapping[str, Any] | None]
"""A record, and what is derived from it, or ``None``."""


def write_rdf(
    items: Iterable[Item], format: str, base: str | None = None, provenance: Mapping[str, str] | None = None
) -> Iterator[bytes]:
    """Yield the pieces of a document.

    Parameters
    ----------
    items
        Records, each with its derived statements or ``None``.
    format
        ntriples, nquads, turtle, trig or jsonld.
    base, provenance
        As for :func:`chordae.rdf.emit.emit`; JSON-LD holds no provenance.

    Raises
    ------
    FormatError
        The format or the base is not one that can be used.
    InputError
        A record is not shaped like a record.
    """
    if format not in WRITERS:
        raise FormatError(f"{format!r} is no RDF format.", f"Formats are: {', '.join(WRITERS)}.")
    return WRITERS[format](items, check_base(base), provenance)


def _ntriples(items: Iterable[Item], base: str, provenance: Mapping[str, str] | None) -> Iterator[bytes]:
    for record, derived in items:
        yield "".join(f"{line}\n" for line in emit_lines(record, derived, base, provenance)).encode()


def _nquads(items: Iterable[Item], base: str, provenance: Mapping[str, str] | None) -> Iterator[bytes]:
    for record, derived in items:
        graph = f"<{record_iri(record['id'], base)}/graph> ."
        yield "".join(f"{line[:-1]}{graph}\n" for line in emit_lines(record, derived, base, provenance)).encode()


def _turtle(items: Iterable[Item], base: str, provenance: Mapping[str, str] | None) -> Iterator[bytes]:
    yield _head(base)
    for text in _ntriples(items, base, provenance):
        yield _body(text, base)


def _trig(items: Iterable[Item], base: str, provenance: Mapping[str, str] | None) -> Iterator[bytes]:
    yield _head(base)
    for item in items:
        (text,) = _ntriples([item], base, provenance)
        yield f"<{record_iri(item[0]['id'], base)}/graph> {{\n".encode() + _body(text, base) + b"}\n"


def _jsonld(items: Iterable[Item], base: str, provenance: Mapping[str, str] | None) -> Iterator[bytes]:
    import orjson

    yield b'{"@context":' + orjson.dumps(context_for(base, shipped_context())) + b',\n"@graph":['
    start = b"\n"
    for record, derived in items:
        for node in as_jsonld(record, derived, base):
            yield start + orjson.dumps(node)
            start = b",\n"
    yield b"\n]}\n"


def _head(base: str) -> bytes:
    prefixes = "".join(f"@prefix {name}: <{iri}> .\n" for name, iri in PREFIXES.items())
    return f"@base <{base}> .\n{prefixes}".encode()


def _body(ntriples: bytes, base: str) -> bytes:
    """Turtle without its head of base and prefixes, which stands once at the beginning of the document."""
    import pyoxigraph

    triples = (quad.triple for quad in pyoxigraph.parse(ntriples, format=pyoxigraph.RdfFormat.N_TRIPLES))
    turtle = pyoxigraph.RdfFormat.TURTLE
    text = pyoxigraph.serialize(triples, format=turtle, prefixes=dict(PREFIXES), base_iri=base) or b""
    lines = text.split(b"\n")
    return b"\n".join(line for line in lines if not line.startswith((b"@prefix ", b"@base ")))


WRITERS: Mapping[str, Callable[[Iterable[Item], str, Mapping[str, str] | None], Iterator[bytes]]] = {
    "ntriples": _ntriples,
    "nquads": _nquads,
    "turtle": _turtle,
    "trig": _trig,
    "jsonld": _jsonld,
}
"""Format -> what writes it."""
