"""From the input that a command is given to readings, whatever it is: a table, a document, or any format that is read.

The format is known by the ending of the name, or by ``--from``; a table by its crosswalk.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from chordae.commands.options import check_stdin, source_of
from chordae.errors import FormatError
from chordae.files import STDIN
from chordae.formats.table import Format, format_named, format_of_name

if TYPE_CHECKING:
    from chordae.intake.source import Source
    from chordae.issues import Issue
    from chordae.record import Reading

__all__ = ["each_full", "each_input", "input_format"]


def input_format(source: Source) -> Format | None:
    """Return the format of an input, whatever it holds; ``None`` for a table, or where only the text can tell."""
    from chordae.formats.table import FORMATS

    if source.format is not None:
        return FORMATS.get(source.format) or format_named(source.format, to="read")
    named = format_of_name(source.path)
    if source.columns is not None and (named is None or source.path == STDIN):
        return None
    if named is None and source.tabular:
        from chordae.formats.recognise import is_template

        return FORMATS["xlsx"] if is_template(source.path) else None
    return named


def each_input(args: argparse.Namespace, path: str | None = None) -> Iterator[tuple[Reading | None, list[Issue]]]:
    """Yield readings as they were written, each with its issues; ``None`` with issues that belong to no record.

    Parameters
    ----------
    args
        With the options of :func:`chordae.commands.options.add_input`.
    path
        One of several inputs; by default ``args.input``.

    Raises
    ------
    FormatError
        The input is of a format that holds no records, or that is not read; or an option cannot apply to it.
    """
    from chordae.intake.source import each_of

    check_stdin(getattr(args, "inputs", ()))
    source = source_of(args, path)
    format = input_format(source)
    _check_options(args, source, format)
    if format is None or format.module == "documents":
        yield from each_of(source if format is None else replace(source, columns=None, values=None))
        return
    from chordae.formats.opening import open_path

    readings, issues = open_path(source.path, format_named(format.name, to="read"))
    yield None, issues
    for reading in readings:
        yield reading, []


def _check_options(args: argparse.Namespace, source: Source, format: Format | None) -> None:
    """Refuse an option that could do nothing for the only input; of several inputs each takes what is meant for it."""
    if len(getattr(args, "inputs", ())) > 1 or (format is None and source.path == STDIN):
        return
    if source.tabular and format is None:
        return  # the table is read first: whether it is a workbook shows in the file
    label = "a document of records" if format is None or format.module == "documents" else format.label
    options = ["crosswalk", "columns", "values", "sheet", "delimiter", "collection"]
    if format is not None and format.module != "documents":
        options.append("encoding")
    name = "Standard input" if source.path == STDIN else source.path
    for option in options:
        if getattr(args, option) is not None:
            use = "text of another encoding than UTF-8" if option == "encoding" else "catalogues in tables"
            raise FormatError(f"{name} is {label}; --{option} is for {use}.", f"Leave out --{option}.")


def each_full(args: argparse.Namespace, path: str | None = None) -> Iterator[tuple[Reading | None, list[Issue]]]:
    """Yield full records that have the shape of the schema, with every issue met on the way."""
    from chordae.shortform import expand_reading
    from chordae.soundness import make_sound

    for reading, issues in each_input(args, path):
        if reading is None:
            yield None, issues
            continue
        full, found = expand_reading(reading)
        sound, faults = make_sound(full)
        yield sound, [*issues, *found, *faults]
