"""What is made of an accepted deposit: its graph, its hearts one a line, the report.

::

    graph.nt.gz      N-Triples, as they go into the named graph of this version
    hearts.ndjson    {"record": {...}, "derived": {...}, "issues": [...]}   one heart a line, found by its bytes
    rows.ndjson      where each heart stands and by what it is known: the rows of the ledger
    counted.nt       what the questions over all hearts need, counted once
    report.json      what the submitter is told

They are kept because a later chordae may derive otherwise: history is what was said then.
"""

from __future__ import annotations

import gzip
import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, replace
from pathlib import Path
from types import TracebackType
from typing import IO, Any

import orjson

from chordae.issues import Issue
from chordae.record import Record
from chordae.registry.counted import Counting, recount
from chordae.registry.ledger import HeartRow
from chordae.registry.package import digest_file

__all__ = [
    "COUNTED",
    "GRAPH",
    "HEARTS",
    "REPORT",
    "ROWS",
    "Made",
    "digests",
    "open_graph",
    "read_counted",
    "read_heart",
    "read_rows",
]

GRAPH, HEARTS, ROWS, COUNTED, REPORT = "graph.nt.gz", "hearts.ndjson", "rows.ndjson", "counted.nt", "report.json"


class Made:
    """The open files; use it in a ``with`` block."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self._raw: IO[bytes] = (folder / GRAPH).open("wb")
        self._graph = gzip.GzipFile("", "wb", compresslevel=1, fileobj=self._raw, mtime=0)
        self._hearts: IO[bytes] = (folder / HEARTS).open("wb")
        self._rows: IO[bytes] = (folder / ROWS).open("wb")
        self._counted: IO[bytes] = (folder / COUNTED).open("wb")
        self._counting = Counting()
        self._place = 0

    def __enter__(self) -> Made:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        try:
            self._graph.close()
            if kind is None:
                self._counted.write(self._counting.triples())
            for stream in (self._raw, self._hearts, self._rows, self._counted):
                stream.flush()
                os.fsync(stream.fileno())
        finally:
            self._raw.close()
            self._hearts.close()
            self._rows.close()
            self._counted.close()

    def add(
        self, row: HeartRow, record: Record, derived: Mapping[str, Any], issues: Sequence[Issue], graph: str
    ) -> HeartRow:
        """Write one heart, and return its row with the place of its line."""
        self._graph.write(graph.encode())
        self._counting.add(row.iri, graph)
        told = {"record": record, "derived": dict(derived), "issues": [one.to_json() for one in issues]}
        line = orjson.dumps(told) + b"\n"
        self._hearts.write(line)
        row = replace(row, place=self._place, length=len(line))
        self._place += len(line)
        self._rows.write(orjson.dumps(asdict(row)) + b"\n")
        return row


def digests(folder: Path) -> dict[str, str]:
    """Return the SHA-256 of each file that was made."""
    return {
        name: digest_file(folder / name) for name in (GRAPH, HEARTS, ROWS, COUNTED, REPORT) if (folder / name).is_file()
    }


@contextmanager
def open_graph(folder: Path) -> Iterator[IO[bytes]]:
    """Open the graph of a version as N-Triples."""
    with gzip.open(folder / GRAPH, "rb") as stream:
        yield stream  # type: ignore[misc]  # gzip's reader is a binary stream in all but its declared type


def read_counted(folder: Path) -> bytes:
    """Return what was counted of a version; a version of an older chordae is counted now."""
    try:
        return (folder / COUNTED).read_bytes()
    except FileNotFoundError:
        with open_graph(folder) as lines:
            return recount((one.iri for one in read_rows(folder)), lines)


def read_rows(folder: Path) -> list[HeartRow]:
    """Return the rows of a version, in the order of its records."""
    with (folder / ROWS).open("rb") as stream:
        found = [orjson.loads(line) for line in stream]
    return [HeartRow(**{**one, "numbers": tuple(one["numbers"])}) for one in found]


def read_heart(folder: Path, row: HeartRow) -> dict[str, Any]:
    """Return record, derived statements and issues of one heart."""
    with (folder / HEARTS).open("rb") as stream:
        stream.seek(row.place)
        found: dict[str, Any] = orjson.loads(stream.read(row.length))
    return found
