"""``chordae derive``: records to what follows from them, one JSON object a record, or the account in words."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from chordae.commands.options import add_input, add_report, finish, open_data
from chordae.errors import FormatError

if TYPE_CHECKING:
    from chordae.issues import Issue
    from chordae.record import Record

__all__ = ["add_parser", "run"]


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "derive",
        help="derive identities, connections, notation, sentence and malformations",
        description="Derive what follows from each record: identities, connections, segmental notation, a sentence in "
        "the words of each school, malformations with their premises, and what could not be determined and why. "
        "Stated and derived never mix: the origin of each conclusion is given.",
    )
    add_input(parser, many=True)
    parser.add_argument(
        "--to", choices=("ndjson", "json", "yaml", "text"), help="form of the output (default: one JSON object a line)"
    )
    parser.add_argument(
        "--explain", action="store_true", help="the chain of reasons of each heart, in words (the same as --to text)"
    )
    parser.add_argument("--out", metavar="FILE", help="file to write (default: standard output)")
    add_report(parser)


def run(args: argparse.Namespace) -> int:
    """Read, expand the short form, derive, write each derived object at once, report the issues."""
    from chordae.progress import track

    if args.explain and args.to not in (None, "text"):
        raise FormatError(f"--explain gives words, and --to {args.to} does not.", "Leave one of the two out.")
    issues: list[Issue] = []
    form = "text" if args.explain else args.to or "ndjson"
    with open_data(args.out) as write:
        for piece in _written(track(_records(args, issues), "Deriving"), form):
            write(piece)
    return finish(issues, args)


def _records(args: argparse.Namespace, issues: list[Issue]) -> Iterator[Record]:
    from chordae.commands.inputs import each_full
    from chordae.notation import parse

    for path in args.inputs:
        for full, found in each_full(args, path):
            issues += found
            if full is None:
                continue
            stated = full.record.get("stated")
            text = stated.get("notation") if isinstance(stated, dict) else None
            if isinstance(text, str):
                place = full.place("/stated/notation")
                issues += parse(text, record=full.record.get("id"), location=place)[1]
            yield full.record


def _written(records: Iterator[Record], form: str) -> Iterator[str]:
    from chordae.derive import derive, explain

    if form == "text":
        yield from (explain(derive(record), record) + "\n" for record in records)
        return
    derived = (derive(record) for record in records)
    if form == "ndjson":
        yield from (_json(one) + "\n" for one in derived)
    elif form == "json":
        yield "["
        for number, one in enumerate(derived):
            yield (",\n" if number else "") + _json(one)
        yield "]\n"
    else:
        import yaml

        for one in derived:
            yield yaml.safe_dump(one, sort_keys=False, allow_unicode=True, explicit_start=True, width=120)


def _json(value: dict[str, Any]) -> str:
    import orjson

    return orjson.dumps(value).decode("utf-8")
