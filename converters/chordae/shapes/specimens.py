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

__all__ = ["Described", "compare"]

_OPEN = frozenset({None, "", "not_assessable", "not_examined", "undetermined"})
_READING = ("observer", "described_on", "reader")


@dataclass(frozen=True)
class Described:
    """One description: its number in the set, id, collection, place, later reading or ``None``, record, digest."""

    number: int
    id: str
    collection: str
    place: Location
    later: str | None
    record: Record
    whole: bytes
    derive: Callable[[Record], Mapping[str, Any]]

    @cached_property
    def conclusions(self) -> dict[str, str]:
        """The conclusions that are determined, by the key of the derived object."""
        derived = self.derive(self.record)
        origins = derived.get("origins") or {}
        return {
            key: value
            for key in set_table()["conclusions"]
            if isinstance(value := derived.get(key), str) and value not in _OPEN and origins.get(key) != "inferred"
        }

    @property
    def school(self) -> School:
        """School in whose words the observer writes."""
        said = (self.record.get("description") or {}).get("school")
        return "north_american" if said == "north_american" else "european"


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
    here, there = later.conclusions, first.conclusions
    owner = first.collection or "(not named)"
    for key, row in set_table()["conclusions"].items():
        if key in here and key in there and here[key] != there[key]:
            slot, what = row["slot"], row["words"]
            value, found = (_words(slot, one[key], later.school) for one in (here, there))
            yield tell(later, rule, _path(later.record, slot), value=value, found=found, what=what, owner=owner, **told)
    for slot, what in set_table()["specimen_facts"].items():
        mine, other = ((one.record.get("specimen") or {}).get(slot) for one in (later, first))
        if mine not in _OPEN and other not in _OPEN and mine != other:
            value, found = (_words(slot, one, later.school) for one in (mine, other))
            yield tell(later, "R-SET-07", pointer("specimen", slot), value=value, found=found, what=what, **told)
    mine, other = ([(one.record.get("description") or {}).get(key) for key in _READING] for one in (later, first))
    if rule == "R-SET-05" and mine == other and later.id != first.id:
        yield tell(later, "R-SET-08", "/description", **told)


def _path(record: Record, slot: str) -> str | None:
    return pointer("stated", slot) if (record.get("stated") or {}).get(slot) is not None else None


def _words(slot: str, value: object, school: School) -> str:
    iri = (enum_of(slot) or {}).get(str(value), "")
    term = vocabulary().get(iri.rpartition("/")[2]) if iri else None
    return term.label(school) if term is not None else str(value).replace("_", " ")
