"""Options that several commands share, and how a command ends.

::

    INPUT                     a table, a document of records, or -
    --crosswalk, --columns, --values, --sheet, --encoding, --delimiter, --from, --collection
    --report, --report-to     the list of issues: its form, and where it goes
    --fail-on                 the severity from which the exit code is 1
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from chordae.errors import FormatError
from chordae.files import STDIN
from chordae.formats.table import FORMATS, names
from chordae.issues import Issue, at_or_above, worst

if TYPE_CHECKING:
    from chordae.intake.source import Source

__all__ = [
    "add_fail_on",
    "add_from",
    "add_input",
    "add_report",
    "check_stdin",
    "count_from",
    "finish",
    "format_for",
    "format_word",
    "open_data",
    "source_of",
    "tell",
    "words_of",
    "write_data",
]

REPORTS = ("text", "json", "ttl", "html")


def format_word(word: str) -> str:
    """Return the name of the format that a word stands for: its name, or the ending of its files; else the word.

    Examples
    --------
    >>> format_word("ttl"), format_word(".nq"), format_word("turtle"), format_word("yml"), format_word("odt")
    ('turtle', 'nquads', 'turtle', 'yaml', 'odt')
    """
    ending = f".{word.lower().lstrip('.')}"
    named = next((one.name for one in FORMATS.values() if ending in one.suffixes), word)
    return word if word in FORMATS else named


def format_for(args: argparse.Namespace, path: str) -> str | None:
    """Return the format that ``--from`` gives to an input: of several with standard input among them, to that one."""
    inputs = getattr(args, "inputs", ())
    given: str | None = args.format
    return given if path == STDIN or STDIN not in inputs else None


def count_from(least: int) -> Callable[[str], int]:
    """Return a reader of an option that is a whole number, at least ``least``.

    Examples
    --------
    >>> count_from(1)("12")
    12
    """

    def read(text: str) -> int:
        try:
            value = int(text)
        except ValueError:
            raise argparse.ArgumentTypeError(f"{text!r} is not a whole number") from None
        if value < least:
            raise argparse.ArgumentTypeError(f"must be at least {least}, not {value}")
        return value

    return read


def check_stdin(inputs: Sequence[str]) -> None:
    """Refuse standard input named twice: it can be read only once."""
    if inputs.count(STDIN) > 1:
        raise FormatError("Standard input (-) is named twice, but can be read only once.", "Name a file for the other.")


def words_of(given: Sequence[str]) -> list[str]:
    """Return words as they were given, with the lines of standard input in place of ``-``; empty ones left out.

    Raises
    ------
    InputError
        Standard input is not text.
    """
    check_stdin(given)
    found: list[str] = []
    for one in given:
        if one != STDIN:
            found.append(one)
            continue
        from chordae.files import read_input
        from chordae.intake.encoding import decode

        found += decode(read_input(STDIN), "standard input")[0].splitlines()
    return [" ".join(one.split()) for one in found if one.strip()]


def add_input(parser: argparse.ArgumentParser, *, many: bool = False) -> None:
    """Add the input file, or with ``many`` any number of them, and the options on how to read it."""
    words = "table, document of records, or a file of any format that is read; - for standard input"
    if many:
        parser.add_argument("inputs", metavar="INPUT", nargs="*", default=["-"], help=words)
    else:
        parser.add_argument("input", metavar="INPUT", nargs="?", default="-", help=words)
    group = parser.add_argument_group("reading a table")
    group.add_argument("--crosswalk", metavar="FOLDER", help="folder with columns.tsv and values.tsv")
    group.add_argument("--columns", metavar="FILE", help="columns.tsv, if it stands elsewhere")
    group.add_argument("--values", metavar="FILE", help="values.tsv, if it stands elsewhere")
    group.add_argument("--sheet", metavar="NAME", help="sheet of a workbook (default: the first one shown)")
    group.add_argument("--delimiter", metavar="SIGN", help="comma, semicolon or tab (default: found from the file)")
    group.add_argument("--collection", metavar="ID", help="identifier of the collection, if the table does not say it")
    group = parser.add_argument_group("reading any file")
    group.add_argument("--encoding", metavar="NAME", help="text encoding (default: UTF-8)")
    add_from(group)


def add_from(parser: argparse._ActionsContainer) -> None:
    """Add the option on the format of the input."""
    known = tuple(names(to="read"))
    parser.add_argument(
        "--from",
        "--format",
        dest="format",
        type=format_word,
        choices=known,
        metavar="FORMAT",
        help=f"format of the input, or the ending of its name (default: from its name): {', '.join(known)}",
    )


def add_report(parser: argparse.ArgumentParser, *, stdout: bool = False) -> None:
    """Add the options on the list of issues; it goes to standard error, or to standard output if nothing else does."""
    where = "standard output" if stdout else "standard error"
    group = parser.add_argument_group("issues")
    group.add_argument("--report", choices=REPORTS, default="text", help="form of the list of issues (default: text)")
    group.add_argument("--report-to", metavar="FILE", help=f"write the list to a file (default: {where})")
    parser.set_defaults(report_on_stdout=stdout)
    add_fail_on(parser)


def add_fail_on(parser: argparse.ArgumentParser) -> None:
    """Add the option on the exit code."""
    parser.add_argument(
        "--fail-on",
        choices=("violation", "warning", "info", "never"),
        default="violation",
        help="exit with 1 if there is an issue of this severity or worse (default: violation)",
    )


def source_of(args: argparse.Namespace, path: str | None = None) -> Source:
    """Return what to read, from the options of :func:`add_input`; ``path`` is one of several inputs."""
    from chordae.intake.source import Source, find_crosswalk

    columns, values = args.columns, args.values
    if args.crosswalk is not None:
        found = find_crosswalk(args.crosswalk)
        columns, values = columns or found[0], values or found[1]
    signs = {"comma": ",", "semicolon": ";", "tab": "\t"}
    return Source(
        path=args.input if path is None else path,
        columns=columns,
        values=values,
        sheet=args.sheet,
        encoding=args.encoding,
        delimiter=signs.get(args.delimiter, args.delimiter),
        format=format_for(args, args.input if path is None else path),
        collection=args.collection,
    )


@contextmanager
def open_data(path: str | None) -> Iterator[Callable[[str], object]]:
    """Yield what writes a piece of data, to a file that is there whole or not at all, or to standard output at once."""
    if path is None or path == "-":
        yield lambda text: sys.stdout.buffer.write(text.encode())
        sys.stdout.buffer.flush()
        return
    from chordae.files import open_aside

    with open_aside(path) as stream:
        yield lambda text: stream.write(text.encode())


def write_data(text: str, path: str | None) -> None:
    """Write data to a file, whole or not at all, or to standard output."""
    if path is None or path == "-":
        sys.stdout.buffer.write(text.encode())
        sys.stdout.buffer.flush()
        return
    from chordae.files import write_aside

    write_aside(Path(path), text)


def finish(issues: Sequence[Issue], args: argparse.Namespace) -> int:
    """Write the list of issues and return the exit code: 1 from the severity of ``--fail-on``, else 0."""
    tell(issues, args)
    return 1 if at_or_above(worst(issues), args.fail_on) else 0


def tell(issues: Sequence[Issue], args: argparse.Namespace) -> None:
    """Write the list of issues in the form and to the place that were asked for."""
    from chordae.report.listing import list_issues

    text = list_issues(issues, args.report)
    if args.report_to is not None:
        write_data(text, args.report_to)
    elif args.report_on_stdout:
        write_data(text, None)
    elif issues or args.report != "text":
        sys.stderr.write(text)
