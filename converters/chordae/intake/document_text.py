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
import re
from collections.abc import Iterable
from typing import Any

from chordae.errors import FormatError
from chordae.model import class_slots, tables
from chordae.record import Record

__all__ = ["in_order", "write_document"]

_SAFE = re.compile(r"[A-Za-z][A-Za-z0-9_]*(?:[ /.-][A-Za-z0-9_]+)*")
_TRAPS = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false", "null", "nan", "inf"})


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
    ordered = (in_order(one) for one in records)
    if format == "yaml":
        return _yaml(list(ordered))
    if format == "json":
        lines = ",\n".join(_json(one) for one in ordered)
        return f"[\n{lines}\n]\n" if lines else "[]\n"
    if format == "ndjson":
        return "".join(_json(one) + "\n" for one in ordered)
    raise FormatError(f"There is no document format {format!r}.", "Use one of: yaml, json, ndjson.")


def in_order(value: Any, name: str = "Record") -> Any:
    """Return a copy of a record, or of an object of a class, with its keys in the order of the schema.

    Keys that the class does not have come last, in the order they have.
    """
    if not isinstance(value, dict):
        return value
    known = [one for one in class_slots(str(value.get("type")) if name == "Part" else name) if one in value]
    ordered: dict[str, Any] = {}
    for key in known:
        slot = tables().slots[key]
        inner = slot.range if slot.kind == "node" else None
        one = value[key]
        if inner is not None:
            one = [in_order(item, inner) for item in one] if isinstance(one, list) else in_order(one, inner)
        ordered[key] = one
    return ordered | {key: one for key, one in value.items() if key not in ordered}


def _json(record: Record) -> str:
    return json.dumps(record, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def _yaml(records: list[Record]) -> str:
    import yaml

    base: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)

    class Dumper(base):  # type: ignore[misc] # the C class where PyYAML was built with it
        """Never an alias; quotes round every word that could be misread."""

        def ignore_aliases(self, data: Any) -> bool:
            return True

    def text(dumper: Any, value: str) -> Any:
        plain = _SAFE.fullmatch(value) is not None and value.lower() not in _TRAPS
        return dumper.represent_scalar("tag:yaml.org,2002:str", value, style=None if plain else '"')

    Dumper.add_representer(str, text)
    return str(
        yaml.dump(
            records,
            Dumper=Dumper,
            sort_keys=False,
            allow_unicode=True,
            width=1_000_000,
            default_flow_style=False,
        )
    )
