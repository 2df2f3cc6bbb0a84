"""``chordae read``: a table with its crosswalk, a document or RDF, to records; or a first draft of a crosswalk."""

from __future__ import annotations

import argparse

from chordae.commands.options import add_input, add_report, finish, source_of, write_data
from chordae.issues import Issue

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
    from chordae.intake.document_text import write_document
    from chordae.shortform import expand_reading
    from chordae.structure import check_structure
    from chordae.versions import check_version

    records = []
    issues: list[Issue] = []
    for reading, faults in each_input(args):
        issues += faults
        if reading is not None:
            full, found = expand_reading(reading)
            records.append(full.record)
            issues += [*found, *check_structure(full), *check_version(full)]
    write_data(write_document(records, args.to), args.out)
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
