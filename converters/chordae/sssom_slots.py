"""The slots of SSSOM: what a set and a row may say, of what kind, once or several times, and the property in RDF.

::

    slot             of_set  of_row  kind       several  property                              words
    author_label             yes     text       yes      https://w3id.org/sssom/author_label
    predicate_modifier       yes     word                https://w3id.org/sssom/predicate_...  Not=https://...
    object_id                yes     reference           http://www.w3.org/2002/07/owl#annotatedTarget

The table is ``mappings/sssom_slots.tsv``. Kinds: ``reference`` (a CURIE), ``iri``, ``text``, ``date``, ``number``,
``word`` (one of a list; those with a meaning in RDF under ``words``), ``prefixes``.

Source: SSSOM 1.1 (https://mapping-commons.github.io/sssom/), slots, ranges and ``slot_uri`` of its LinkML schema as in
the package ``sssom-schema`` 1.1.0a5; ``derived_from`` as in ``sssom-pydantic`` 0.6.10.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from chordae import resources

__all__ = ["Slot", "by_property", "join_values", "slots", "split_values"]

_TABLE = "mappings/sssom_slots.tsv"
_BAR = re.compile(r"(?<!\\)\|")


@dataclass(frozen=True, slots=True)
class Slot:
    """One slot; ``words`` maps a word of its list to the IRI that stands for it in RDF."""

    name: str
    of_set: bool
    of_row: bool
    kind: str
    several: bool
    property: str
    words: Mapping[str, str]


@cache
def slots() -> Mapping[str, Slot]:
    """Return every slot by its name."""
    rows = csv.DictReader(io.StringIO(resources.read_text(_TABLE)), delimiter="\t", quoting=csv.QUOTE_NONE)
    found: dict[str, Slot] = {}
    for row in rows:
        words = dict(pair.split("=", 1) for pair in filter(None, (row["words"] or "").split("|")))
        found[row["slot"]] = Slot(
            row["slot"],
            row["of_set"] == "yes",
            row["of_row"] == "yes",
            row["kind"],
            row["several"] == "yes",
            row["property"],
            MappingProxyType(words),
        )
    return MappingProxyType(found)


@cache
def by_property() -> Mapping[str, Slot]:
    """Return every slot by its property in RDF."""
    return MappingProxyType({one.property: one for one in slots().values()})


def split_values(cell: str) -> list[str]:
    r"""Return the values of a cell that may hold several; ``\|`` is a bar within a value.

    Examples
    --------
    >>> split_values(r"Thorngate|Aldersey \| Wey")
    ['Thorngate', 'Aldersey | Wey']
    """
    return [one.replace("\\|", "|") for one in _BAR.split(cell)]


def join_values(values: Iterable[str]) -> str:
    r"""Return the cell for several values; the inverse of :func:`split_values`.

    Raises
    ------
    ValueError
        A value ends in a backslash and another follows it: the two could not be told apart again.

    Examples
    --------
    >>> join_values(["Thorngate", "Aldersey | Wey"])
    'Thorngate|Aldersey \\| Wey'
    """
    listed = list(values)
    if any(one.endswith("\\") for one in listed[:-1]):
        raise ValueError("a value ends in a backslash")
    return "|".join(one.replace("|", "\\|") for one in listed)
