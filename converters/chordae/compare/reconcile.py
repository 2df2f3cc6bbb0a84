"""Two descriptions of one heart to a third: the agreed facts, where each comes from, and what stays open.

::

    A  aorta arises_from right ventricle 70 %     B  40 %          ->  open question, unless somebody settled it
    A  leaflet_count 3                            B  3             ->  3         found in A and B
    A  (silent)                                   B  apex left     ->  left      found in B
    A  left_sided, anterior                       B  anterior      ->  A's       found in A; B says less

Nothing is invented: every value of the third description stands in one of the two, or was given by the person who
settled a difference, with name and reason. Conclusions are taken over only where they were *stated*; what follows from
the third description is derived from it anew.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from chordae.canonical import canonical
from chordae.compare.grounds import grounds
from chordae.compare.hearts import compare
from chordae.compare.origins import Origins, shown
from chordae.compare.settled import Settled
from chordae.issues import Issue
from chordae.record import Record, find_part
from chordae.resources import VERSION

__all__ = ["reconcile"]

_IDENTITY = ("id", "type", "observed", "note")
_DIFFERENT = frozenset({"differ", "contradict"})


def reconcile(
    a: Record,
    b: Record,
    settled: Sequence[Settled] = (),
    bases: tuple[str | None, str | None] = (None, None),
    day: str | None = None,
) -> tuple[Record, list[Issue]]:
    """Reconcile two descriptions.

    Parameters
    ----------
    a, b
        Full records of one heart.
    settled
        Differences that somebody settled; those of other hearts are passed over.
    bases
        Base IRIs of the records of A and of B.
    day
        Date of the third description (year-month-day).

    Returns
    -------
    tuple
        The third record, with ``reconciliation``; and an issue for each decision on a place where nothing differs.
    """
    found = compare(a, b)
    origins = Origins(found, [one for one in settled if one.heart in (a.get("id"), b.get("id"))], bases)
    work = _Work(a, b, origins, found.parts)
    record: Record = {"id": f"{a['id']}.{b['id']}"[:128], "vocabulary_version": VERSION}
    record["specimen"] = work.specimen()
    record["description"] = work.description(day)
    parts = [work.part(part_id) for part_id in work.part_ids()]
    record["parts"] = [part for part in parts if len(part) > len(("id", "type"))]
    record["stated"] = work.stated()
    record["measurements"] = work.measurements()
    record["remarks"] = work.words + [
        {**one, "place": f"{of['id']}: {one.get('place', '')}".rstrip(": ")}
        for of in (a, b)
        for one in of.get("remarks") or ()
    ]
    made: dict[str, Any] = {"derived_from": list(dict.fromkeys(origins.iris)), "settled_on": day}
    made |= {"settled_by": ", ".join(origins.people()), "origins": origins.rows, "open_questions": origins.questions}
    record["reconciliation"] = {name: value for name, value in made.items() if value}
    return canonical({name: value for name, value in record.items() if value}), origins.unused()


class _Work:
    """Puts the sections of the third record together."""

    def __init__(self, a: Record, b: Record, origins: Origins, names: Mapping[str, str]) -> None:
        self.a, self.b, self.origins, self.names = a, b, origins, names
        self.words: list[dict[str, str]] = []

    def part_ids(self) -> list[str]:
        """Return the parts of both, those of A first; a part of B goes by the name that A gives it."""
        mine = [str(part["id"]) for part in self.a.get("parts") or ()]
        theirs = [self.names.get(str(part["id"]), str(part["id"])) for part in self.b.get("parts") or ()]
        return list(dict.fromkeys([*mine, *theirs]))

    def part(self, part_id: str) -> dict[str, Any]:
        """Put one part together."""
        mine = find_part(self.a, part_id)
        there = self.origins.reverse.get(part_id, part_id)
        theirs = find_part(self.b, there) if part_id in self.origins.reverse or mine is None else None
        first: Mapping[str, Any] = mine or theirs or {}
        one: Mapping[str, Any] = mine or {}
        other: Mapping[str, Any] = {name: self._renamed(value) for name, value in (theirs or {}).items()}
        if "contradict" in self.origins.verdicts(part_id, "state"):
            one, other = self._there_or_not(part_id, one, other)
        part: dict[str, Any] = {"id": part_id, "type": first.get("type")}
        entries: dict[str, Any] = {}
        for slot in dict.fromkeys((*one, *other)):
            if slot in _IDENTITY:
                continue
            value, sides = self.origins.choose(part_id, slot, one.get(slot), other.get(slot))
            if value is not None:
                part[slot] = value
            if sides:
                entries.update((slot, entry) for entry in _entries(one if 0 in sides else other, slot))
        for side, of in enumerate((one, other)):
            for entry in of.get("observed") or ():
                feature = str(entry.get("feature"))
                if feature not in entries and feature not in one and feature not in other:
                    entries[feature] = entry
                    self.origins.note(f"{part_id}.{feature}", (side,), part_id)
        if entries:
            # Evidence stays with the description it belongs to; here a reference to it would point nowhere.
            part["observed"] = [
                {name: value for name, value in entry.items() if name != "evidence_refs"} for entry in entries.values()
            ]
        notes = [f"{of['id']}: {told['note']}" for of, told in ((self.a, one), (self.b, other)) if told.get("note")]
        return part | ({"note": "; ".join(notes)} if notes else {})

    def _there_or_not(
        self, part_id: str, one: Mapping[str, Any], other: Mapping[str, Any]
    ) -> tuple[Mapping[str, Any], Mapping[str, Any]]:
        """Keep what one says of a part that is absent to the other: what was settled, else nothing."""
        states = [of.get("state") or "present" for of in (one, other)]
        _, sides = self.origins.differ(part_id, "state", *states)
        nothing: Mapping[str, Any] = {}
        return (one if 0 in sides else nothing), (other if 1 in sides else nothing)

    def specimen(self) -> dict[str, Any]:
        """Put the section on the specimen together; what is the collection's own is taken from A."""
        mine, theirs = self.a.get("specimen") or {}, self.b.get("specimen") or {}
        made: dict[str, Any] = {}
        for slot in dict.fromkeys((*mine, *theirs)):
            one, other = mine.get(slot), theirs.get(slot)
            if slot in grounds().own and one is not None and one != other:
                value, _ = self.origins.take("specimen", slot, one, (0,), "each collection has its own")
            else:
                value, _ = self.origins.choose("specimen", slot, one, other)
            if value is not None:
                made[slot] = value
        number = theirs.get("accession")
        if number and number != made.get("accession"):
            made["other_numbers"] = list(dict.fromkeys([*(made.get("other_numbers") or []), str(number)]))
        return made

    def description(self, day: str | None) -> dict[str, Any]:
        """Name both observers; the school only where both wrote in the words of one."""
        both = [of.get("description") or {} for of in (self.a, self.b)]
        observers = dict.fromkeys(str(one["observer"]) for one in both if one.get("observer"))
        looked = dict.fromkeys(way for one in both for way in one.get("examination") or ())
        made = {
            "observer": "; ".join(observers), "described_on": day, "reader": "reconciled", "examination": list(looked),
        }  # fmt: skip
        if both[0].get("school") and both[0].get("school") == both[1].get("school"):
            made["school"] = both[0]["school"]
        return {name: value for name, value in made.items() if value}

    def stated(self) -> dict[str, Any]:
        """Take over the conclusions that were stated, unless the two descriptions differ in them."""
        mine, theirs = self.a.get("stated") or {}, self.b.get("stated") or {}
        made: dict[str, Any] = {}
        for slot in grounds().conclusions.values():
            one, other = mine.get(slot), theirs.get(slot)
            if one is None and other is None:
                continue
            apart = self.origins.verdicts("conclusions", slot) & _DIFFERENT
            decide = self.origins.differ if apart else self.origins.choose
            made[slot], _ = decide("stated", slot, one, other)
        made["diagnoses"] = self._diagnoses(mine.get("diagnoses") or (), theirs.get("diagnoses") or ())
        for slot in dict.fromkeys((*mine, *theirs)):
            one, other = mine.get(slot), theirs.get(slot)
            if slot in made or slot in (*grounds().conclusions.values(), "diagnoses"):
                continue
            if one == other:
                made[slot], _ = self.origins.take("stated", slot, one, (0, 1))
            else:
                # A sentence or a set speaks of the whole heart: where the two have different ones, both stay as words.
                self.words += [
                    {"text": f"{slot.replace('_', ' ')}: {shown(told)}", "place": str(of["id"])}
                    for of, told in ((self.a, one), (self.b, other))
                    if told is not None
                ]
        return {name: value for name, value in made.items() if value}

    def measurements(self) -> list[dict[str, Any]]:
        """Take over every measurement; two numbers for the same thing are a question."""
        mine = [dict(one) for one in self.a.get("measurements") or ()]
        theirs = [dict(one) for one in self.b.get("measurements") or ()]
        for one in theirs:
            if one.get("part"):
                one["part"] = self.names.get(str(one["part"]), one["part"])
        made: list[dict[str, Any]] = []
        for about in dict.fromkeys(_about(one) for one in (*mine, *theirs)):
            what = ".".join(["measurements", *(str(part) for part in about if part)])
            first, second = ([one for one in of if _about(one) == about] for of in (mine, theirs))
            values = [{one.get("value") for one in of} for of in (first, second)]
            only = [values[0] - values[1], values[1] - values[0]]
            if only[0] and only[1]:
                told = [
                    " and ".join(f"{one['value']} {one.get('unit', '')}".strip() for one in of)
                    for of in (first, second)
                ]
                self.origins.ask(what, told)
            for side, of in ((0, first), (1, [one for one in second if one.get("value") in only[1]])):
                for one in of:
                    if one.get("value") not in only[side] or not (only[0] and only[1]):
                        made.append({**one, "id": f"m{len(made) + 1}"})
                        both = one.get("value") in values[0] & values[1]
                        self.origins.note(what, (0, 1) if both else (side,), "measurements")
        return made

    def _diagnoses(self, mine: Sequence[str], theirs: Sequence[str]) -> list[str]:
        kept = []
        for term in dict.fromkeys((*mine, *theirs)):
            sides = tuple(side for side, named in enumerate((mine, theirs)) if term in named)
            what = f"stated.diagnoses.{term}"
            if self.origins.verdicts("diagnoses", term) & _DIFFERENT:
                self.origins.ask(what, [term if side in sides else "excluded" for side in (0, 1)])
                continue
            kept.append(term)
            self.origins.note(what, sides, "stated")
        return kept

    def _renamed(self, value: Any) -> Any:
        if isinstance(value, list):
            return [self._renamed(one) for one in value]
        if isinstance(value, dict) and "ventricle" in value:
            return {**value, "ventricle": self.names.get(str(value["ventricle"]), value["ventricle"])}
        return value


def _entries(part: Mapping[str, Any], slot: str) -> list[Any]:
    return [one for one in part.get("observed") or () if one.get("feature") == slot]


def _about(measurement: Mapping[str, Any]) -> tuple[Any, ...]:
    return tuple(measurement.get(name) for name in ("part", "quantity", "site", "method", "material_state", "unit"))
