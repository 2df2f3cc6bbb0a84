"""Which part of one description is the same structure as which part of another, whatever each calls it.

::

    A  right_sided_atrioventricular_valve (identity tricuspid valve)   =   tricuspid_valve                      B
    A  interventricular_communication_2 (muscular, apical)             =   interventricular_communication       B

Parts of one class are paired best first: by identity (derived, else stated), by side, by id, then by how many
recorded values they share. A part that finds no partner is one on which the other description is silent.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Any

from chordae.facts import Fact, each_fact
from chordae.record import Record

__all__ = ["align", "aligned_facts"]


def align(a: Record, b: Record, derived_a: Mapping[str, Any], derived_b: Mapping[str, Any]) -> dict[str, str]:
    """Pair the parts of two records.

    Parameters
    ----------
    a, b
        Full records.
    derived_a, derived_b
        What follows from them (:func:`chordae.derive.derive`).

    Returns
    -------
    dict
        Id of a part of B -> id of the part of A that is the same structure; parts without partner are not in it.
    """
    identities = [_identities(one) for one in (derived_a, derived_b)]
    by_type: dict[str, tuple[list[Mapping[str, Any]], list[Mapping[str, Any]]]] = defaultdict(lambda: ([], []))
    for number, record in enumerate((a, b)):
        for part in record.get("parts") or ():
            by_type[str(part.get("type"))][number].append(part)
    pairs: dict[str, str] = {}
    for mine, theirs in by_type.values():
        scored = []
        for one in mine:
            for other in theirs:
                score = _alike(one, other, identities[0].get(one["id"]), identities[1].get(other["id"]))
                if len(mine) == len(theirs) == 1 or score > 0:
                    scored.append((-score, str(one["id"]), str(other["id"])))
        taken: set[str] = set()
        for _, one_id, other_id in sorted(scored):
            if one_id not in taken and other_id not in pairs:
                taken.add(one_id)
                pairs[other_id] = one_id
    return pairs


def aligned_facts(record: Record, names: Mapping[str, str]) -> dict[tuple[str, str], list[Fact]]:
    """Return the facts of a record by place, with its parts called as the other record calls them.

    Parameters
    ----------
    names
        Id of a part -> id to use; others keep theirs.
    """
    found: dict[tuple[str, str], list[Fact]] = defaultdict(list)
    for fact in each_fact(record):
        slot, dot, member = fact.slot.partition(".")
        slot += f".{names.get(member, member)}" if dot else ""
        area = names.get(fact.area, fact.area)
        found[area, slot].append(Fact(area, slot, fact.value, fact.state, fact.reason))
    return dict(found)


def _identities(derived: Mapping[str, Any]) -> dict[str, str]:
    found = {}
    for one in derived.get("identities") or ():
        name = one.get("identity") or one.get("stated")
        if name:
            found[str(one["part"])] = str(name)
    return found


def _alike(one: Mapping[str, Any], other: Mapping[str, Any], mine: str | None, theirs: str | None) -> float:
    score = 0.0
    if one.get("side") and other.get("side"):
        score += 4 if one["side"] == other["side"] else -6
    if mine and theirs:
        score += 5 if mine == theirs else -3
    score += 2 if one["id"] == other["id"] else 0
    shared = [slot for slot in one if slot in other and slot not in ("id", "type", "side", "observed", "note")]
    return score + sum(0.5 if one[slot] == other[slot] else -0.4 for slot in shared)
