"""From a value as it was read to the value as it can be kept: sound characters, not too long, not too deep.

The quick question :func:`needs_a_look` is asked of every record; the thorough :func:`storable` only where
it says yes.
"""

from __future__ import annotations

from typing import Any

from chordae.files import MAX_CELL, MAX_DEPTH
from chordae.intake.found import Fault, pointer
from chordae.intake.scalars import bad_characters

__all__ = ["needs_a_look", "storable"]

_NOWHERE = (0, 0)


def needs_a_look(value: Any, depth: int = 0) -> bool:
    """Say whether a value may hold something that cannot be kept as it is."""
    if isinstance(value, str):
        return len(value) > MAX_CELL or not value.isprintable()
    if isinstance(value, dict):
        return depth >= MAX_DEPTH or any(
            not key.isprintable() or needs_a_look(one, depth + 1) for key, one in value.items()
        )
    if isinstance(value, list):
        return depth >= MAX_DEPTH or any(needs_a_look(one, depth + 1) for one in value)
    return False


def storable(value: Any, path: str = "", depth: int = 0) -> tuple[Any, list[Fault], bool]:
    """Return the value as it can be kept, the faults (without their marks), and whether to refuse it."""
    if isinstance(value, str):
        if bad := bad_characters(value):
            return value, [Fault("I-DOC-07", _NOWHERE, path, value, {"characters": bad})], True
        if len(value) > MAX_CELL:
            fault = Fault("I-DOC-10", _NOWHERE, path, fields={"length": len(value), "limit": MAX_CELL})
            return value[:MAX_CELL], [fault], False
        return value, [], False
    if not isinstance(value, dict | list):
        return value, [], False
    if depth >= MAX_DEPTH:
        return None, [Fault("I-DOC-04", _NOWHERE, path, fields={"limit": MAX_DEPTH})], True
    faults: list[Fault] = []
    refused = False
    members = value.items() if isinstance(value, dict) else enumerate(value)
    kept: dict[Any, Any] = {}
    for key, one in members:
        if isinstance(key, str) and (bad := bad_characters(key)):
            faults.append(Fault("I-DOC-07", _NOWHERE, path, key, {"characters": bad}))
            refused = True
        kept[key], more, also = storable(one, pointer(path, key), depth + 1)
        faults += more
        refused = refused or also
    return (kept if isinstance(value, dict) else list(kept.values())), faults, refused
