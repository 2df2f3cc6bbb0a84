"""Two descriptions of one specimen: what in them cannot both be so.

Compared are conclusions that are derived or stated (never those only expected from others), and facts of the specimen
that do not depend on who looks. What one of them leaves open contradicts nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from chordae.issues import Issue, Location
from chordae.model import enum_of
from chordae.record import Record, pointer
from chordae.shapes.set_rules import set_table
from chordae.terms import School, vocabulary

__all__ = ["Described", "compare", "tell_description"]

_OPEN = frozenset({None, "", "not_assessable", "not_examined", "undetermined"})
_READING = ("observer", "described_on", "reader")


def tell_description(record: Record, derived: Mapping[str, Any]) -> dict[str, Any]:
    """Return what is compared of a description, as plain data.

    Parameters
    ----------
    record, derived
        The record, and what follows from it.

    Returns
    -------
    dict
        ``conclusions`` that are determined, by the key of the derived object; ``facts`` of the specimen; ``reading``:
        observer, date and reading; ``school``; ``stated``: the conclusions that are stated.
    """
    origins = derived.get("origins") or {}
    specimen, description, stated = (record.get(name) or {} for name in ("specimen", "description", "stated"))
    return {
        "conclusions": {
            key: value
            for key in set_table()["conclusions"]
            if isinstance(value := derived.get(key), str) and value not in _OPEN and origins.get(key) != "inferred"
        },
        "facts": {slot: value for slot in set_table()["specimen_facts"] if (value := specimen.get(slot)) not in _OPEN},
        "reading": [description.get(key) for key in _READING],
        "school": description.get("school"),
        "stated": [row["slot"] for row in set_table()["conclusions"].values() if stated.get(row["slot"]) is not None],
    }


@dataclass(frozen=True)
class Described:
    """One description: its number in the set, id, collection, place, later reading or ``None``, digest, and ``tell``,
    which returns what :func:`tell_description` told."""

    number: int
    id: str
    collection: str
    place: Location
    later: str | None
    whole: str
    rest: str | None
    tell: Callable[[], Mapping[str, Any]]

    @cached_property
    def told(self) -> Mapping[str, Any]:
        """What is compared."""
        return self.tell()

    @property
    def school(self) -> School:
        """School in whose words the observer writes."""
        return "north_american" if self.told["school"] == "north_american" else "european"


def compare(later: Described, first: Described, number: str, rule: str, tell: Callable[..., Issue]) -> Iterator[Issue]:
    """Yield what two descriptions of one specimen cannot both be right in.

    Parameters
    ----------
    later, first
        The issue is about the later one.
    number
        The number by which both are one specimen.
    rule
        Rule for conclusions that contradict: ``R-SET-05`` within a collection, ``R-SET-06`` between two.
    tell
        Makes an issue from a description, a rule, a path, and the fields of its sentence.
    """
    if later.whole == first.whole:
        return
    told: dict[str, Any] = {"other": f"heart {first.id}", "number": number}
    here, there = later.told["conclusions"], first.told["conclusions"]
    owner = first.collection or "(not named)"
    for key, row in set_table()["conclusions"].items():
        if key in here and key in there and here[key] != there[key]:
            slot, what = row["slot"], row["words"]
            value, found = (_words(slot, one[key], later.school) for one in (here, there))
            path = pointer("stated", slot) if slot in later.told["stated"] else None
            yield tell(later, rule, path, value=value, found=found, what=what, owner=owner, **told)
    for slot, what in set_table()["specimen_facts"].items():
        mine, other = (one.told["facts"].get(slot) for one in (later, first))
        if mine is not None and other is not None and mine != other:
            value, found = (_words(slot, one, later.school) for one in (mine, other))
            yield tell(later, "R-SET-07", pointer("specimen", slot), value=value, found=found, what=what, **told)
    if rule == "R-SET-05" and later.told["reading"] == first.told["reading"] and later.id != first.id:
        yield tell(later, "R-SET-08", "/description", **told)


def _words(slot: str, value: object, school: School) -> str:
    iri = (enum_of(slot) or {}).get(str(value), "")
    term = vocabulary().get(iri.rpartition("/")[2]) if iri else None
    return term.label(school) if term is not None else str(value).replace("_", " ")
