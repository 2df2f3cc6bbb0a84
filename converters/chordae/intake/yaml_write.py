r"""One record as an item of a YAML list: the text that PyYAML writes, several times as fast.

::

    {"id": "0012", "parts": [{"id": "aorta"}]}  ->  - id: "0012"
                                                      parts:
                                                      - id: aorta

A record is mappings, lists, numbers and short texts; for these the lines are put together here. A text with a sign that
YAML writes in a way of its own makes PyYAML write the record. Tests hold both against each other.

References
----------
YAML 1.2.2, section 7.3 (flow scalar styles) and 8.2 (block collection styles).
"""

from __future__ import annotations

import re
from functools import lru_cache
from math import isfinite
from typing import Any

__all__ = ["write_yaml"]

_SAFE = re.compile(r"[A-Za-z][A-Za-z0-9_]*(?:[ /.-][A-Za-z0-9_]+)*")
_TRAPS = frozenset({"y", "n", "yes", "no", "on", "off", "true", "false", "null", "nan", "inf"})
_QUOTED = re.compile(r"[\x20-\x7e\xa0-\u167f\u2010-\u2027\u2030-\u205e\u2070-\u2fff]*")
"""Texts whose signs stand in quotes as they are, but for the quotation mark and the backslash."""
_LONGEST_KEY = 100
_LONGEST = 100_000
"""Longer texts may be broken into lines."""


class _Unusual(Exception):
    """Something that is left to PyYAML."""


def write_yaml(record: dict[str, Any]) -> str:
    """Return a record as one item of a list, with its keys in the order they have.

    Examples
    --------
    >>> print(write_yaml({"id": "0012", "parts": [{"id": "aorta"}], "remarks": []}), end="")
    - id: "0012"
      parts:
      - id: aorta
      remarks: []
    """
    lines: list[str] = []
    try:
        if not record:
            raise _Unusual
        _mapping(lines, record, "", "- ")
    except _Unusual:
        return write_with_library(record)
    lines.append("")
    return "\n".join(lines)


def _mapping(lines: list[str], value: dict[str, Any], indent: str, first: str) -> None:
    """Add the lines of a mapping that is not empty; the first one begins with ``indent`` and ``first``."""
    start = indent + first
    inner = indent + " " * len(first)
    for key, one in value.items():
        if type(key) is not str or len(key) > _LONGEST_KEY:
            raise _Unusual
        if type(one) is str:
            lines.append(f"{start}{_text(key)}: {_text(one)}")
        elif type(one) is list and one:
            lines.append(f"{start}{_text(key)}:")
            _list(lines, one, inner)
        elif type(one) is dict and one:
            lines.append(f"{start}{_text(key)}:")
            _mapping(lines, one, inner + "  ", "")
        else:
            lines.append(f"{start}{_text(key)}: {_scalar(one)}")
        start = inner


def _list(lines: list[str], value: list[Any], indent: str) -> None:
    for one in value:
        if type(one) is dict and one:
            _mapping(lines, one, indent, "- ")
        elif type(one) is list and one:
            raise _Unusual
        else:
            lines.append(f"{indent}- {_scalar(one)}")


def _scalar(value: Any) -> str:
    if type(value) is str:
        return _text(value)
    if value is None:
        return "null"
    if type(value) is bool:
        return "true" if value else "false"
    if type(value) is int:
        return str(value)
    if type(value) is float and isfinite(value):
        text = repr(value)
        return text if "." in text else text.replace("e", ".0e", 1)
    if type(value) is list:
        return "[]"
    if type(value) is dict:
        return "{}"
    raise _Unusual


@lru_cache(maxsize=4096)
def _text(value: str) -> str:
    if _is_plain(value) and len(value) <= _LONGEST:
        return value
    if len(value) > _LONGEST or _QUOTED.fullmatch(value) is None:
        raise _Unusual
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _is_plain(value: str) -> bool:
    return _SAFE.fullmatch(value) is not None and value.lower() not in _TRAPS


def write_with_library(record: dict[str, Any]) -> str:
    """Return what PyYAML writes: never an alias; quotes round every word that some reader could misread."""
    import yaml

    base: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)

    class Dumper(base):  # type: ignore[misc] # the C class where PyYAML was built with it
        """See above."""

        def ignore_aliases(self, data: Any) -> bool:
            return True

    def text(dumper: Any, value: str) -> Any:
        style = None if _is_plain(value) else '"'
        return dumper.represent_scalar("tag:yaml.org,2002:str", value, style=style)

    Dumper.add_representer(str, text)
    options: dict[str, Any] = {"sort_keys": False, "allow_unicode": True, "width": 1_000_000}
    return str(yaml.dump([record], Dumper=Dumper, default_flow_style=False, **options))
