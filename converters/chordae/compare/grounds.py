"""What is compared, in which order, which values exclude each other: ``schema/comparison.yaml``, ``disjoint.tsv``."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import yaml

from chordae import model, resources
from chordae.terms import vocabulary

__all__ = ["Grounds", "grounds", "slug_of_value"]


@dataclass(frozen=True)
class Grounds:
    """The tables of comparison.

    ``segments`` are (id, label) in order; ``of_class`` and ``of_area`` give the id of the segment of a class of parts,
    and of another area. ``conclusions`` maps the key of a derived object to the slot that holds its words.
    """

    segments: tuple[tuple[str, str], ...]
    of_class: Mapping[str, str]
    of_area: Mapping[str, str]
    conclusions: Mapping[str, str]
    specimen: frozenset[str]
    own: frozenset[str]
    told_elsewhere: frozenset[str]
    words: frozenset[str]
    identities: frozenset[str]
    exclusive: frozenset[str]
    disjoint: Mapping[str, frozenset[str]]

    def segment(self, area: str, type: str = "") -> str:
        """Return the id of the segment that an area, or a part of a class, belongs to."""
        return self.of_area.get(area) or self.of_class.get(type) or "findings"

    def compared(self, area: str, slot: str) -> bool:
        """Whether a fact is compared by itself."""
        stem = slot.partition(".")[0]
        if area == "specimen":
            return stem in self.specimen
        if area in ("description", "stated") or stem in self.told_elsewhere:
            return False
        known = model.tables().slots.get(stem)
        return known is None or known.kind not in ("text", "uri", "date", "reference") or stem in self.words

    def exclude(self, slot: str, one: str, other: str) -> bool:
        """Whether two different values of a property cannot both be true of one heart.

        So do presence and absence, two conclusions of one kind, two names of one part, and values whose terms stand
        in one group of ``schema/disjoint.tsv``.
        """
        if {one, other} == {"present", "absent"}:
            return True
        if slot in self.conclusions.values() or slot in self.identities or slot in self.exclusive:
            return True
        mine, theirs = slug_of_value(slot, one), slug_of_value(slot, other)
        return any(self._holds(group, mine) and self._holds(group, theirs) for group in self.disjoint.values())

    @staticmethod
    def _holds(group: Iterable[str], slug: str) -> bool:
        return any(vocabulary().is_a(slug, one) for one in group)


def slug_of_value(slot: str, value: str) -> str:
    """Return the term of a value of a slot; the value itself where it has none.

    Examples
    --------
    >>> slug_of_value("topology", "right_hand")
    'right_hand_topology'
    """
    iri = (model.enum_of(slot) or {}).get(value, "")
    return iri.rpartition("/")[2] or value


@cache
def grounds() -> Grounds:
    """Return the tables; read once."""
    read: dict[str, Any] = yaml.safe_load(resources.read_text("schema/comparison.yaml"))
    groups: dict[str, set[str]] = defaultdict(set)
    for line in resources.read_text("schema/disjoint.tsv").splitlines()[1:]:
        group, term, _ = line.split("\t")
        groups[group].add(term)
    segments = read["segments"]
    return Grounds(
        segments=tuple((one["id"], one["label"]) for one in segments),
        of_class={name: one["id"] for one in segments for name in one.get("classes", ())},
        of_area={name: one["id"] for one in segments for name in one.get("areas", ())},
        conclusions={one["key"]: one["slot"] for one in read["conclusions"]},
        specimen=frozenset(read["specimen"]),
        own=frozenset(read["own"]),
        told_elsewhere=frozenset(read["told_elsewhere"]),
        words=frozenset(read["words"]),
        identities=frozenset(read["identities"]),
        exclusive=frozenset(read["exclusive"]),
        disjoint={name: frozenset(terms) for name, terms in groups.items()},
    )
