"""``chordae write``: what a file holds in one format to another format, stated and derived kept apart.

::

    chordae write hearts.yaml --to fhir --out hearts.fhir.json     records, and beside them what was lost
    chordae write hpo.sssom.tsv --to sssom-json                    a mapping set
    chordae write --vocabulary --to skos                           the vocabulary
    chordae write --template --to xlsx --out empty.xlsx            an empty workbook to fill in
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING

from chordae.commands.options import add_input, add_report, finish, format_word, source_of
from chordae.errors import FormatError
from chordae.files import STDIN
from chordae.formats.table import FORMATS, Format, format_named, names

if TYPE_CHECKING:
    from chordae.formats.settings import Item
    from chordae.issues import Issue

__all__ = ["VOCABULARY", "add_parser", "run"]

VOCABULARY = ("skos", "owl", "jsonld", "csv", "html", "tbx")
"""Forms of the vocabulary, as in :data:`chordae.vocabulary.publish.FORMS`; named here so that --help stays light."""


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "write",
        help="write records in another format",
        description="Read records, from a table, a document or RDF, and write them in another format, in one order. "
        "A value that has not the form of the schema is kept as a remark. Beside a file that cannot hold everything "
        "a list says what was carried coded, as words, or not at all.",
    )
    add_input(parser)
    choices = tuple(dict.fromkeys((*names(to="write"), *VOCABULARY)))
    parser.add_argument(
        "--to", type=format_word, choices=choices, metavar="FORMAT",
        help=f"format to write, or the ending of its files: {', '.join(choices)}",
    )  # fmt: skip
    parser.add_argument("--out", metavar="FILE", help="file, folder or zip to write (default: standard output)")
    parser.add_argument("--base", metavar="IRI", help="IRI under which the records stand; ends in a slash or a hash")
    parser.add_argument("--derived", action="store_true", help="add what follows from the recorded features")
    parser.add_argument("--school", choices=("european", "north_american"), help="whose words to use")
    parser.add_argument("--media", metavar="FOLDER", help="folder with the files of the evidence (iiif: their sizes)")
    parser.add_argument("--losses", metavar="FILE", help="where to say what was carried coded, as words, or dropped")
    parser.add_argument("--vocabulary", action="store_true", help="write the vocabulary instead of records")
    parser.add_argument("--template", action="store_true", help="write an empty workbook to be filled in")
    add_report(parser)


def run(args: argparse.Namespace) -> int:
    """Read, expand, take out what has not the shape, write, report; or write what was asked for instead."""
    _check_options(args)
    if args.vocabulary:
        return _write_vocabulary(args.to or "skos", args.out)
    if args.template:
        return _write_template(args)
    from chordae.commands.inputs import input_format

    format = input_format(source_of(args))
    if format is not None and format.holds != "records":
        return _convert(args, format)
    return _write_records(args, format_named(args.to or "yaml", to="write"))


def _check_options(args: argparse.Namespace) -> None:
    forms = (*VOCABULARY, *names(to="write", holds="vocabulary"))
    for option in ("vocabulary", "template"):
        if getattr(args, option) and args.input != STDIN:
            raise FormatError(f"--{option} reads no input, but {args.input} is named.", "Leave one of the two out.")
    if args.vocabulary and args.to not in (None, *forms):
        hint = f"Use one of {', '.join(forms)}; skos is in Turtle."
        raise FormatError(f"The vocabulary is not written as {args.to}.", hint)
    if not args.vocabulary and args.to in forms and args.to not in names(to="write", holds="records"):
        raise FormatError(f"{args.to} is a form of the vocabulary, not of records.", "Add --vocabulary.")


def _write_records(args: argparse.Namespace, target: Format) -> int:
    from chordae.commands.output import Losses, losses_path, put
    from chordae.formats.settings import Settings
    from chordae.rdf.emit import check_base

    check_base(args.base)
    issues: list[Issue] = []
    path = losses_path(args.out, args.losses)
    settings = Settings(format=target.name, base=args.base, school=args.school, media=args.media)
    losses = Losses(target, settings)
    put(target, _items(args, issues), settings if path is None else settings.noting(losses.note), args.out)
    if path is not None:
        losses.tell(args.out, path)
    return finish(issues, args)


def _items(args: argparse.Namespace, issues: list[Issue]) -> Iterator[Item]:
    from chordae.canonical import canonical
    from chordae.commands.inputs import each_full
    from chordae.progress import track

    for reading, found in track(each_full(args), "Writing"):
        issues += found
        if reading is None or not reading.record.get("id"):
            continue
        record = canonical(reading.record)
        if args.derived:
            from chordae.derive import derive

            record.pop("derived", None)
            yield record, derive(record)
        else:
            yield record, None


def _convert(args: argparse.Namespace, format: Format) -> int:
    """Mapping sets and releases of outside terms, from one format to another that holds the same."""
    from chordae.commands.output import put
    from chordae.formats.opening import open_path
    from chordae.formats.settings import Settings

    target = format_named(args.to or next(names(to="write", holds=format.holds)), to="write", holds=format.holds)
    found, issues = open_path(args.input, format_named(format.name, to="read", holds=format.holds))
    put(target, found, Settings(format=target.name, base=args.base), args.out)
    return finish(issues, args)


def _write_vocabulary(form: str, out: str | None) -> int:
    if form in FORMATS and FORMATS[form].holds == "vocabulary":
        content: bytes = FORMATS[form].load().publish()
    else:
        from chordae.vocabulary.publish import publish

        content = publish(form)
    _put_bytes(content, out)
    return 0


def _write_template(args: argparse.Namespace) -> int:
    from chordae.formats.settings import Settings

    form = args.to or "xlsx"
    module = format_named(form, to="write").load()
    if not hasattr(module, "write_template"):
        raise FormatError(f"There is no template in the format {form}.", "Use --to xlsx.")
    _put_bytes(module.write_template(Settings(format=form, school=args.school)), args.out)
    return 0


def _put_bytes(content: bytes, out: str | None) -> None:
    if out is None or out == "-":
        sys.stdout.buffer.write(content)
        sys.stdout.buffer.flush()
    else:
        from chordae.files import write_aside

        write_aside(out, content)
