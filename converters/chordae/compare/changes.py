"""Which differences between two descriptions change the diagnosis: each is put into the other description and derived.

::

    A: aorta arises_from right ventricle 70 %         B: 40 %
    With B's word in A: ventriculoarterial connection: concordant in place of double outlet right ventricle.

A part of which no single difference changes anything is tried once more with all of its differences together.
"""

from __future__ import annotations

import copy
from collections.abc import Collection, Mapping, Sequence
from typing import Any, Protocol, TypeAlias

from chordae.compare.grounds import grounds
from chordae.derive import derive
from chordae.record import Record, find_part
from chordae.report.words import CONCLUSIONS, feature_words, term_words, value_words
from chordae.terms import vocabulary

__all__ = ["changed_by"]

_MOST = 60

Part: TypeAlias = Mapping[str, Any]


class _Different(Protocol):
    @property
    def area(self) -> str: ...
    @property
    def slot(self) -> str: ...


def changed_by(
    a: Record,
    b: Record,
    derived_a: Mapping[str, Any],
    derived_b: Mapping[str, Any],
    parts: Mapping[str, str],
    items: Sequence[_Different],
) -> dict[tuple[str, str], tuple[str, ...]]:
    """Try each difference in both directions.

    Parameters
    ----------
    a, b, derived_a, derived_b
        The records and what follows from them.
    parts
        Id of a part of B -> id of the same part of A.
    items
        The differences; only those of parts are tried, at most 60.

    Returns
    -------
    dict
        Area and slot -> sentences on what changes; only differences that change something.
    """
    reverse = {one: other for other, one in parts.items()}
    by_part: dict[str, dict[str, list[str]]] = {}
    for item in list(items)[:_MOST]:
        by_part.setdefault(item.area, {}).setdefault(item.slot.partition(".")[0], []).append(item.slot)
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for area, slots in by_part.items():
        there = reverse.get(area, area)
        mine, theirs = find_part(a, area), find_part(b, there)
        if mine is None or theirs is None:
            continue

        def tried(
            names: Collection[str], area: str = area, there: str = there, mine: Part = mine, theirs: Part = theirs
        ) -> tuple[str, ...]:
            first = _difference(derived_a, derive(_with(a, area, names, theirs, parts)), "B", "A")
            second = _difference(derived_b, derive(_with(b, there, names, mine, reverse)), "A", "B")
            return tuple(one for one in (first, second) if one)

        changes = {slot: tried([slot]) for slot in slots}
        if len(slots) > 1 and not any(changes.values()):
            together = tuple(f"{one} (all differences of this part together)" for one in tried(slots))
            changes = dict.fromkeys(slots, together)
        for slot, told in changes.items():
            for place in slots[slot] if told else ():
                found[area, place] = told
    return found


def _with(record: Record, part_id: str, slots: Collection[str], other: Part, names: Mapping[str, str]) -> Record:
    """Return a record with some properties of one part as another description has them."""
    parts = []
    for part in record.get("parts") or ():
        if part.get("id") == part_id:
            part = {name: value for name, value in part.items() if name not in slots}
            part |= {slot: _renamed(copy.deepcopy(other[slot]), names) for slot in slots if slot in other}
        parts.append(part)
    return {**record, "parts": parts}


def _renamed(value: Any, names: Mapping[str, str]) -> Any:
    if isinstance(value, list):
        return [_renamed(one, names) for one in value]
    if isinstance(value, dict) and "ventricle" in value:
        return {**value, "ventricle": names.get(value["ventricle"], value["ventricle"])}
    return value


def _difference(before: Mapping[str, Any], after: Mapping[str, Any], whose: str, where: str) -> str:
    """Say in one sentence what becomes of a heart with a word of the other description; empty for nothing."""
    told = []
    for key, slot in grounds().conclusions.items():
        old, new = before.get(key), after.get(key)
        if old != new:
            words = [value_words(slot, one) if one else "not determined" for one in (old, new)]
            told.append(f"{CONCLUSIONS.get(slot, feature_words(slot))}: {words[1]} in place of {words[0]}")
    mine, theirs = ({str(one["term"]) for one in derived.get("diagnoses") or ()} for derived in (before, after))
    told += [f"{term_words(term)} follows" for term in _narrowest(theirs - mine)]
    told += [f"{term_words(term)} no longer follows" for term in _narrowest(mine - theirs)]
    return f"With {whose}'s word in {where}: {'; '.join(told)}." if told else ""


def _narrowest(terms: set[str]) -> list[str]:
    """Leave out terms of which a narrower one is named too."""
    return sorted(one for one in terms if not any(other != one and vocabulary().is_a(other, one) for other in terms))
