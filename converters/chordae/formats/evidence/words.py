"""What a piece of evidence shows, in words: the part, the feature, and what the observer recorded of it.

::

    shows: [{part: right_sided_atrioventricular_valve, feature: septal_leaflet}]
        right-sided atrioventricular valve, septal leaflet: displaced

All four states and silence have words of their own.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from chordae.formats.sheets.cells import label
from chordae.model import tables
from chordae.record import Record, feature_state, find_part, say

__all__ = ["Shown", "shown_by", "title_of"]

Shown = tuple[str, str | None, str]
"""Id of the part, feature or ``None``, the words."""
_STATES = {
    "present": "present",
    "absent": "looked for and absent",
    "not_assessable": "could not be assessed",
    "not_examined": "was not examined",
    None: "not recorded",
}


def shown_by(record: Record, evidence: Mapping[str, Any], school: str | None) -> list[Shown]:
    """Return what one piece of evidence shows, in the order of the record."""
    return [
        (
            str(one["part"]),
            one.get("feature"),
            _words(record, str(one["part"]), one.get("feature"), school or "european"),
        )
        for one in evidence.get("shows") or ()
    ]


def title_of(record: Record, evidence: Mapping[str, Any]) -> str:
    """Return a short title: the view, or the parts shown, or the identifier."""
    if evidence.get("view"):
        return str(evidence["view"])
    parts = [_part(record, str(one["part"])) for one in evidence.get("shows") or ()]
    return "; ".join(dict.fromkeys(parts)) or str(evidence["id"])


def _words(record: Record, part_id: str, feature: str | None, school: str) -> str:
    part = find_part(record, part_id)
    if feature is None:
        state = feature_state(part, "state", record).state if part else None
        told = f": {_STATES[state]}" if state not in (None, "present") else ""
        return _part(record, part_id) + told
    found = feature_state(part, feature, record) if part else None
    if found is None or found.state != "present" or found.value in (None, "present"):
        told = _STATES[found.state if found else None]
    else:
        told = _value(feature, found.value, school)
    sure = f" ({found.certainty})" if found and found.certainty and found.certainty != "certain" else ""
    return f"{_part(record, part_id)}, {feature.replace('_', ' ')}: {told}{sure}"


def _value(feature: str, value: Any, school: str) -> str:
    slot = tables().slots.get(feature)
    many = value if isinstance(value, list) else [value]
    if slot is not None and slot.kind == "enum":
        return ", ".join(label(slot, one, school) if one in slot.values else str(one) for one in many)
    unit = f" {slot.unit}" if slot is not None and slot.unit else ""
    return ", ".join(f"{one}{unit}" if not isinstance(one, Mapping) else "recorded" for one in many)


def _part(record: Record, part_id: str) -> str:
    return say(find_part(record, part_id) or part_id)
