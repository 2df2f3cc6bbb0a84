"""From the items of a comparison to words: the place, what each says, the verdict."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from chordae import model
from chordae.compare.hearts import Comparison, Item, Said
from chordae.compare.verdicts import Verdict
from chordae.report.words import CONCLUSIONS, feature_words, part_words, sentence, term_words, value_words

__all__ = ["VERDICTS", "grouped", "name_of", "place_of", "said_words", "to_json"]

VERDICTS: Mapping[Verdict, str] = {
    "agree": "agree",
    "more_specific": "A says more",
    "less_specific": "B says more",
    "differ": "differ",
    "contradict": "contradict",
    "silent_in_a": "A is silent",
    "silent_in_b": "B is silent",
    "not_assessable_in_a": "cannot be seen in A",
    "not_assessable_in_b": "cannot be seen in B",
    "not_assessable_in_both": "cannot be seen in either",
}
"""Verdicts in words."""

_STATES = {
    "not_recorded": "not recorded",
    "not_assessable": "not assessable",
    "not_examined": "not examined",
    "absent": "absent",
    "present": "present",
    "excluded": "excluded by what is recorded",
}
_ORIGINS = {"evidence": "derived", "derived": "derived", "inferred": "inferred", "stated": "stated"}


def place_of(item: Item) -> str:
    """Return where an item stands, in words.

    Examples
    --------
    >>> place_of(Item("conclusions", "conclusions", "topology", Said(), Said(), "agree"))
    'Ventricular topology'
    """
    if item.area == "conclusions":
        return sentence(CONCLUSIONS.get(item.slot, feature_words(item.slot)))
    if item.area == "diagnoses":
        return sentence(term_words(item.slot))
    slot, dot, member = item.slot.partition(".")
    feature = feature_words(slot) + (f", {part_words(member)}" if dot else "")
    if item.area in ("specimen", "measurements"):
        words = feature if item.area == "specimen" else ", ".join(part_words(one) for one in item.slot.split("."))
        return sentence(words)
    if item.slot == "state":
        return sentence(part_words(item.area))
    return sentence(f"{part_words(item.area)}: {feature}")


def said_words(item: Item, said: Said, school: str = "european") -> str:
    """Return what one description says at the place of an item, with its origin or reason in brackets."""
    slot = item.slot.partition(".")[0]
    if not said.values:
        reason = f" ({said.reason.replace('_', ' ')})" if said.reason else ""
        return _STATES.get(said.state, said.state) + reason
    if item.area == "diagnoses":
        words = ", ".join(term_words(one, school) for one in said.values)
    elif slot == "state":
        words = ", ".join(_STATES.get(one, one) for one in said.values)
    else:
        unit = {"per_cent": " %", "mm": " mm"}.get(_unit(item.slot), "")
        words = ", ".join(value_words(slot, one, school) + unit for one in said.values)
    origin = _ORIGINS.get(said.origin, "")
    return f"{words} ({origin})" if origin else words


def grouped(items: Sequence[Item]) -> list[list[Item]]:
    """Put items of one part that change the same together, so that the change is told once."""
    groups: dict[tuple[str, str, tuple[str, ...]], list[Item]] = {}
    for one in items:
        alone = one.area in ("conclusions", "diagnoses")
        groups.setdefault((one.area, one.slot if alone else "", one.changes), []).append(one)
    return list(groups.values())


def name_of(record: Mapping[str, Any]) -> str:
    """Return how a description is named: its id, who made it, in whose words."""
    about = record.get("description") or {}
    school = value_words("school", about["school"]) if about.get("school") else ""
    told = [record.get("collection"), about.get("observer"), about.get("described_on"), school]
    more = ", ".join(str(one) for one in told if one)
    return f"{record.get('id')} ({more})" if more else str(record.get("id"))


def to_json(found: Comparison) -> dict[str, Any]:
    """Return a comparison as plain data; items that change the diagnosis come first."""

    def side(said: Said) -> dict[str, Any]:
        told = {"values": list(said.values), "state": said.state, "reason": said.reason, "origin": said.origin}
        return {name: value for name, value in told.items() if value}

    def row(item: Item) -> dict[str, Any]:
        told: dict[str, Any] = {
            "segment": item.segment,
            "part": item.area,
            "property": item.slot,
            "verdict": item.verdict,
            "a": side(item.a),
            "b": side(item.b),
        }
        if item.changes:
            told["changes_diagnosis"] = list(item.changes)
        if item.because:
            told["because"] = item.because
        return told

    return {
        "a": found.a.get("id"),
        "b": found.b.get("id"),
        "verdict": found.verdict,
        "changes_diagnosis": bool(found.diagnostic),
        "notation": {"a": found.derived_a.get("notation"), "b": found.derived_b.get("notation")},
        "counts": found.counts(),
        "items": [row(one) for one in found.items],
    }


def _unit(slot: str) -> str:
    stem, dot, _ = slot.partition(".")
    if stem.endswith("_mm"):
        return "mm"
    row = model.tables().slots.get(stem)
    return "per_cent" if stem.endswith("per_cent") or (dot and row is not None and row.range == "Commitment") else ""
