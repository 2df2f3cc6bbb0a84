"""Kinds of hearts and faults as data: ``tests/data/planted.yaml``, written into the records of ``generate_records``.

::

    R-AV-13: {of: [normal, tetralogy], set: {tricuspid: {septal_chordal_attachment: absent}}}

The rule named must then speak of the record; others may, since one fault has consequences.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from chordae.record import Record, ensure_part

__all__ = ["Kind", "Planted", "faults", "kinds", "write"]

FILE = Path(__file__).parent / "data" / "planted.yaml"
IDENTITIES = {
    "tricuspid": ("stated_valve_type", "tricuspid"),
    "mitral": ("stated_valve_type", "mitral"),
    "right_ventricle": ("stated_ventricular_identity", "morphologically_right_ventricle"),
    "left_ventricle": ("stated_ventricular_identity", "morphologically_left_ventricle"),
    "right_atrium": ("appendage_morphology", "morphologically_right"),
    "left_atrium": ("appendage_morphology", "morphologically_left"),
}
Changes = Mapping[str, Mapping[str, Any] | None]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of heart: what its plan differs in, and what is then changed in the record."""

    plan: Mapping[str, str]
    set: Changes = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Planted:
    """A fault: the rule that must speak, the kinds of hearts it fits (none: all), and what is written."""

    rule: str
    set: Changes
    of: tuple[str, ...] = ()


@cache
def kinds() -> Mapping[str, Kind]:
    """The kinds of hearts that are told by what differs from a plan."""
    return {name: Kind(one["plan"], one["set"]) for name, one in _file()["kinds"].items()}


@cache
def faults() -> Mapping[str, Planted]:
    """The faults, by the rule that must speak."""
    return {rule: Planted(rule, one["set"], tuple(one.get("of", ()))) for rule, one in _file()["faults"].items()}


def write(record: Record, changes: Changes) -> None:
    """Write changes into a record; ``None`` takes a feature or a part away."""
    names = {name: _named(record, name) for name in IDENTITIES}
    for name, values in changes.items():
        node = names[name] if name in IDENTITIES else _node(record, name)
        if values is None:
            record["parts"] = [part for part in record["parts"] if part["id"] != name]
            continue
        assert node is not None, f"no {name} in {record['id']}"
        for slot, value in copy.deepcopy(dict(values)).items():
            if value is None:
                node.pop(slot, None)
            else:
                node[slot] = _filled(value, names)


def _node(record: Record, name: str) -> dict[str, Any]:
    if name == "record":
        return record
    if name in {"stated", "specimen", "description"}:
        found: dict[str, Any] = record[name]
        return found
    if name in {"weight", "plate"}:
        first: dict[str, Any] = record["measurements" if name == "weight" else "evidence"][0]
        return first
    return ensure_part(record, name)


def _named(record: Record, name: str) -> dict[str, Any] | None:
    slot, value = IDENTITIES[name]
    return next((part for part in record["parts"] if part.get(slot) == value), None)


def _filled(value: Any, names: Mapping[str, Any]) -> Any:
    if isinstance(value, list):
        return [_filled(one, names) for one in value]
    if isinstance(value, dict):
        return {key: _filled(one, names) for key, one in value.items()}
    return names[value[1:]]["id"] if isinstance(value, str) and value.startswith("@") else value


@cache
def _file() -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load(FILE.read_text(encoding="utf-8"))
    return found
