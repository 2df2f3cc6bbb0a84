"""Which statements of a record another record makes as well: what was written, held against what was read again.

::

    /parts/3/leaflet_count          -> parts, right_sided_atrioventricular_valve, leaflet_count
    /description/examination/1      -> description, examination, "probe"

Lists are compared by what names their items (the id of a part, the feature of an observation, the word itself), so the
order of a list without an order does not matter. Numbers are compared as numbers.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from chordae.model import tables
from chordae.record import Record, pointer

__all__ = ["differences", "kept", "named_values"]

Name = tuple[str, ...]


def named_values(record: Record) -> dict[str, tuple[Name, Any]]:
    """Return for each statement of a record, by its JSON pointer, its name and its value.

    Examples
    --------
    >>> named_values({"id": "7", "parts": [{"id": "aorta", "type": "ArterialTrunk"}]})["/parts/0/type"]
    (('parts', 'aorta', 'type'), 'ArterialTrunk')
    """
    return {path: (name, _plain(value)) for path, name, value in _walk(record, "", ())}


def kept(record: Record, again: Record) -> set[str]:
    """Return the JSON pointers of the statements of a record that stand in the other one as well."""
    there = dict(named_values(again).values())
    return {path for path, (name, value) in named_values(record).items() if name in there and there[name] == value}


def differences(record: Record, again: Record) -> list[tuple[Name, Any, Any]]:
    """Return the statements that only one of two records makes, or that differ: name, value here, value there."""
    here, there = (dict(named_values(one).values()) for one in (record, again))
    return [
        (name, here.get(name), there.get(name))
        for name in sorted({*here, *there})
        if name not in here or name not in there or here[name] != there[name]
    ]


def _walk(value: Any, path: str, name: Name) -> Iterator[tuple[str, Name, Any]]:
    if isinstance(value, Mapping):
        for key, one in value.items():
            yield from _walk(one, path + pointer(key), (*name, str(key)))
    elif isinstance(value, list):
        slot = tables().slots.get(name[-1]) if name else None
        met: dict[str, int] = {}
        for at, one in enumerate(value):
            own = str(at)
            if isinstance(one, Mapping):
                if slot is not None and slot.key and slot.key in one:
                    own = str(one[slot.key])
            elif slot is None or not slot.ordered:
                own = f"={one}"
            met[own] = count = met.get(own, 0) + 1
            yield from _walk(one, f"{path}/{at}", (*name, own if count == 1 else f"{own}~{count}"))
    else:
        yield path, name, value


def _plain(value: Any) -> Any:
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        return value
    return Decimal(str(value)).normalize()
