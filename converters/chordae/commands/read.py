"""``chordae read``: a table with its crosswalk, a document or RDF, to records; or a first draft of a crosswalk."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from chordae.commands.options import add_input, add_report, finish, open_data, source_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from chordae.issues import Issue
    from chordae.record import Record

__all__ = ["add_parser", "run"]


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "read",
        help="read a table or a document into records",
        description="Read a table with its crosswalk, or a document of records, and write full records. With "
        "--suggest-crosswalk, write first drafts of columns.tsv and values.tsv for a table instead.",
    )
    add_input(parser)
    parser.add_argument("--to", choices=("yaml", "json", "ndjson"), default="yaml", help="format to write")
    parser.add_argument("--out", metavar="PATH", help="file for the records, or folder for the drafts")
    parser.add_argument("--suggest-crosswalk", metavar="TABLE", help="draft a crosswalk for this table")
    add_report(parser)


def run(args: argparse.Namespace) -> int:
    """Read, expand the short form, check the structure, write the records, report the issues."""
    if args.suggest_crosswalk is not None:
        return _suggest(args)
    from chordae.commands.inputs import each_input
    from chordae.intake.document_text import document_pieces
    from chordae.progress import track
    from chordae.shortform import expand_reading
    from chordae.structure import check_structure
    from chordae.versions import check_version

    issues: list[Issue] = []

    def records() -> Iterator[Record]:
        for reading, faults in each_input(args):
            issues.extend(faults)
            if reading is not None:
                full, found = expand_reading(reading)
                issues.extend([*found, *check_structure(full), *check_version(full)])
                yield full.record

    with open_data(args.out) as write:
        for piece in document_pieces(track(records(), "Reading"), args.to):
            write(piece)
    return finish(issues, args)


def _suggest(args: argparse.Namespace) -> int:
    from chordae.errors import FormatError
    from chordae.intake.suggest import suggest_crosswalk
    from chordae.intake.table import read_table

    if args.out is None:
        raise FormatError("Where should the drafts go?", "Name a folder with --out.")
    delimiter = source_of(args).delimiter
    table, issues = read_table(args.suggest_crosswalk, sheet=args.sheet, encoding=args.encoding, delimiter=delimiter)
    suggest_crosswalk(table).write(args.out)
    return finish(issues, args)
