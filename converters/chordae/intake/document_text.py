r"""From records to the text of a document: what :mod:`chordae.intake.document` reads back as the same.

::

    [record, ...]  ->  "- id: \"0012\"\n  parts:\n ..."      yaml: a list
                       "[\n{...},\n{...}\n]\n"                json: a list, one record a line
                       "{...}\n{...}\n"                       ndjson: one record a line

Keys stand in the order of the schema, then in the order they have; the same record always gives the same
text. Words that some YAML reader takes for something else (no, on, 0012, 1:30, ?) stand in quotes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Any

from chordae.errors import FormatError
from chordae.intake.yaml_write import write_yaml
from chordae.model import class_slots, tables
from chordae.record import Record

__all__ = ["document_pieces", "in_order", "to_json", "write_document"]


def write_document(records: Iterable[Record], format: str = "yaml") -> str:
    """Write records as one document.

    Parameters
    ----------
    records
        Plain data: text, numbers, booleans, ``None``, lists, mappings with text keys.
    format
        ``yaml``, ``json`` or ``ndjson``.

    Raises
    ------
    FormatError
        The format is not known.

    Examples
    --------
    >>> print(write_document([{"id": "0012", "remarks": [{"text": "no"}]}]), end="")
    - id: "0012"
      remarks:
      - text: "no"
    """
    return "".join(document_pieces(records, format))


def document_pieces(records: Iterable[Record], format: str = "yaml") -> Iterator[str]:
    """Yield the text of :func:`write_document` piece by piece, each record as soon as it is there."""
    if format not in ("yaml", "json", "ndjson"):
        raise FormatError(f"There is no document format {format!r}.", "Use one of: yaml, json, ndjson.")
    any_yet = False
    for record in records:
        ordered = in_order(record)
        if format == "yaml":
            yield write_yaml(ordered)
        elif format == "ndjson":
            yield to_json(ordered) + "\n"
        else:
            yield (",\n" if any_yet else "[\n") + to_json(ordered)
        any_yet = True
    if format != "ndjson" and not any_yet:
        yield "[]\n"
    elif format == "json":
        yield "\n]\n"


def in_order(value: Any, name: str = "Record") -> Any:
    """Return a copy of a record, or of an object of a class, with its keys in the order of the schema.

    Keys that the class does not have come last, in the order they have.
    """
    if not isinstance(value, dict):
        return value
    places = _places(str(value.get("type")) if name == "Part" else name)
    ordered: dict[str, Any] = {}
    for _, key, inner in sorted([places[key] for key in value if key in places]):
        one = value[key]
        if inner:
            one = [in_order(item, inner) for item in one] if isinstance(one, list) else in_order(one, inner)
        ordered[key] = one
    if len(ordered) < len(value):
        ordered |= {key: one for key, one in value.items() if key not in ordered}
    return ordered


@lru_cache(maxsize=256)
def _places(name: str) -> dict[str, tuple[int, str, str]]:
    """Slot of a class -> its place among them, itself, and the class of what it holds, if that is an object."""
    slots = {key: tables().slots[key] for key in class_slots(name)}
    return {
        key: (place, key, (slot.range or "") if slot.kind == "node" else "")
        for place, (key, slot) in enumerate(slots.items())
    }


def to_json(record: Record) -> str:
    """Return a record as one line of JSON, without its end."""
    return json.dumps(record, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
