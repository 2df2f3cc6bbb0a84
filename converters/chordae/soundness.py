"""Take out of a record what has not the shape of the schema, and keep it as remarks: later steps rely on the rest.

::

    {"id": "7", "parts": [{"id": "v", "type": "AtrioventricularValve", "cleft": "abscent"}]}
    {"id": "7", "parts": [{"id": "v", "type": "AtrioventricularValve"}],
     "remarks": [{"text": "abscent", "place": "v.cleft"}]}                            and an issue S-VAL

Nothing is lost: what is taken out stands in ``remarks`` as it was, with its place. A part that has no type, or a
second part with the same id, is taken out whole.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from chordae.issues import LONGEST, Issue, Location, shown
from chordae.record import Reading, Record, pointer
from chordae.structure import check_structure, part_at, without_nulls

__all__ = ["make_sound"]

_KEPT = frozenset({"S-REF", "S-AIM", "S-FEAT", "S-STATE", "S-ID", "S-CONV", "S-NULL"})
"""Faults between places of a record: its shape is sound."""
_WHOLE = frozenset({"S-DUP", "S-PART"})
"""Faults for which the mapping around the value is taken out."""
_ROUNDS = 8


def make_sound(reading: Reading) -> tuple[Reading, list[Issue]]:
    """Check a record, and return it with everything that has not its shape moved to ``remarks``.

    Returns
    -------
    tuple[Reading, list[Issue]]
        The record has the shape of the schema and holds no key without a value; only an ``id`` that has not the
        required form stays. Its places are those where the values were read. The issues are those of
        :func:`chordae.structure.check_structure` on the record as it came.

    Examples
    --------
    >>> reading, issues = make_sound(Reading({"id": "7", "specimen": {"sex": "femal"}, "parts": ["q"]}))
    >>> reading.record
    {'id': '7', 'specimen': {}, 'parts': [], 'remarks': [{'text': 'femal', 'place': 'specimen.sex'}, \
{'text': 'q', 'place': 'parts.0'}]}
    """
    issues = check_structure(reading)
    if not issues:
        return reading, issues
    record: Record = without_nulls(reading.record, "", [])
    places: Mapping[str, Location] = reading.places
    faults = issues
    for _ in range(_ROUNDS):
        pruning = _Pruning(record, faults)
        if not pruning.needed:
            break
        record, places = pruning.run(places)
        faults = check_structure(Reading(record, places))
    return Reading(record, places), issues


@dataclass
class _Pruning:
    """One pass over a record; ``moved`` maps the pointers that stay to their new ones."""

    record: Record
    faults: list[Issue]
    removed: dict[str, Any] = field(default_factory=dict)
    moved: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.out: set[str] = set()
        self.twice: set[str] = set()
        for fault in self.faults:
            path = fault.path or ""
            if fault.rule in _KEPT or not path or (fault.rule == "S-PAT" and path.endswith("/id")):
                continue
            if fault.rule == "S-TWICE" and not path.endswith("/feature"):
                self.twice.add(path)
            else:
                self.out.add(path.rpartition("/")[0] if fault.rule in _WHOLE else path)
        self.needed = bool(self.out or self.twice)

    def run(self, places: Mapping[str, Location]) -> tuple[Record, Mapping[str, Location]]:
        record: Record = self._copy(self.record, "", "")
        kept = {new: places[old] for old, new in self.moved.items() if old in places}
        for path, value in self.removed.items():
            remarks = record.setdefault("remarks", [])
            kept[f"/remarks/{len(remarks)}"] = Reading({}, places).place(path)
            remarks.append({"text": _text(value), "place": self._name(path)})
        return record, kept

    def _copy(self, value: Any, old: str, new: str) -> Any:
        self.moved[old] = new
        if isinstance(value, Mapping):
            kept: dict[str, Any] = {}
            for key, inner in value.items():
                path = old + pointer(key)
                if _told(path) in self.out:
                    self.removed[path] = inner
                else:
                    kept[key] = self._copy(inner, path, new + pointer(key))
            return kept
        if isinstance(value, list):
            rest: list[Any] = []
            for number, inner in enumerate(value):
                path = f"{old}/{number}"
                if _told(path) in self.out:
                    self.removed[path] = inner
                elif _told(old) not in self.twice or inner not in rest:
                    rest.append(self._copy(inner, path, f"{new}/{len(rest)}"))
            return rest
        return value

    def _name(self, path: str) -> str:
        keys = path[1:].split("/")
        part = part_at(self.record, path) if len(keys) > 2 else None
        if isinstance(part, Mapping) and isinstance(part.get("id"), str):
            keys = [part["id"], *keys[2:]]
        return ".".join(keys)


def _text(value: Any) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, default=str)


def _told(path: str) -> str:
    """Return a pointer as an issue tells it: keys of a foreign file may hold signs that cannot be shown."""
    return path if path.isprintable() and len(path) <= LONGEST else shown(path, LONGEST)
