"""By what a heart may be known again in another collection: its numbers, and its derived facts together.

::

    numbers   own:0012  other:tb-0101         what the collection calls it, and what it is called elsewhere
    facts     digest of arrangement, topology, connections and malformations, if these tell anything

Two collections may both have a number 12: that is no sign. A sign is a number that one collection *says* the heart has
elsewhere and that another collection calls its own, or that both say.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from typing import Any

from chordae.issues import Issue, Location, issue
from chordae.record import Record
from chordae.registry.ledger import HeartRow, Ledger

__all__ = ["FEW", "facts_of", "numbers_of", "seen_elsewhere"]

FEW = 3
"""Facts that more hearts than this share tell nothing."""
_LEAST = 2
"""Facts with fewer malformations than this tell nothing."""
_FRAME = ("arrangement", "topology", "av_connection", "va_connection")
_SPACE = re.compile(r"\s+")


def numbers_of(record: Record) -> tuple[str, ...]:
    """Return the numbers that a heart is known by.

    Examples
    --------
    >>> numbers_of({"id": "1", "specimen": {"accession": "TB-0101", "other_numbers": ["0003"]}})
    ('own:tb-0101', 'other:0003')
    """
    specimen = record.get("specimen") or {}
    own = [f"own:{_plain(specimen['accession'])}"] if specimen.get("accession") else []
    return tuple(own + [f"other:{_plain(one)}" for one in specimen.get("other_numbers") or ()])


def facts_of(derived: Mapping[str, Any]) -> str:
    """Return the digest of the facts of a heart; ``""`` if these tell too little.

    All four of arrangement, topology and connections must be determined, with two malformations or more.
    """
    frame = [derived.get(name) for name in _FRAME]
    terms = sorted({str(one.get("term")) for one in derived.get("diagnoses") or ()})
    if not all(isinstance(one, str) and one not in ("", "undetermined") for one in frame) or len(terms) < _LEAST:
        return ""
    return hashlib.sha256("|".join([*map(str, frame), *terms]).encode()).hexdigest()


def seen_elsewhere(row: HeartRow, record: Record, collection: str, ledger: Ledger, place: Location) -> Iterator[Issue]:
    """Yield what the current versions of other collections hold that may be the same heart.

    Parameters
    ----------
    row, record
        The heart.
    collection
        Its collection.
    ledger
        What is known.
    place
        Place of the record.
    """

    def told(rule: str, owner: str, other: str, **fields: Any) -> Issue:
        return issue(rule, record=row.record, location=place, owner=owner, other=other, path="/specimen", **fields)

    for owner, other, _ in ledger.elsewhere("iri", row.iri, collection, 1):
        yield told("I-REG-04", owner, other)
    loan = _plain((record.get("specimen") or {}).get("loan_from"))
    found: dict[tuple[str, str], str] = {}
    for number in row.numbers:
        kind, _, words = number.partition(":")
        for query in (f"own:{words}", f"other:{words}") if kind == "other" else (f"other:{words}",):
            for owner, other, _ in ledger.elsewhere("said", query, collection, 2 * FEW):
                found.setdefault((owner, other), words)
    for (owner, other), words in sorted(found.items()):
        declared = bool(loan) and loan in (_plain(owner), _plain(_name(owner, ledger)))
        yield told("I-REG-05" if declared else "I-REG-06", owner, other, value=words)
    if row.facts:
        alike = ledger.elsewhere("facts", row.facts, collection, FEW + 1)
        if len(alike) <= FEW:
            for owner, other, _ in alike:
                if (owner, other) not in found:
                    yield told("I-REG-07", owner, other)


def _name(collection: str, ledger: Ledger) -> object:
    head = ledger.head(collection)
    return head.body.get("name") if head else None


def _plain(value: object) -> str:
    return _SPACE.sub("", str(value or "")).casefold()
