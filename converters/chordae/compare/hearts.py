"""Two descriptions of one heart, part by part: what agrees, what differs, and which difference changes the diagnosis.

::

    compare(a, b) -> Comparison
        verdict            agree | differ | contradict           over all items; silence is no difference
        items              Item(segment, area, slot, a, b, verdict, changes), those that change the diagnosis first

Both records are derived first, so that the words of both schools, notation and features meet as conclusions. A
difference *changes the diagnosis* if, put into the other description, it leads to other conclusions or malformations:
this is tried for each difference, not looked up.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from chordae.compare.align import align, aligned_facts
from chordae.compare.changes import changed_by
from chordae.compare.grounds import grounds
from chordae.compare.verdicts import ORDER, Verdict, judge, judge_terms
from chordae.derive import derive
from chordae.facts import Fact
from chordae.record import Record
from chordae.report.words import basis_words
from chordae.terms import vocabulary

__all__ = ["Comparison", "Item", "Said", "compare"]

_ITSELF = "This is the diagnosis itself."
_DIFFERENT: tuple[Verdict, ...] = ("contradict", "differ", "more_specific", "less_specific")


@dataclass(frozen=True, slots=True)
class Said:
    """What one description says at a place: values, state if there are none, and where it comes from.

    ``origin`` is ``observed``, or for a conclusion ``evidence``, ``inferred`` or ``stated``.
    """

    values: tuple[str, ...] = ()
    state: str = "not_recorded"
    reason: str = ""
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Item:
    """One place compared. ``area`` is the part as A names it; ``changes`` says what the difference would change."""

    segment: str
    area: str
    slot: str
    a: Said
    b: Said
    verdict: Verdict
    changes: tuple[str, ...] = ()
    because: str = ""

    @property
    def different(self) -> bool:
        """Whether the two do not say the same."""
        return self.verdict in _DIFFERENT


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two descriptions compared; ``parts`` maps ids of B's parts to those of A."""

    a: Record
    b: Record
    derived_a: Mapping[str, Any]
    derived_b: Mapping[str, Any]
    parts: Mapping[str, str]
    items: tuple[Item, ...]

    @property
    def verdict(self) -> Literal["agree", "differ", "contradict"]:
        """The worst that was found; one more or less specific than the other agrees."""
        found = {one.verdict for one in self.items}
        return "contradict" if "contradict" in found else "differ" if "differ" in found else "agree"

    @property
    def diagnostic(self) -> tuple[Item, ...]:
        """The differences that change the diagnosis."""
        return tuple(one for one in self.items if one.changes)

    def counts(self) -> dict[Verdict, int]:
        """How many items have each verdict, in the order of ``ORDER``."""
        counted = Counter(one.verdict for one in self.items)
        return {name: counted[name] for name in ORDER if counted[name]}


def compare(a: Record, b: Record) -> Comparison:
    """Compare two full records of one heart.

    Parameters
    ----------
    a, b
        Full records; short forms are expanded before. They are not changed.
    """
    first, second = derive(a), derive(b)
    parts = align(a, b, first, second)
    mine, theirs = aligned_facts(a, {}), aligned_facts(b, parts)
    names = {str(one.get("id")): str(one.get("type")) for record in (b, a) for one in record.get("parts") or ()}
    items = [*_conclusions(first, second), *_malformations(a, b, first, second)]
    reverse = {one: other for other, one in parts.items()}
    for place in dict.fromkeys((*mine, *theirs)):
        area, slot = place
        if not grounds().compared(area, slot):
            continue
        verdict = judge(slot, mine.get(place, ()), theirs.get(place, ()))
        if verdict is None:
            continue
        segment = grounds().segment(area, names.get(area) or names.get(reverse.get(area, ""), ""))
        item = Item(segment, area, slot, _said(mine.get(place)), _said(theirs.get(place)), verdict)
        items.append(item)
    items += _missing_parts(items, mine, theirs, names)
    seen = changed_by(a, b, first, second, parts, [one for one in items if one.different])
    done = [replace(one, changes=seen.get((one.area, one.slot), one.changes)) for one in items]
    order = {name: at for at, (name, _) in enumerate(grounds().segments)}
    done.sort(key=lambda one: (not one.changes, ORDER.index(one.verdict), order[one.segment]))
    return Comparison(a, b, first, second, parts, tuple(done))


def _conclusions(first: Mapping[str, Any], second: Mapping[str, Any]) -> Iterator[Item]:
    for key, slot in grounds().conclusions.items():
        values = [_conclusion(derived, key) for derived in (first, second)]
        facts = [[Fact("stated", slot, one.values[0], "present")] if one.values else [] for one in values]
        verdict = judge(slot, facts[0], facts[1])
        if verdict is not None:
            changes = (_ITSELF,) if verdict in _DIFFERENT else ()
            yield Item("conclusions", "conclusions", slot, values[0], values[1], verdict, changes)


def _conclusion(derived: Mapping[str, Any], key: str) -> Said:
    value = derived.get(key)
    if not value:
        return Said()
    return Said((str(value),), "present", "", str((derived.get("origins") or {}).get(key) or "evidence"))


def _malformations(a: Record, b: Record, first: Mapping[str, Any], second: Mapping[str, Any]) -> Iterator[Item]:
    """Compare the malformations, stated or derived; one that the other's features exclude is a contradiction."""
    mine, theirs = _named(a, first), _named(b, second)
    against = [_excluded(b, mine.keys() - theirs.keys()), _excluded(a, theirs.keys() - mine.keys())]
    for term in dict.fromkeys((*mine, *theirs)):
        sides = [Said((term,), "present", "", named[term]) if term in named else None for named in (mine, theirs)]
        number = 0 if term in mine else 1
        if sides[0] and sides[1]:
            yield Item("malformations", "diagnoses", term, sides[0], sides[1], "agree")
            continue
        own, others = (mine, theirs) if number == 0 else (theirs, mine)
        related = [(judge_terms(term, other), other) for other in others]
        verdict: Verdict = "silent_in_b" if number == 0 else "silent_in_a"
        said, because = Said(), ""
        narrower = [other for found, other in related if found == "less_specific"]
        wider = [other for found, other in related if found == "more_specific" and other not in own]
        if narrower:
            continue  # the other says the same more narrowly: that term has an item of its own
        if wider:
            verdict = "more_specific" if number == 0 else "less_specific"
            said = Said((wider[0],), "present", "", others[wider[0]])
        elif term in against[number]:
            if any(other != term and vocabulary().is_a(other, term) for other in against[number]):
                continue  # a narrower malformation is excluded too, and has an item of its own
            verdict, because, said = "contradict", _reason(against[number][term]), Said((), "excluded")
        here = sides[number] or Said()
        pair = (here, said) if number == 0 else (said, here)
        changes = (_ITSELF,) if verdict == "contradict" else ()
        yield Item("malformations", "diagnoses", term, *pair, verdict, changes, because)


def _named(record: Record, derived: Mapping[str, Any]) -> dict[str, str]:
    """Return the malformations of a heart, each with its origin; those derived first."""
    found = {str(one["term"]): "derived" for one in derived.get("diagnoses") or ()}
    for term in (record.get("stated") or {}).get("diagnoses") or ():
        found.setdefault(str(term), "stated")
    return found


def _reason(because: str) -> str:
    """Return a premise in words, without the remark on where it comes from."""
    return basis_words(because.partition(" (")[0])


def _excluded(record: Record, terms: Sequence[str] | set[str]) -> dict[str, str]:
    """Return which malformations the features of a record exclude, and by what."""
    if not terms:
        return {}
    stated = {**(record.get("stated") or {}), "diagnoses": sorted(terms)}
    rows = derive({**record, "stated": stated})["stated_against_derived"]
    return {
        str(row["stated"]): str(row.get("because") or "")
        for row in rows
        if row["what"] == "diagnosis" and row["verdict"] == "contradicts"
    }


def _missing_parts(
    items: Sequence[Item],
    mine: Mapping[tuple[str, str], Sequence[Fact]],
    theirs: Mapping[tuple[str, str], Sequence[Fact]],
    names: Mapping[str, str],
) -> Iterator[Item]:
    """A part that one records as absent and of which the other describes something."""
    compared = {(one.area, one.slot) for one in items if one.verdict not in ("silent_in_a", "silent_in_b")}
    for number, (one, other) in enumerate(((mine, theirs), (theirs, mine))):
        for (area, slot), facts in one.items():
            if slot != "state" or facts[0].state != "absent" or (area, slot) in compared:
                continue
            seen = [fact for (where, what), told in other.items() if where == area and what != "state" for fact in told]
            if any(fact.state == "present" for fact in seen):
                here, there = Said(("absent",), "absent", "", "observed"), Said(("present",), "present", "", "observed")
                pair = (here, there) if number == 0 else (there, here)
                because = "the other describes something of it"
                segment = grounds().segment(area, names.get(area, ""))
                yield Item(segment, area, "state", *pair, "contradict", (), because)


def _said(facts: Sequence[Fact] | None) -> Said:
    if not facts:
        return Said()
    values = tuple(str(fact.value) for fact in facts if fact.value is not None)
    return Said(values, facts[0].state, facts[0].reason or "", "observed")
