"""From a term of ours to codes of outside vocabularies, and back: looked up in one compiled table.

::

    codes_for("double_outlet_right_ventricle")
        HP:0001719          exact   Double outlet right ventricle     2025-11-24
        MONDO:0018089       close   double outlet right ventricle     v2026-05-05
        icd11.code:LA85.2   close   Double outlet right ventricle
        ICD10CM:Q20.1       close   Double outlet right ventricle

The table is written by ``schema/build_mappings.py`` from ``mappings/chordae-*.sssom.tsv``. Rows that say *not this one*
and rows that say *no such term* are kept apart (:func:`never_for`, :func:`searched_for`): they are no codes.

``predicate`` says what the outside term is to ours: ``exact``; ``close``; ``broad``, it is wider; ``narrow``, it is
narrower; ``related``. At most one outside term is exact, over all sets, because exact matches chain: ``same`` is true
of that one and of the close ones that would be exact but for this rule.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, cast

from chordae import resources
from chordae.identifiers import expand

__all__ = [
    "HELD",
    "PREDICATES",
    "Code",
    "Predicate",
    "Searched",
    "codes_for",
    "never_for",
    "never_rows_for",
    "rows_for",
    "searched_for",
    "sets",
    "terms_for",
]

Predicate = Literal["exact", "close", "broad", "narrow", "related"]
PREDICATES: dict[str, Predicate] = {
    "skos:exactMatch": "exact",
    "skos:closeMatch": "close",
    "skos:broadMatch": "broad",
    "skos:narrowMatch": "narrow",
    "skos:relatedMatch": "related",
}
"""Kinds of match of a set to the words used here, closest first."""
HELD = "one exact match a term"
"""``curation_rule_text`` of a close match that would be exact, were there not an exact one already."""

_TABLE = "_generated/mappings.json"
_ORDER = tuple(PREDICATES.values())


@dataclass(frozen=True, slots=True)
class Code:
    """One outside term for a term of ours.

    ``source`` is the file of the set, ``release`` the release of the outside vocabulary that it was judged by,
    ``reviewed`` whether a morphologist has signed the row.
    """

    curie: str
    label: str
    predicate: Predicate
    source: str
    release: str
    reviewed: bool
    same: bool
    comment: str

    @property
    def iri(self) -> str:
        """The identifier written out."""
        return expand(self.curie)


@dataclass(frozen=True, slots=True)
class Searched:
    """A set in which a term was looked for, and no counterpart found."""

    source: str
    release: str
    comment: str


def codes_for(slug: str) -> list[Code]:
    """Return the outside codes of a term, closest first; an empty list for a term without any.

    Parameters
    ----------
    slug
        Name of a term, such as ``tricuspid_valve``. Unknown names have no codes.
    """
    found = [_code(row) for row in _table()["rows"].get(slug, ())]
    return sorted(found, key=lambda one: (_ORDER.index(one.predicate), not one.same, one.source, one.curie))


def never_for(slug: str) -> list[Code]:
    """Return the outside terms that look right and are not: rows with ``predicate_modifier`` ``Not``."""
    return [_code(row) for row in _table()["never"].get(slug, ())]


def searched_for(slug: str) -> list[Searched]:
    """Return the sets in which the term was looked for in vain (``sssom:NoTermFound``)."""
    names = _table()["sets"]
    return [Searched(names[n]["file"], release, comment) for n, release, comment in _table()["none"].get(slug, ())]


def terms_for(curie: str) -> list[tuple[str, Predicate]]:
    """Return the terms of ours that an outside code was mapped to, with what the code is to each."""
    found = _backwards().get(curie, ())
    return sorted(found, key=lambda one: (_ORDER.index(one[1]), one[0]))


def rows_for(curie: str) -> list[tuple[str, Code]]:
    """Return what an outside code is to terms of ours: slug and row, closest first."""
    found = [(slug, code) for slug, _ in terms_for(curie) for code in codes_for(slug) if code.curie == curie]
    return list(dict.fromkeys(found))


def never_rows_for(curie: str) -> list[tuple[str, Code]]:
    """Return the terms of ours that an outside code must never stand for, each with its row."""
    return [(slug, code) for slug in _table()["never"] for code in never_for(slug) if code.curie == curie]


def sets() -> list[Mapping[str, Any]]:
    """Return the sets: ``file``, ``id``, ``title``, ``version``, ``release``, ``source``, ``reviewed``, ``rows``."""
    return list(_table()["sets"])


def _code(row: list[Any]) -> Code:
    number, release, curie, label, predicate, reviewed, same, comment = row
    name = _table()["sets"][number]["file"]
    return Code(curie, label, cast(Predicate, predicate), name, release, reviewed, same, comment)


@cache
def _table() -> dict[str, Any]:
    return cast(dict[str, Any], json.loads(resources.read_bytes(_TABLE)))


@cache
def _backwards() -> dict[str, tuple[tuple[str, Predicate], ...]]:
    found: dict[str, list[tuple[str, Predicate]]] = {}
    for slug, rows in _table()["rows"].items():
        for row in rows:
            found.setdefault(row[2], []).append((slug, row[4]))
    return {curie: tuple(pairs) for curie, pairs in found.items()}
