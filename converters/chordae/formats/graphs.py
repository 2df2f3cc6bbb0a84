"""Records as RDF: N-Triples, N-Quads, Turtle, TriG, JSON-LD; they hold whatever a record holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from chordae.formats.losses import whole
from chordae.formats.settings import Item, Settings
from chordae.issues import Issue
from chordae.rdf.read import read_rdf
from chordae.rdf.write import write_rdf
from chordae.record import Reading

__all__ = ["read", "write"]


def write(items: Iterable[Item], settings: Settings) -> Iterator[bytes]:
    """Yield the pieces of a document."""

    def noted() -> Iterator[Item]:
        for record, derived in items:
            settings.note(record, whole(record))
            yield record, derived

    return write_rdf(noted(), settings.format, settings.base)


def read(data: bytes, name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read a document; nothing is fetched."""
    return read_rdf(data, format, name)
