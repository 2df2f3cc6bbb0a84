"""``chordae write``: records in one format to records in another, stated and derived kept apart."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from chordae.commands.options import add_input, add_report, finish
from chordae.errors import FormatError

if TYPE_CHECKING:
    from chordae.issues import Issue
    from chordae.record import Record

    Item = tuple[Record, Mapping[str, Any] | None]

__all__ = ["FORMATS", "VOCABULARY", "add_parser", "run"]

VOCABULARY = ("skos", "owl", "jsonld", "csv", "html")
"""Forms of the vocabulary, as in :data:`chordae.vocabulary.publish.FORMS`; named here so that --help stays light."""


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "write",
        help="write records in another format",
        description="Read records, from a table, a document or RDF, and write them in another format, in one order. "
        "A value that has not the form of the schema is kept as a remark.",
    )
    add_input(parser)
    parser.add_argument(
        "--to", choices=tuple(dict.fromkeys((*FORMATS, *VOCABULARY))), help="format to write (default: yaml; skos)"
    )
    parser.add_argument("--out", metavar="FILE", help="file to write (default: standard output)")
    parser.add_argument("--base", metavar="IRI", help="IRI under which the records stand; ends in a slash or a hash")
    parser.add_argument("--derived", action="store_true", help="add what follows from the recorded features")
    parser.add_argument(
        "--vocabulary", action="store_true", help=f"write the vocabulary instead of records: {', '.join(VOCABULARY)}"
    )
    add_report(parser)


def run(args: argparse.Namespace) -> int:
    """Read, expand, take out what has not the shape, write, report; or write the vocabulary."""
    if args.vocabulary:
        return _write_vocabulary(args.to or "skos", args.out)
    args.to = args.to or "yaml"
    if args.to not in FORMATS:
        raise FormatError(f"Records are not written as {args.to}.", "Use --vocabulary to write the vocabulary so.")
    from chordae.rdf.emit import check_base

    check_base(args.base)
    issues: list[Issue] = []
    pieces = FORMATS[args.to](_items(args, issues), args.base)
    if args.out is None or args.out == "-":
        for piece in pieces:
            sys.stdout.buffer.write(piece)
        sys.stdout.buffer.flush()
    else:
        from chordae.files import open_aside

        with open_aside(args.out) as stream:
            for piece in pieces:
                stream.write(piece)
    return finish(issues, args)


def _write_vocabulary(form: str, out: str | None) -> int:
    from chordae.files import write_aside
    from chordae.vocabulary.publish import publish

    content = publish(form)
    if out is None or out == "-":
        sys.stdout.buffer.write(content)
        sys.stdout.buffer.flush()
    else:
        write_aside(out, content)
    return 0


def _items(args: argparse.Namespace, issues: list[Issue]) -> Iterator[Item]:
    from chordae.canonical import canonical
    from chordae.commands.inputs import each_full
    from chordae.progress import track

    for reading, found in track(each_full(args), "Writing"):
        issues += found
        if reading is None or not reading.record.get("id"):
            continue
        derived = None
        if args.derived:
            from chordae.derive import derive

            derived = derive(reading.record)
        yield canonical(reading.record), derived


def _document(format: str) -> Callable[[Iterable[Item], str | None], Iterator[bytes]]:
    def write(items: Iterable[Item], base: str | None) -> Iterator[bytes]:
        from chordae.intake.document_text import write_document
        from chordae.rdf.derived import as_node

        records = (record if derived is None else {**record, "derived": as_node(derived)} for record, derived in items)
        if format == "ndjson":
            for record in records:
                yield write_document([record], format).encode()
        else:
            yield write_document(records, format).encode()

    return write


def _rdf(format: str) -> Callable[[Iterable[Item], str | None], Iterator[bytes]]:
    def write(items: Iterable[Item], base: str | None) -> Iterator[bytes]:
        from chordae.rdf.write import write_rdf

        return write_rdf(items, format, base)

    return write


FORMATS: dict[str, Callable[[Iterable[Item], str | None], Iterator[bytes]]] = {
    "yaml": _document("yaml"),
    "json": _document("json"),
    "ndjson": _document("ndjson"),
    "turtle": _rdf("turtle"),
    "ntriples": _rdf("ntriples"),
    "nquads": _rdf("nquads"),
    "trig": _rdf("trig"),
    "jsonld": _rdf("jsonld"),
}
"""Format -> what writes it, piece by piece. A further format is one more row."""
