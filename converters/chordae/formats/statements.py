"""From a record to its single statements, so that what a format carries can be counted one by one.

::

    {"id": "0012", "parts": [{"id": "right_sided_atrium", "type": "Atrium", "pectinate_extent": "to_crux"}]}

    /id                         record      id                "0012"             present
    /parts/0/type               part        type              "Atrium"           present
    /parts/0/pectinate_extent   feature     pectinate_extent  "to_crux"          present

One statement is one word, number or text at one place of the record. A list of words is one statement for each.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from chordae.model import STATES
from chordae.record import Record, pointer

__all__ = ["Kind", "Statement", "statements"]

Kind = Literal[
    "record", "specimen", "description", "part", "feature", "observed", "commitment", "measurement",
    "evidence", "stated", "derived", "waiver", "remark",
]  # fmt: skip

_KIND_OF: Mapping[str, Kind] = {
    "specimen": "specimen",
    "description": "description",
    "measurements": "measurement",
    "evidence": "evidence",
    "stated": "stated",
    "derived": "derived",
    "waivers": "waiver",
    "remarks": "remark",
}
_INNER: Mapping[str, Kind] = {"observed": "observed", "opens_into": "commitment", "arises_from": "commitment"}
_PART_KEYS = ("id", "type", "side", "state", "state_reason", "note")


@dataclass(frozen=True, slots=True)
class Statement:
    """One word, number or text of a record.

    ``path`` is its JSON pointer, ``part`` the id of the part it stands in, ``name`` its key. ``state`` is one of the
    four states where the value is one, otherwise ``present``.
    """

    path: str
    kind: Kind
    part: str | None
    name: str
    value: Any
    state: str


def statements(record: Record) -> Iterator[Statement]:
    """Yield every statement of a record, in the order of the record."""
    for key, value in record.items():
        if key == "parts":
            for at, part in enumerate(value):
                yield from _part(part, pointer("parts", at))
        else:
            yield from _leaves(value, pointer(key), _KIND_OF.get(key, "record"), None, key)


def _part(part: Mapping[str, Any], path: str) -> Iterator[Statement]:
    part_id = str(part.get("id", ""))
    for key, value in part.items():
        kind: Kind = "part" if key in _PART_KEYS else _INNER.get(key, "feature")
        yield from _leaves(value, path + pointer(key), kind, part_id, key)


def _leaves(value: Any, path: str, kind: Kind, part: str | None, name: str) -> Iterator[Statement]:
    if isinstance(value, Mapping):
        for key, one in value.items():
            yield from _leaves(one, path + pointer(key), kind, part, key)
    elif isinstance(value, list):
        for at, one in enumerate(value):
            yield from _leaves(one, path + pointer(at), kind, part, name)
    else:
        yield Statement(path, kind, part, name, value, value if value in STATES else "present")
