"""Mapping sets in the three forms of SSSOM: a table (TSV), JSON, and RDF as Turtle; each read strictly, each written.

Rows in = rows out + issues in every form, and a row with ``Not`` or ``sssom:NoTermFound`` stays what it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from chordae.errors import FormatError
from chordae.formats.settings import Settings
from chordae.formats.sssom_graph import read_graph_sets, write_graph_sets
from chordae.formats.sssom_json import read_json_set, write_json_set
from chordae.issues import Issue
from chordae.sssom import MappingSet, read_mappings, write_mappings

__all__ = ["read", "write"]


def write(items: Iterable[MappingSet], settings: Settings) -> Iterator[bytes]:
    """Yield the pieces of a file.

    Raises
    ------
    FormatError
        There are several sets, and the form holds one.
    """
    sets = list(items)
    if settings.format == "sssom-rdf":
        yield write_graph_sets(sets)
        return
    if len(sets) != 1:
        raise FormatError(f"This form holds one mapping set, and there are {len(sets)}.", "Use --to sssom-rdf.")
    yield (write_json_set(sets[0]) if settings.format == "sssom-json" else write_mappings(sets[0])).encode()


def read(data: bytes, name: str, format: str) -> tuple[list[MappingSet], list[Issue]]:
    """Read the sets of a file."""
    if format == "sssom-rdf":
        return read_graph_sets(data, name)
    found, issues = read_json_set(data, name) if format == "sssom-json" else read_mappings(data, name)
    return [found], issues
