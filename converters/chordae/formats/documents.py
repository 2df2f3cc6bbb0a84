"""Records as YAML, JSON and NDJSON: the forms in which they are kept; they hold whatever a record holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from chordae.formats.losses import whole
from chordae.formats.settings import Item, Settings
from chordae.intake.document import read_document
from chordae.intake.document_text import write_document
from chordae.issues import Issue
from chordae.rdf.derived import as_node
from chordae.record import Reading, Record

__all__ = ["read", "write"]


def write(items: Iterable[Item], settings: Settings) -> Iterator[bytes]:
    """Yield the pieces of a document; an NDJSON document a record at a time."""

    def full() -> Iterator[Record]:
        for record, derived in items:
            settings.note(record, whole(record))
            yield record if derived is None else {**record, "derived": as_node(derived)}

    if settings.format == "ndjson":
        for record in full():
            yield write_document([record], "ndjson").encode()
    else:
        yield write_document(full(), settings.format).encode()


def read(data: bytes, name: str, format: str) -> tuple[list[Reading], list[Issue]]:
    """Read a document as a whole; ``chordae.intake.document.each_reading`` reads one record after the other."""
    return read_document(name, data=data, format=format)
