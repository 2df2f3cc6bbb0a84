"""From records, one after another, to the files of a deposit; nothing but the open files is kept.

::

    records.ndjson  records.yaml  derived.ndjson  records.nq  records.ttl  issues.json  issues.tsv

Every file is UTF-8 with ``\\n``. In records.nq each record is a graph of its own, named by the record's IRI.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import ExitStack
from pathlib import Path
from types import TracebackType
from typing import IO, Any

import orjson
import pyoxigraph

from chordae.formulas import guarded
from chordae.intake.document_text import in_order, to_json
from chordae.intake.yaml_write import write_yaml
from chordae.issues import Issue
from chordae.record import Record

__all__ = ["ISSUE_COLUMNS", "PREFIXES", "Payload", "issue_row"]

PREFIXES: Mapping[str, str] = {
    "model": "https://w3id.org/chordae/model/",
    "term": "https://w3id.org/chordae/term/",
    "xsd": "http://www.w3.org/2001/XMLSchema#",
}
ISSUE_COLUMNS = (
    "severity",
    "rule",
    "record",
    "part",
    "value",
    "message",
    "hint",
    "file",
    "sheet",
    "line",
    "column",
    "path",
)

_NAMES = ("records.ndjson", "records.yaml", "derived.ndjson", "records.nq", "records.ttl", "issues.json", "issues.tsv")


class Payload:
    """The open files of a deposit that is being written; use it in a ``with`` block.

    Parameters
    ----------
    folder
        Where the files are made.
    """

    def __init__(self, folder: Path) -> None:
        self._stack = ExitStack()
        self._files: dict[str, IO[bytes]] = {}
        self._folder = folder
        self._first_issue = True
        self._records = 0

    def __enter__(self) -> Payload:
        for name in _NAMES:
            self._files[name] = self._stack.enter_context((self._folder / name).open("wb"))
        head = "".join(f"@prefix {name}: <{iri}> .\n" for name, iri in PREFIXES.items())
        self._files["records.ttl"].write(head.encode())
        self._files["issues.json"].write(b"[")
        self._files["issues.tsv"].write(("\t".join(ISSUE_COLUMNS) + "\n").encode())
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if kind is None:
            self._files["issues.json"].write(b"]\n" if self._first_issue else b"\n]\n")
            if not self._records:
                self._files["records.yaml"].write(b"[]\n")
        self._stack.close()

    def add(self, record: Record, derived: Mapping[str, Any]) -> None:
        """Write one record and what was derived from it."""
        self._records += 1
        ordered = in_order(record)
        self._files["records.ndjson"].write(f"{to_json(ordered)}\n".encode())
        self._files["records.yaml"].write(write_yaml(ordered).encode())
        self._files["derived.ndjson"].write(orjson.dumps(derived) + b"\n")

    def add_graph(self, iri: str, graph: str) -> None:
        """Write the N-Triples of one record as a named graph, and as Turtle."""
        if not graph:
            return
        # Inside a literal a line never ends: N-Triples writes \\n for it.
        self._files["records.nq"].write(graph.replace(" .\n", f" <{iri}> .\n").encode())
        triples = pyoxigraph.parse(graph, format=pyoxigraph.RdfFormat.N_TRIPLES)
        turtle = pyoxigraph.serialize(triples, format=pyoxigraph.RdfFormat.TURTLE, prefixes=dict(PREFIXES)) or b""
        heads = len(PREFIXES)
        self._files["records.ttl"].write(b"\n" + turtle.split(b"\n", heads)[heads])

    def add_issues(self, issues: Iterable[Issue]) -> None:
        """Write issues, as JSON and as a row of the table."""
        for one in issues:
            self._files["issues.json"].write((b"\n" if self._first_issue else b",\n") + orjson.dumps(one.to_json()))
            self._first_issue = False
            self._files["issues.tsv"].write(issue_row(one))


def issue_row(one: Issue) -> bytes:
    """Return an issue as a row of issues.tsv."""
    told = one.to_json()
    row = {**told, **told["location"]}
    return ("\t".join(_cell(row.get(name)) for name in ISSUE_COLUMNS) + "\n").encode()


def _cell(value: object) -> str:
    """Return a value as a cell: one line, and never something that a spreadsheet would calculate."""
    return guarded(" ".join(("" if value is None else str(value)).split()))
