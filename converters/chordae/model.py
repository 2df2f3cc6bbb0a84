"""The schema as tables that the rest of the package looks things up in; read once, never changed.

::

    tables().classes["Atrium"].slots         ("id", "type", "state", ..., "appendage_shape", ...)
    tables().slots["appendage_shape"].values  {"triangular": ".../term/triangular_appendage", ...}
    tables().parts["right_sided_atrium"]     type Atrium, default {"side": "right_sided"}, say

They are written by ``schema/generate.py`` from ``schema/*.yaml`` and ``schema/parts.yaml``.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Any

from chordae import resources

__all__ = [
    "STATES",
    "Class",
    "ConventionalPart",
    "Slot",
    "Tables",
    "class_slots",
    "enum_of",
    "is_a",
    "part_defaults",
    "part_type",
    "tables",
]

STATES = ("present", "absent", "not_assessable", "not_examined")
"""The four states of an observation; a key that is not there is the fifth case, not recorded."""

_TABLES = "_generated/tables.json"
_FURTHER = re.compile(r"(?P<name>[a-z][a-z_]*)_(?P<number>[2-9]|[1-9][0-9])")


@dataclass(frozen=True, slots=True)
class Class:
    """A class of the schema. ``ancestors`` begins with the class itself; ``slots`` with the inherited ones.

    ``related`` are terms of the vocabulary for the structure that the class describes.
    """

    name: str
    iri: str
    description: str
    source: str
    abstract: bool
    ancestors: tuple[str, ...]
    slots: tuple[str, ...]
    required: tuple[str, ...]
    related: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Slot:
    """A slot of the schema.

    ``kind`` is identifier, type, enum, reference, node, term, date, integer, decimal, uri or text; ``range`` the
    enum or class where there is one; ``values`` maps the words of the enum to IRIs. ``forms`` are those a date may
    have: decade, year, month, date. ``unit`` is a UCUM code. ``ordered`` says that the order of a list means
    something; ``segment`` and ``key`` name the IRIs of inner nodes.
    """

    name: str
    iri: str
    description: str
    source: str
    kind: str
    multivalued: bool
    ordered: bool
    range: str | None
    values: Mapping[str, str]
    segment: str | None
    key: str | None
    forms: tuple[str, ...]
    unit: str | None
    minimum: float | None
    maximum: float | None
    pattern: str | None
    examples: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ConventionalPart:
    """A row of ``schema/parts.yaml``: the class, what the name itself states, how a message names the part."""

    id: str
    type: str
    default: Mapping[str, Any]
    say: str


@dataclass(frozen=True, slots=True)
class Tables:
    """Everything the schema says; ``parts`` stand in the order of sequential segmental analysis.

    ``enums`` maps the name of an enum to its words, and these to ``{"iri", "description", "source"}``.
    """

    version: str
    classes: Mapping[str, Class]
    slots: Mapping[str, Slot]
    enums: Mapping[str, Mapping[str, Mapping[str, str]]]
    parts: Mapping[str, ConventionalPart]


@cache
def tables() -> Tables:
    """Return the tables of the schema."""
    found = json.loads(resources.read_text(_TABLES))
    enums = {name: one["values"] for name, one in found["enums"].items()}
    return Tables(
        version=found["version"],
        classes=MappingProxyType({name: _class(name, one) for name, one in found["classes"].items()}),
        slots=MappingProxyType({name: _slot(name, one, enums) for name, one in found["slots"].items()}),
        enums=MappingProxyType(enums),
        parts=MappingProxyType(
            {
                name: ConventionalPart(name, one["type"], one.get("default", {}), one["say"])
                for name, one in found["parts"].items()
            }
        ),
    )


def class_slots(name: str) -> tuple[str, ...]:
    """Return the slots of a class, inherited ones first; ``()`` for a class that is not there."""
    found = tables().classes.get(name)
    return found.slots if found else ()


def is_a(name: object, ancestor: str) -> bool:
    """Say whether a class is another, or one of its descendants."""
    found = tables().classes.get(name) if isinstance(name, str) else None
    return found is not None and ancestor in found.ancestors


def enum_of(slot: str) -> Mapping[str, str] | None:
    """Return the words that a slot may hold, each with its IRI; ``None`` if it holds something else.

    Examples
    --------
    >>> list(enum_of("apical_trabeculation"))
    ['coarse', 'fine', 'neither', 'not_assessable', 'not_examined']
    """
    found = tables().slots.get(slot)
    return found.values if found and found.kind == "enum" else None


def part_type(part_id: str) -> str | None:
    """Return the class of a conventional part id, ``None`` if it is none.

    Examples
    --------
    >>> part_type("interventricular_communication_2")
    'InterventricularCommunication'
    """
    found = conventional(part_id)
    return found.type if found else None


def part_defaults(part_id: str) -> dict[str, Any]:
    """Return what a conventional part id itself states, as a new mapping; empty if it states nothing.

    Examples
    --------
    >>> part_defaults("left_sided_atrium")
    {'side': 'left_sided'}
    """
    found = conventional(part_id)
    return dict(found.default) if found else {}


def conventional(part_id: str) -> ConventionalPart | None:
    """Return the row of ``schema/parts.yaml`` for an id, or for an id followed by ``_2``, ``_3`` and so on."""
    parts = tables().parts
    found = parts.get(part_id)
    if found is None and (further := _FURTHER.fullmatch(part_id)):
        found = parts.get(further["name"])
    return found


def _class(name: str, one: dict[str, Any]) -> Class:
    return Class(
        name=name,
        iri=one["iri"],
        description=one["description"],
        source=one["source"],
        abstract=one.get("abstract", False),
        ancestors=tuple(one["ancestors"]),
        slots=tuple(one["slots"]),
        required=tuple(one["required"]),
        related=tuple(one.get("related", ())),
    )


def _slot(name: str, one: dict[str, Any], enums: dict[str, Any]) -> Slot:
    words = enums.get(one.get("enum", ""), {})
    return Slot(
        name=name,
        iri=one["iri"],
        description=one["description"],
        source=one["source"],
        kind=one["kind"],
        multivalued=one["multivalued"],
        ordered=one.get("ordered", False),
        range=one.get("enum") or one.get("class"),
        values=MappingProxyType({word: value["iri"] for word, value in words.items()}),
        segment=one.get("segment"),
        key=one.get("key"),
        forms=tuple(one.get("forms", ())),
        unit=one.get("unit"),
        minimum=one.get("minimum"),
        maximum=one.get("maximum"),
        pattern=one.get("pattern"),
        examples=tuple(str(value) for value in one.get("examples", ())),
    )
