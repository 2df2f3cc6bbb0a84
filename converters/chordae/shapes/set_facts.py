"""The few facts of a record that the rules across records look at: plain data, small, the same on every machine.

::

    {"id": "0012-B", "collection": "alder", "whole": "9f...", "rest": "c1...", "place": ["hearts.yaml", 7, 1, null],
     "own": "12", "others": ["v3"], "lender": "veyhaven", "later": "second", "refs": [["/parts/0/...", "part", "x"]],
     "told": {"conclusions": {"topology": "right_hand"}, "facts": {"sex": "female"}, ...}, "waivers": [...]}

Workers of :mod:`chordae.parts` make them; one process joins them (:mod:`chordae.shapes.across`).
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

import orjson

from chordae.model import tables
from chordae.record import Reading, Record, pointer
from chordae.shapes.set_rules import set_table
from chordae.shapes.specimens import tell_description

__all__ = ["facts_of"]

_SPACE = re.compile(r"\s+")


def facts_of(reading: Reading, derived: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Return the facts of a full record, sound in structure.

    Parameters
    ----------
    reading
        The record with its place.
    derived
        What follows from it. Without it the facts hold the record itself where that may be needed (``record`` in
        place of ``told``), so that only descriptions that meet another one have to be derived.
    """
    record = reading.record
    content = {key: one for key, one in record.items() if key not in ("id", "waivers")}
    specimen: Record = record.get("specimen") or {}
    description: Record = record.get("description") or {}
    own = _plain(specimen.get("accession"))
    others = [name for one in specimen.get("other_numbers") or () if (name := _plain(one))]
    reader = str(description.get("reader") or "")
    place = reading.place("")
    found: dict[str, Any] = {
        "id": str(record.get("id")),
        "collection": _plain(record.get("collection")),
        "whole": _digest(record),
        "rest": _digest(content) if record.get("parts") or record.get("stated") else None,
        "place": [place.file, place.line, place.column, place.sheet],
        "own": own,
        "others": others,
        "lender": _plain(specimen.get("loan_from")),
        "later": reader if reader.casefold() in set_table()["later_readings"] else None,
        "refs": list(_foreign(record)),
        "waivers": list(_waivers(reading)),
    }
    if own or others:
        found |= {"record": record} if derived is None else {"told": tell_description(record, derived)}
    return found


def _foreign(record: Record) -> Iterator[tuple[str, str, str]]:
    """References to something that the record does not hold."""
    known = {str(one.get("id")) for name in ("parts", "evidence", "measurements") for one in record.get(name) or ()}
    for path, key, value in _references(record, ""):
        if value not in known:
            yield path, key, value


def _references(node: Any, path: str) -> Iterator[tuple[str, str, str]]:
    names = _reference_slots()
    items = node.items() if isinstance(node, dict) else enumerate(node)
    for key, value in items:
        if key in names:
            for one in value if isinstance(value, list) else [value]:
                if isinstance(one, str):
                    yield path + pointer(key), str(key), one
        elif isinstance(value, dict | list):
            yield from _references(value, path + pointer(key))


@cache
def _reference_slots() -> frozenset[str]:
    return frozenset(name for name, slot in tables().slots.items() if slot.kind == "reference")


def _waivers(reading: Reading) -> Iterator[dict[str, Any]]:
    """Confirmations of rules across records, each with its number and place."""
    rules = {row["id"] for row in set_table()["rules"]}
    for number, waiver in enumerate(reading.record.get("waivers") or ()):
        if waiver.get("rule") in rules:
            place = reading.place(f"/waivers/{number}")
            yield {
                "number": number,
                "waiver": waiver,
                "place": [place.file, place.line, place.column, place.sheet],
            }


def _digest(data: object) -> str:
    return hashlib.sha256(orjson.dumps(data, option=orjson.OPT_SORT_KEYS)).hexdigest()


def _plain(value: object) -> str:
    """A number or name without blanks and capitals; what holds neither letter nor digit is no number."""
    text = _SPACE.sub("", str(value or "")).casefold()
    return text if any(map(str.isalnum, text)) else ""
