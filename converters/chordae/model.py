"""The schema at run time: classes, slots, values and conventional parts, read-only.

::

    part id       interventricular_communication_2   ->  class InterventricularCommunication
    class         ->  its slots, in order
    slot          ->  kind (enum, integer, decimal, date, text, term, reference, node, ...), values, unit

From ``_generated/tables.json``, which ``schema/generate.py`` writes from the LinkML files.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

import orjson

from chordae.errors import ResourceError

__all__ = [
    "STATES",
    "in_order",
    "part_class",
    "part_defaults",
    "part_order",
    "part_words",
    "slot",
    "slots_of",
    "tables",
    "values_of",
]

STATES = ("present", "absent", "not_assessable", "not_examined")
"""The four states of an observation; silence is a fifth case and has no value."""

_FURTHER = re.compile(r"(.+?)_([2-9]|[1-9][0-9])")


@cache
def tables() -> Mapping[str, Any]:
    """Return all tables: ``version, prefixes, classes, slots, enums, parts``."""
    try:
        found: Mapping[str, Any] = orjson.loads(files("chordae._generated").joinpath("tables.json").read_bytes())
    except (FileNotFoundError, ModuleNotFoundError, orjson.JSONDecodeError):
        raise ResourceError("The tables of the schema are missing.", "Run schema/generate.py.") from None
    return found


def part_class(part: str) -> str | None:
    """Return the class of a conventional part, ``None`` if the id is not one.

    Examples
    --------
    >>> part_class("interventricular_communication_2"), part_class("spare_part")
    ('InterventricularCommunication', None)
    """
    found = _conventional(part)
    return None if found is None else str(tables()["parts"][found]["type"])


def part_defaults(part: str) -> Mapping[str, str]:
    """Return what the name of a conventional part states by itself, such as its side."""
    found = _conventional(part)
    return {} if found is None else tables()["parts"][found].get("default", {})


def part_words(part: str) -> str:
    """Return the words by which a message names a part: ``"right-sided atrium"``; the id if it is its own.

    Examples
    --------
    >>> part_words("interventricular_communication_2")
    'communication between the ventricles (2)'
    """
    found = _conventional(part)
    if found is None:
        return part
    words = str(tables()["parts"][found]["say"])
    return words if found == part else f"{words} ({part[len(found) + 1 :]})"


def part_order(part: str) -> tuple[int, int, str]:
    """Return a key that sorts parts in the order of sequential segmental analysis."""
    found = _conventional(part)
    if found is None:
        return (len(_ranks()), 0, part)
    further = int(part[len(found) + 1 :]) if found != part else 1
    return (_ranks()[found], further, part)


def slots_of(name: str) -> tuple[str, ...]:
    """Return the slots of a class in order, inherited ones first; none for an unknown class."""
    found = tables()["classes"].get(name)
    return () if found is None else tuple(found["slots"])


def slot(name: str) -> Mapping[str, Any]:
    """Return the row of a slot: ``kind``, ``multivalued``, and where they apply ``enum``, ``class``, ``unit`` ..."""
    found: Mapping[str, Any] = tables()["slots"][name]
    return found


def values_of(name: str) -> tuple[str, ...]:
    """Return the values of a slot with an enum, in order; none for any other slot."""
    row = slot(name)
    return tuple(tables()["enums"][row["enum"]]["values"]) if row["kind"] == "enum" else ()


def in_order(value: Any, name: str = "Record") -> Any:
    """Return a copy of a record, or of an object of a class, with its keys in the order of the schema.

    Keys that the class does not have come last, in the order they have.
    """
    if not isinstance(value, dict):
        return value
    if name == "Part":
        name = str(value.get("type") or name)
    known = [one for one in slots_of(name) if one in value]
    others = [one for one in value if one not in known]
    ordered: dict[str, Any] = {}
    for key in known + others:
        inner = tables()["slots"].get(key, {}).get("class") if key in known else None
        one = value[key]
        if inner is not None:
            one = [in_order(item, inner) for item in one] if isinstance(one, list) else in_order(one, inner)
        ordered[key] = one
    return ordered


@cache
def _ranks() -> Mapping[str, int]:
    return {part: rank for rank, part in enumerate(tables()["parts"])}


def _conventional(part: str) -> str | None:
    known = tables()["parts"]
    if part in known:
        return part
    found = _FURTHER.fullmatch(part)
    return found[1] if found is not None and found[1] in known else None
