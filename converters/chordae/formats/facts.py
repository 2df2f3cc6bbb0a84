"""A record as named facts, one a statement, and back: for formats whose only place for findings is a list of pairs.

::

    parts/right_sided_atrium/pectinate_extent      to_crux
    parts/aorta/arises_from/0/per_cent             30
    description/examination/=probe                 probe

The name says where the statement stands (:mod:`chordae.formats.same`): segments are joined by slashes, each with
percent signs for what would not stand in an IRI. States are values like any other, so none can be lost on the way.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any
from urllib.parse import quote, unquote

from chordae.formats.same import named_values
from chordae.formats.sheets.cells import cleaned
from chordae.model import Slot, class_slots, tables
from chordae.rdf.terms import number_text
from chordae.record import Record

__all__ = ["Fact", "facts_of", "fits", "one_line", "record_of", "say_name"]

Fact = tuple[str, str, str]
"""JSON pointer into the record, name, text of the value."""
_PLAIN = re.compile(r"\s+")


def facts_of(record: Record) -> Iterator[Fact]:
    """Yield the facts of a record, apart from its id.

    Examples
    --------
    >>> list(facts_of({"id": "7", "parts": [{"id": "aorta", "type": "ArterialTrunk"}]}))[1]
    ('/parts/0/type', 'parts/aorta/type', 'ArterialTrunk')
    """
    for path, (name, _) in named_values(record).items():
        if name != ("id",):
            yield path, "/".join(quote(one, safe="=~") for one in name), _text(_at(record, path))


def record_of(record_id: str, facts: Iterable[tuple[str, str]]) -> tuple[Record, list[tuple[str, str]]]:
    """Put a record together.

    Returns
    -------
    record, list of pairs
        The record, and the facts that have no place in it.
    """
    record: Record = {"id": record_id}
    keyed: dict[tuple[str, ...], Record] = {}
    rest: list[tuple[str, str]] = []
    for name, text in facts:
        segments = tuple(unquote(one) for one in name.split("/"))
        if not _place(record, segments, text, keyed):
            rest.append((name, text))
    return record, rest


def say_name(name: str) -> str:
    """Return the name of a fact in words.

    Examples
    --------
    >>> say_name("parts/right_sided_atrium/pectinate_extent")
    'right sided atrium: pectinate extent'
    """
    words = [unquote(one).replace("_", " ") for one in name.split("/")]
    kept = [str(int(one) + 1) if one.isdecimal() and number else one for number, one in enumerate(words)]
    return ": ".join(one for number, one in enumerate(kept) if (number or one != "parts") and not one.startswith("="))


def fits(text: str) -> bool:
    """Say whether a text can be a value on one line without being changed."""
    return bool(text) and text == one_line(text)


def _place(record: Record, segments: tuple[str, ...], text: str, keyed: dict[tuple[str, ...], Record]) -> bool:
    node: Any = record
    class_name: str | None = "Record"
    at = 0
    while at < len(segments):
        name = segments[at]
        slot = tables().slots.get(name)
        if slot is None or (class_name is not None and name not in class_slots(class_name)):
            return False
        at += 1
        if slot.kind != "node":
            return _set(node, slot, segments[at:], text)
        if slot.multivalued:
            if at >= len(segments):
                return False
            path = segments[: at + 1]
            if path not in keyed:
                made: Record = {}
                if slot.key is not None and not path[-1].isdecimal():
                    made[slot.key] = path[-1].partition("~")[0]
                keyed[path] = made
                node.setdefault(name, []).append(made)
            node = keyed[path]
            at += 1
        else:
            node = node.setdefault(name, {})
        class_name = None if slot.range == "Part" else slot.range
    return False


def _set(node: Record, slot: Slot, rest: tuple[str, ...], text: str) -> bool:
    value: Any = text
    if slot.kind in ("integer", "decimal"):
        value = _number(text)
        if value is None:
            return False
    if slot.multivalued and len(rest) == 1:
        node.setdefault(slot.name, []).append(value)
        return True
    if slot.multivalued or rest:
        return False
    node[slot.name] = value
    return True


def _number(text: str) -> int | float | None:
    from chordae.intake.scalars import exact_number

    try:
        return exact_number(text)
    except ValueError:
        return None


def _at(record: Mapping[str, Any], path: str) -> Any:
    value: Any = record
    for key in path.split("/")[1:]:
        value = value[int(key)] if isinstance(value, list) else value[key.replace("~1", "/").replace("~0", "~")]
    return value


def _text(value: Any) -> str:
    return number_text(value) if isinstance(value, int | float) and not isinstance(value, bool) else str(value)


def one_line(text: str) -> str:
    """Return a text on one line, without controls."""
    return _PLAIN.sub(" ", cleaned(text)).strip()
