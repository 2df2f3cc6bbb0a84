"""From what a store answers to bytes: SPARQL results as JSON or CSV, graphs as N-Triples, with a limit on the size.

::

    answer(store, Ask(...)) -> Answer(b'{"head": ...}', "application/sparql-results+json", rows 12, cut False)

References
----------
SPARQL 1.1 Query Results JSON Format, and CSV Format, Recommendations of 21 March 2013.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import orjson
import pyoxigraph as ox

__all__ = ["KINDS", "Answer", "Ask", "answer"]

KINDS = {
    "json": "application/sparql-results+json",
    "csv": "text/csv; charset=utf-8",
    "nt": "application/n-triples",
}
_XSD_STRING = "http://www.w3.org/2001/XMLSchema#string"


@dataclass(frozen=True, slots=True)
class Ask:
    """What is asked, of which graphs, and how much may be answered.

    ``default`` are the graphs asked where the query names none, ``named`` those that GRAPH may name.
    """

    text: str
    default: tuple[str, ...] = ()
    named: tuple[str, ...] = ()
    kind: str = "json"
    rows: int = 10_000
    size: int = 10 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Answer:
    """The bytes, their media type, and whether a limit cut them short."""

    data: bytes
    kind: str
    rows: int
    cut: bool = False


def answer(store: ox.Store, ask: Ask) -> Answer:
    """Carry out a query that was looked at.

    Raises
    ------
    SyntaxError, OSError
        As the store does.
    """
    found = store.query(
        ask.text,
        default_graph=[ox.NamedNode(one) for one in ask.default],
        named_graphs=[ox.NamedNode(one) for one in ask.named],
    )
    if isinstance(found, ox.QueryBoolean):
        return Answer(orjson.dumps({"head": {}, "boolean": bool(found)}), KINDS["json"], 1)
    if isinstance(found, ox.QuerySolutions):
        names = [one.value for one in found.variables]
        rows = ([solution[name] for name in names] for solution in found)
        return _csv(names, rows, ask) if ask.kind == "csv" else _json(names, rows, ask)
    return _graph(found, ask)


def _json(names: list[str], rows: Iterator[list[Any]], ask: Ask) -> Answer:
    head = b'{"head":' + orjson.dumps({"vars": names}) + b',"results":{"bindings":['
    pieces: list[bytes] = []
    size, cut = len(head), False
    for row in rows:
        told = {name: _term(term) for name, term in zip(names, row, strict=True) if term is not None}
        piece = orjson.dumps(told)
        size += len(piece) + 1
        if len(pieces) >= ask.rows or size > ask.size:
            cut = True
            break
        pieces.append(piece)
    tail = b"]}" + (b',"cut":true' if cut else b"") + b"}"
    return Answer(head + b",".join(pieces) + tail, KINDS["json"], len(pieces), cut)


def _csv(names: list[str], rows: Iterator[list[Any]], ask: Ask) -> Answer:
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(names)
    count = 0
    for row in rows:
        if count >= ask.rows or out.tell() > ask.size:
            return Answer(out.getvalue().encode(), KINDS["csv"], count, True)
        writer.writerow(["" if term is None else getattr(term, "value", str(term)) for term in row])
        count += 1
    return Answer(out.getvalue().encode(), KINDS["csv"], count)


def _graph(triples: Any, ask: Ask) -> Answer:
    lines: list[str] = []
    size = 0
    for one in triples:
        line = f"{one} .\n"
        size += len(line.encode())
        if len(lines) >= ask.rows or size > ask.size:
            return Answer("".join(lines).encode(), KINDS["nt"], len(lines), True)
        lines.append(line)
    return Answer("".join(lines).encode(), KINDS["nt"], len(lines))


def _term(term: Any) -> dict[str, str]:
    if isinstance(term, ox.NamedNode):
        return {"type": "uri", "value": term.value}
    if isinstance(term, ox.BlankNode):
        return {"type": "bnode", "value": term.value}
    if isinstance(term, ox.Literal):
        told = {"type": "literal", "value": term.value}
        if term.language:
            told["xml:lang"] = term.language
        elif term.datatype.value != _XSD_STRING:
            told["datatype"] = term.datatype.value
        return told
    return {"type": "literal", "value": str(term)}
