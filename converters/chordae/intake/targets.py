"""Where a cell goes: from ``part`` and ``property`` of a crosswalk row to a slot of the record.

::

    part                    property                                goes to tricuspid_valve
    leaflet_count                           the part of that id, its slot coronary_sinus ...      (empty) or
    state                        whether the part was found at all aorta                   arises_from
    a list entry {ventricle: ...} aorta                   arises_from.morphologically_left_ventricle
    {ventricle: ..., per_cent: cell} specimen                material_states.atrial_septum
    {structure: ..., state: ..., state_reason: ...} record                  evidence.photograph
    {evidence_kind: ..., source_file: cell} stated                  va_connection
    what the observer concluded specimen, description   accession, observer ...                 those
    objects of the record record                  id, collection                          the record itself
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache, lru_cache
from typing import Any

from chordae import model
from chordae.intake.scalars import exact_number
from chordae.issues import nearest
from chordae.record import say
from chordae.wordlist import is_term, look_up, term_words

__all__ = ["AREAS", "LISTS", "Mistake", "Target", "find_target", "has_state", "typed"]

AREAS = {"record": "Record", "specimen": "Specimen", "description": "Description", "stated": "StatedConclusions"}
"""Names for ``part`` that are no parts, and their classes."""

LISTS = {
    "Commitment": ("ventricle", "per_cent"),
    "MaterialCondition": ("structure", "state"),
    "Evidence": ("evidence_kind", "source_file"),
}
"""Classes of list entries that a cell may fill: slot named after the dot, slot filled by the cell."""

_RECORD = ("id", "collection", "evidence")
_NEVER = frozenset({"identifier", "type"})


@dataclass(frozen=True, slots=True)
class Target:
    """One place of the record; ``area`` is a part id or a key of ``AREAS``.

    Worked out from these: ``is_part``, whether it is in a part of the heart or body; ``entry``, class of the list entry
    that the cell fills, ``None`` for a plain slot; ``cell_slot``, the slot whose values the cell gives, and its
    ``kind`` (enum, integer, decimal, date, text, term, reference, uri).
    """

    area: str
    slot: str
    member: str = ""
    is_part: bool = field(init=False, compare=False, repr=False)
    entry: str | None = field(init=False, compare=False, repr=False)
    cell_slot: str = field(init=False, compare=False, repr=False)
    kind: str = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        row = model.tables().slots[self.slot]
        entry = row.range if row.kind == "node" else None
        cell_slot = self.slot if entry is None else LISTS[entry][1 if self.member else 0]
        for name, value in (
            ("is_part", self.area not in AREAS),
            ("entry", entry),
            ("cell_slot", cell_slot),
            ("kind", model.tables().slots[cell_slot].kind),
        ):
            object.__setattr__(self, name, value)

    def __str__(self) -> str:
        words = say(self.area) if self.is_part else self.area
        return f"{words}: {self.slot}{'.' + self.member if self.member else ''}"


@dataclass(frozen=True, slots=True)
class Mistake:
    """Why a part, a property or a value is not one: a rule, the word, and the words for its sentence."""

    rule: str
    value: str
    fields: dict[str, Any]


@cache
def find_target(part: str, property: str) -> Target | Mistake:
    """Return the place that a crosswalk row names, or what is wrong with the names."""
    name = AREAS.get(part) or model.part_type(part)
    if name is None:
        known = [*AREAS, *model.tables().parts]
        return Mistake("I-XW-03", part, {"nearest": nearest(part, known)})
    slot, _, member = property.partition(".")
    slot = slot or ("state" if part not in AREAS else "")
    offered = _offered(name)
    fields: dict[str, Any] = {"part": part, "nearest": nearest(slot, offered)}
    if slot not in offered:
        return Mistake("I-XW-04", property, fields)
    target = Target(part, slot, member)
    if member:
        entry = target.entry
        if entry is None:
            return Mistake("I-XW-04", property, fields)
        mistake = _wrong(LISTS[entry][0], member)
        if mistake is not None:
            return Mistake("I-XW-05", member, {"part": part, "property": slot, "nearest": mistake})
    elif target.entry in ("MaterialCondition", "Evidence"):
        named = LISTS[str(target.entry)][0]
        near = f" Write {slot}.X, where X is the {named.replace('_', ' ')}."
        return Mistake("I-XW-04", property, {"part": part, "nearest": near})
    return target


@lru_cache(maxsize=16_384)
def typed(target: Target, text: str) -> Any:
    """Return the value that a crosswalk's ``value`` stands for at a place, or a :class:`Mistake`."""
    mistake = _wrong(target.cell_slot, text)
    if mistake is not None:
        fields = {"part": target.area, "property": target.slot, "nearest": mistake}
        return Mistake("I-XW-05", text, fields)
    return exact_number(text) if target.kind in ("integer", "decimal") else text


def has_state(target: Target, state: str) -> bool:
    """Say whether a state is itself one of the values of the place."""
    return state in (model.enum_of(target.cell_slot) or ())


def _offered(name: str) -> list[str]:
    """Return the slots of a class that a cell may fill."""
    if name == "Record":
        return list(_RECORD)
    rows = {one: model.tables().slots[one] for one in model.class_slots(name)}
    return [one for one, row in rows.items() if (row.range in LISTS if row.kind == "node" else row.kind not in _NEVER)]


def _near_term(text: str) -> str:
    bearing = look_up("_".join(text.lower().split()))
    return (
        f' Did you mean "{bearing[0]}"?'
        if bearing
        else nearest(text, {slug for slugs in term_words().values() for slug in slugs})
    )


def _listed(values: Iterable[str]) -> str:
    words = list(values)
    return f" Values are: {', '.join(words[:8])}{' ...' if len(words) > 8 else ''}."


def _wrong(slot: str, text: str) -> str | None:
    """Return ``None`` if the text is a value of the slot, else a suggestion, which may be empty."""
    row = model.tables().slots[slot]
    kind = row.kind
    if kind == "enum":
        return None if text in row.values else nearest(text, row.values) or _listed(row.values)
    if kind in ("integer", "decimal"):
        try:
            number = exact_number(text)
        except ValueError:
            return " A number was expected."
        if kind == "integer" and not isinstance(number, int):
            return " A whole number was expected."
        low, high = row.minimum, row.maximum
        if (low is not None and number < low) or (high is not None and number > high):
            bounds = ("..." if low is None else low, "..." if high is None else high)
            return f" A number from {bounds[0]} to {bounds[1]} was expected."
        return None
    if kind == "reference":
        return None if model.part_type(text) else nearest(text, model.tables().parts)
    if kind == "term":
        return None if is_term(text) else _near_term(text) or " It is no term of the vocabulary."
    return None
