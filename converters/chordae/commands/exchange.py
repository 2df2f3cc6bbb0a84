"""``chordae exchange``: a collection's catalogue to a deposit folder, and the report of it."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from chordae.commands import parts
from chordae.commands.options import REPORTS, add_fail_on

if TYPE_CHECKING:
    from chordae.exchange import Catalogue, Exchanged
    from chordae.issues import Issue

__all__ = ["add_parser", "run"]


def add_parser(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command."""
    parser = subparsers.add_parser(
        "exchange",
        help="the main job: a catalogue to checked, coded, exchangeable descriptions in a deposit folder",
        description="Read a catalogue in its own words, derive, check, code, and write a deposit folder: records, "
        "derived statements, RDF, issues, report, crosswalk, mappings, versions, digests. A folder that holds the "
        "table, columns.tsv, values.tsv and collection.yaml needs no options.",
    )
    parser.add_argument(
        "input",
        metavar="CATALOGUE",
        nargs="+",
        help="folder of a collection, or a table, or a document of records; several give one deposit each",
    )
    parser.add_argument("--out", metavar="FOLDER", required=True, help="the deposit folder; for several, the one above")
    parser.add_argument("--crosswalk", metavar="FOLDER", help="folder with columns.tsv and values.tsv")
    parser.add_argument("--collection", metavar="FILE", help="collection.yaml, if it stands elsewhere")
    parser.add_argument("--sheet", metavar="NAME", help="sheet of a workbook (default: the first one shown)")
    parser.add_argument("--encoding", metavar="NAME", help="text encoding (default: UTF-8)")
    parser.add_argument("--base", metavar="IRI", help="IRI under which the records stand; ends in / or #")
    parser.add_argument(
        "--without-source",
        action="store_true",
        help="leave the catalogue itself out of the deposit, with all its columns",
    )
    parser.add_argument(
        "--report", choices=REPORTS, default="text",
        help="what to show: the summary, its counts as JSON, the page, or the issues as Turtle (default: text)",
    )  # fmt: skip
    parts.add_options(parser)
    add_fail_on(parser)


def run(args: argparse.Namespace) -> int:
    """Exchange every catalogue named and show the report."""
    from chordae.exchange import exchange, load_steps
    from chordae.issues import SEVERITIES, at_or_above

    folder = parts.folder_of(args, args.input)
    found = [] if folder is not None else _catalogues(args)
    done = [parts.exchange(args, folder)] if folder is not None else []
    done += [exchange(one, out, load_steps(one.base), copy_source=not args.without_source) for one, out in found]
    _show(done, args.report)
    worst = next((one for one in SEVERITIES if any(each.counts["issues"][one] for each in done)), None)
    return 1 if at_or_above(worst, args.fail_on) else 0


def _catalogues(args: argparse.Namespace) -> list[tuple[Catalogue, Path]]:
    """Find all catalogues before any work is done."""
    from chordae.errors import FormatError
    from chordae.exchange import find_catalogue

    for one in args.input:
        _check_input(args, one)
    paths = [Path(one) for one in args.input]
    if len(paths) > 1:
        for option in ("crosswalk", "collection", "sheet", "base"):
            if getattr(args, option) is not None:
                raise FormatError(f"--{option} is for one catalogue.", "Name the catalogues one at a time.")
        if args.report == "html":
            raise FormatError("--report html is for one catalogue.", "Each deposit holds its own data/report.html.")
    names = [path.resolve().name if path.is_dir() else path.stem for path in paths]
    if len(set(names)) < len(names):
        raise FormatError("Two of the catalogues have the same name.", "Name them one at a time.")
    out = Path(args.out)
    return [
        (
            find_catalogue(
                path,
                crosswalk=args.crosswalk and Path(args.crosswalk),
                collection=args.collection and Path(args.collection),
                sheet=args.sheet,
                encoding=args.encoding,
                base=args.base,
            ),
            out / name if len(paths) > 1 else out,
        )
        for path, name in zip(paths, names, strict=True)
    ]


def _issues(one: Exchanged) -> list[Issue]:
    """Read the issues back from the deposit, where all of them stand."""
    import orjson

    from chordae.issues import Issue

    return [Issue.from_json(told) for told in orjson.loads((one.folder / "data" / "issues.json").read_bytes())]


def _check_input(args: argparse.Namespace, name: str) -> None:
    """Refuse what is no catalogue: standard input has no name for the deposit, and no crosswalk beside it."""
    from chordae.errors import FormatError
    from chordae.files import STDIN
    from chordae.formats.table import format_of_name

    if name == STDIN:
        raise FormatError(
            "Exchange needs a catalogue that has a name, because a copy goes into the deposit.",
            "Save it as a file. For records from standard input: chordae derive -, chordae check -.",
        )
    named = format_of_name(name)
    for option in ("crosswalk", "sheet"):
        if named is not None and named.module == "documents" and getattr(args, option) is not None:
            raise FormatError(f"{name} is a document of records; --{option} is for tables.", f"Leave out --{option}.")
    if named is not None and named.module != "documents" and Path(name).is_file():
        raise FormatError(
            f"{name} is {named.label}, and no catalogue.",
            "Exchange takes a table with its crosswalk, or records in YAML, JSON or NDJSON (chordae write --to yaml).",
        )


def _show(done: Sequence[Exchanged], report: str) -> None:
    from chordae.commands.options import write_data
    from chordae.report import make_brief, make_text

    if report == "json":
        import orjson

        counts = [one.counts for one in done]
        write_data(
            orjson.dumps(counts if len(counts) > 1 else counts[0], option=orjson.OPT_INDENT_2).decode() + "\n", None
        )
    elif report == "html":
        write_data(done[0].page, None)
    elif report == "ttl":
        from chordae.report.listing import list_issues

        write_data(list_issues([found for one in done for found in _issues(one)], "ttl"), None)
    else:
        for one in done:
            write_data(make_text(one.counts) + "\n", None)
            page = one.folder / "data" / "report.html"
            write_data(f"{make_brief(one.counts)}\nDeposit: {one.folder}\nReport:  {page}\n\n", None)
    sys.stdout.flush()
