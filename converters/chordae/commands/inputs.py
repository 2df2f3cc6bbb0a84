"""From the input that a command is given to readings, whatever it is: a table, a document, or RDF.

RDF is known by its name (``.nt .nq .ttl .trig .jsonld``) or by ``--format``.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from typing import TYPE_CHECKING

from chordae.commands.options import source_of

if TYPE_CHECKING:
    from chordae.issues import Issue
    from chordae.record import Reading

__all__ = ["each_full", "each_input"]


def each_input(args: argparse.Namespace, path: str | None = None) -> Iterator[tuple[Reading | None, list[Issue]]]:
    """Yield readings as they were written, each with its issues; ``None`` with issues that belong to no record.

    Parameters
    ----------
    args
        With the options of :func:`chordae.commands.options.add_input`.
    path
        One of several inputs; by default ``args.input``.
    """
    from chordae.intake.source import each_of
    from chordae.rdf.parse import FORMATS, format_of

    source = source_of(args, path)
    format = source.format if source.format in FORMATS else None
    if format is None and source.format is None and source.columns is None:
        format = format_of(source.path)
    if format is None:
        yield from each_of(source)
        return
    from chordae.files import read_input
    from chordae.rdf.read import read_rdf

    name = "standard input" if source.path == "-" else source.path
    readings, issues = read_rdf(read_input(source.path), format, name)
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
