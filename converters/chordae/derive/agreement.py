"""From what the observer stated and what the recorded features give to a verdict on each stated conclusion.

::

    agrees           both say the same
    contradicts      the features exclude what was stated
    more_specific    what was stated is narrower than what the features give, and lies within it
    less_specific    what was stated is wider than what the features give
    cannot_be_judged nothing recorded tells, with the reason

Compared with: evidence and shares, never with what other stated conclusions let expect. Topology cannot be judged
from features at all, because the hand is laid on by the observer; a topology that differs from the expected one is
said to be so, with what the observer noted of it.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from typing import Any

from chordae.derive.conclusion import Conclusion
from chordae.derive.criteria import Identity
from chordae.derive.diagnoses import Diagnosis, ancestors, excluded_by
from chordae.derive.heart import Heart, words
from chordae.knowledge import table

__all__ = ["compare_conclusions", "compare_diagnoses", "compare_identities"]


def compare_conclusions(conclusions: Iterable[Conclusion], stated: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Compare stated conclusions with those found."""
    bases = stated.get("conclusion_basis")
    listed = [one for one in bases if isinstance(one, Mapping)] if isinstance(bases, list) else []
    rests = {str(one.get("conclusion")): one for one in listed}
    compared = []
    for one in conclusions:
        if one.stated is None:
            continue
        verdict, because = _judge(one)
        row: dict[str, Any] = {"what": one.name, "stated": one.stated, "derived": one.found.value, "verdict": verdict}
        if because:
            row["because"] = because
        if one.expected and one.expected != one.stated:
            row["expected"] = one.expected
            row["disharmony"] = stated.get("disharmony") or "not_recorded"
        weak = _weak_grounds(one.name, rests.get(one.name))
        if weak:
            row["rests_on"] = weak
        compared.append(row)
    return compared


def compare_identities(identities: Iterable[Identity]) -> list[dict[str, Any]]:
    """Compare the names that the observer gave to parts with the identities found."""
    compared = []
    for one in identities:
        if one.stated is None:
            continue
        row: dict[str, Any] = {"what": f"{one.part}.identity", "stated": one.stated, "derived": one.answer}
        if one.answer is not None:
            row["verdict"] = "agrees" if one.answer == one.stated else "contradicts"
            if one.answer != one.stated:
                row["because"] = ", ".join(one.used)
        elif one.possible and one.stated not in one.possible and one.confidence != "conflict" and one.against:
            row["verdict"], row["because"] = "contradicts", ", ".join(one.against)
        else:
            row["verdict"] = "cannot_be_judged"
            row["because"] = (
                "the features contradict each other: " + ", ".join(one.used)
                if one.confidence == "conflict"
                else ("not seen: " + ", ".join(one.unseen) if one.looked_at else "no feature of it is recorded")
            )
        compared.append(row)
    return compared


def compare_diagnoses(
    stated: Any,
    derived: list[Diagnosis],
    heart: Heart,
    extra: Mapping[str, Mapping[str, Any]],
    own: Container[str] = (),
) -> list[dict[str, Any]]:
    """Compare the malformations that the observer named with those that follow.

    ``own`` are those that gave the connections themselves: these follow from their name, which confirms nothing.
    """
    names = [one.term for one in derived]
    compared = []
    for term in [str(one) for one in stated] if isinstance(stated, list) else ():
        row: dict[str, Any] = {"what": "diagnosis", "stated": term, "derived": None}
        if term in names and term in own:
            row.update(derived=term, verdict="cannot_be_judged", because="it follows from its own name alone")
        elif term in names:
            row.update(derived=term, verdict="agrees")
        elif narrower := next((one for one in names if term in ancestors(one)), None):
            row.update(derived=narrower, verdict="less_specific")
        else:
            against, missing = excluded_by(term, heart, extra)
            if against:
                row.update(verdict="contradicts", because=against)
            elif wider := next((one for one in names if one in ancestors(term)), None):
                row.update(derived=wider, verdict="more_specific")
            else:
                row.update(verdict="cannot_be_judged", because=_missing(missing))
        compared.append(row)
    return compared


def _judge(one: Conclusion) -> tuple[str, str]:
    found = one.found
    if found.value is not None:
        return ("agrees", "") if found.value == one.stated else ("contradicts", "; ".join(found.premises))
    if found.excludes(str(one.stated)):
        return "contradicts", "; ".join(found.premises)
    if found.touched and found.possible and len(found.possible) < _values_of(one.name):
        return "more_specific", f"the features leave open: {', '.join(words(name) for name in found.possible)}"
    return "cannot_be_judged", found.why or "nothing is recorded from which it follows"


def _values_of(name: str) -> int:
    """Return how many values the table of a conclusion knows."""
    tables = {"atrial_arrangement": "arrangement"}
    rows = table("combinations").get(tables.get(name, name), ())
    return len({row["value"] for row in rows})


def _weak_grounds(name: str, basis: Mapping[str, Any] | None) -> list[str]:
    """Return grounds on which the observer rested a conclusion and which never decide it."""
    kinds = {"atrial_arrangement": "atrium", "trunk_identity": "arterial_trunk", "arch_side": "arch"}
    if basis is None or name not in kinds:
        return []
    never = {one["feature"]: one["say"] for one in table("criteria")["identities"][kinds[name]]["never"]}
    named = basis.get("rests_on")
    grounds = [str(one) for one in named] if isinstance(named, list) else []
    if not grounds or any(not _never(one, never) for one in grounds):
        return []
    return [f"{one}: does not decide ({_never(one, never)})" for one in grounds]


def _never(ground: str, never: Mapping[str, str]) -> str:
    return never.get(ground) or never.get(ground.partition(".")[0]) or never.get(ground.rpartition(".")[2]) or ""


def _missing(names: list[str]) -> str:
    if not names:
        return "no rule says from which features it would follow"
    return "not recorded: " + ", ".join(words(name.replace(".", ": ")) for name in names)
