"""From the bytes of a foreign JSON document to its value, with an issue for everything that could do harm or be lost.

Used by every reader of JSON that is not a document of records. Text that is not well formed, nesting without end and
characters that cannot be stored refuse the document; a key given twice and a number that cannot be kept exactly are
named.
"""

from __future__ import annotations

from typing import Any

from chordae.intake.encoding import decode
from chordae.intake.found import Fault
from chordae.intake.json_text import find_value
from chordae.intake.storable import needs_a_look, storable
from chordae.issues import Issue, Location, issue

__all__ = ["read_json"]


def read_json(data: bytes, name: str) -> tuple[Any, list[Issue]]:
    """Return the value of a JSON document, ``None`` if it was refused.

    Raises
    ------
    InputError
        It is empty, or is not text.
    """
    text, issues = decode(data, name)
    found = find_value(text)
    faults, refused, value = list(found.faults), found.refused, found.value
    if not refused and needs_a_look(value):
        value, more, refused = storable(value)
        faults += more
    issues += [_issue(one, name, found.mark) for one in faults]
    return (None if refused else value), issues


def _issue(fault: Fault, name: str, start: tuple[int, int]) -> Issue:
    line, column = fault.mark if fault.mark != (0, 0) else start
    place = Location(name, line, column)
    return issue(fault.rule, location=place, path=fault.path or None, value=fault.value, **fault.fields)
