"""From the input that a command is given to readings, whatever it is: a table, a document, or any format that is read.

The format is known by the ending of the name, or by ``--from``; a table by its crosswalk.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import TYPE_CHECKING

from chordae.commands.options import source_of
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
    if source.columns is not None:
        return None
    named = format_of_name(source.path)
    if source.tabular and (named is None or named.holds == "records"):
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
        The input is of a format that holds no records, or that is not read.
    """
    from chordae.intake.source import each_of

    source = source_of(args, path)
    format = input_format(source)
    if format is None or format.module == "documents":
        yield from each_of(source)
        return
    from chordae.formats.opening import open_path

    readings, issues = open_path(source.path, format_named(format.name, to="read"))
    yield None, issues
    for reading in readings:
        yield reading, []


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
