"""From a record to its facts, one a line: where in the description, what was found, in which state.

::

    parts: [{id: aorta, opens...: , arises_from: [{ventricle: morphologically_left_ventricle, per_cent: 60}]}]
    stated: {topology: right_hand, diagnoses: [tetralogy_of_fallot, right_aortic_arch]}

    aorta       arises_from.morphologically_left_ventricle   60              present
    stated      topology                                     right_hand      present
    stated      diagnoses                                    tetralogy_...   present
    stated      diagnoses                                    right_aortic... present

What was not recorded has no fact. Remarks, waivers and what was derived are no facts of the observer and are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from chordae.model import part_defaults
from chordae.record import State, parts_of, state_of

__all__ = ["Fact", "each_fact"]

_SECTIONS = ("specimen", "description", "stated")
_ENTRIES = {"material_states": ("structure", "state"), "conclusion_basis": ("conclusion", "rests_on")}
_NOT_FACTS = frozenset({"id", "type", "observed", "note"})
_SILENT = ("not_assessable", "not_examined")


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing recorded.

    ``area`` is the id of a part, or ``specimen``, ``description``, ``stated``, ``measurements``. ``slot`` is the
    property, with the member of a list of entries after a dot. ``value`` is a word of the schema, a number or text;
    it is None in the two states in which nothing can be said of the heart. ``reason`` says why, where that is given.
    """

    area: str
    slot: str
    value: Any
    state: State
    reason: str | None = None

    @property
    def place(self) -> tuple[str, str]:
        """Area and slot."""
        return self.area, self.slot


def each_fact(record: Mapping[str, Any]) -> Iterator[Fact]:
    """Yield the facts of a full record in its order.

    Examples
    --------
    >>> [(fact.slot, fact.value, fact.state) for fact in each_fact({"stated": {"topology": "right_hand"}})]
    [('topology', 'right_hand', 'present')]
    """
    for part in parts_of(record):
        yield from _of_part(part)
    for section in _SECTIONS:
        values = record.get(section)
        if isinstance(values, Mapping):
            for slot, value in values.items():
                yield from _of_slot(section, slot, value)
    for one in record.get("measurements") or ():
        # Two measurements of one thing by other methods, at other sites or in other states are different facts.
        told = [str(one[name]) for name in ("part", "quantity", "site", "method", "material_state") if one.get(name)]
        if one.get("value") is not None:
            yield Fact("measurements", ".".join(told), f"{one['value']} {one.get('unit', '')}".strip(), "present")


def _of_part(part: Mapping[str, Any]) -> Iterator[Fact]:
    area = str(part.get("id"))
    given = part_defaults(area)
    state = part.get("state")
    if state is not None:
        yield Fact(area, "state", state if state not in _SILENT else None, state, part.get("state_reason"))
    reasons = {one.get("feature"): one for one in part.get("observed") or ()}
    for slot, value in part.items():
        if slot in _NOT_FACTS or slot in ("state", "state_reason") or given.get(slot) == value:
            continue
        reason = (reasons.get(slot) or {}).get("state_reason")
        yield from _of_slot(area, slot, value, reason)
    for feature, entry in reasons.items():
        if entry.get("state") is not None and part.get(feature) in (None, []):
            told = entry["state"]
            value = told if told not in _SILENT else None
            yield Fact(area, str(feature), value, told, entry.get("state_reason"))


def _of_slot(area: str, slot: str, value: Any, reason: str | None = None) -> Iterator[Fact]:
    for one in value if isinstance(value, list) else [value]:
        if isinstance(one, Mapping):
            yield from _of_entry(area, slot, one)
        elif one is not None and one != "":
            state = state_of(slot, one)
            yield Fact(area, slot, None if state in _SILENT else one, state, reason)


def _of_entry(area: str, slot: str, entry: Mapping[str, Any]) -> Iterator[Fact]:
    if "ventricle" in entry:
        yield Fact(area, f"{slot}.{entry['ventricle']}", entry.get("per_cent", "present"), "present")
        return
    name, said = _ENTRIES.get(slot, ("", ""))
    if name in entry:
        value = entry.get(said)
        text = ", ".join(map(str, value)) if isinstance(value, list) else value
        yield Fact(area, f"{slot}.{entry[name]}", text or "present", "present", entry.get("state_reason"))
