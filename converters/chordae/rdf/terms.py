"""From one value to the object of a triple, in canonical N-Triples; used by the generated emitter.

====================  ======================================================================
text                  ``"..."``, escaped as RDFC-1.0 asks (section 5, canonical N-Quads)
integer, decimal      ``"3"^^xsd:integer``, ``"12.5"^^xsd:decimal``: the digits as they stand
date                  xsd:date, xsd:gYearMonth or xsd:gYear by the form; other forms stay text
term                  IRI in the vocabulary; words that are no term stay text
====================  ======================================================================

Each ends with `` .`` and so completes a line.
"""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import Any
from urllib.parse import quote

__all__ = [
    "TERM",
    "XSD",
    "date",
    "date_type",
    "decimal",
    "integer",
    "is_iri",
    "is_slug",
    "keyed",
    "literal",
    "many",
    "name",
    "number_text",
    "term",
    "text",
    "uri",
]

TERM = "https://w3id.org/chordae/term/"
XSD = "http://www.w3.org/2001/XMLSchema#"

_SPECIAL = re.compile('[\x00-\x1f"\\\\\x7f]')
_SHORT = {"\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r", '"': '\\"', "\\": "\\\\"}
_SLUG = re.compile(r"[a-z][a-z0-9_]*")
_IRI = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:[^\x00-\x20<>\"{}|^`\\\x7f]*")
_DATES = (
    (re.compile(r"[0-9]{4}"), "gYear"),
    (re.compile(r"[0-9]{4}-(0[1-9]|1[0-2])"), "gYearMonth"),
    (re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}"), "date"),
)


def literal(value: str) -> str:
    """Return a plain literal, without the end of the line.

    Examples
    --------
    >>> literal('a "b"')
    '"a \\\\"b\\\\""'
    """
    if _SPECIAL.search(value):
        value = _SPECIAL.sub(_escape, value)
    return f'"{value}"'


def text(value: object) -> str:
    """Return words as a literal."""
    return literal(value if isinstance(value, str) else str(value)) + " ."


def number_text(value: object) -> str:
    """Return the digits of a number without an exponent.

    Raises
    ------
    ValueError
        It is not a finite number.

    Examples
    --------
    >>> number_text(12.5), number_text(1e-7), number_text(3)
    ('12.5', '0.0000001', '3')
    """
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal) or not math.isfinite(value):
        raise ValueError(f"not a finite number: {value!r}")
    digits = str(value)
    return format(Decimal(digits), "f") if "e" in digits or "E" in digits else digits


def decimal(value: object) -> str:
    """Return a number as an xsd:decimal."""
    return f'"{number_text(value)}"^^<{XSD}decimal> .'


def integer(value: object) -> str:
    """Return a whole number as an xsd:integer, any other as an xsd:decimal."""
    if isinstance(value, float) and value.is_integer():
        value = int(value)
    if isinstance(value, int) and not isinstance(value, bool):
        return f'"{value}"^^<{XSD}integer> .'
    return decimal(value)


def date(value: object) -> str:
    """Return a date with the datatype of its form.

    Examples
    --------
    >>> date("2026-05")
    '"2026-05"^^<http://www.w3.org/2001/XMLSchema#gYearMonth> .'
    >>> date("2026-02-30")
    '"2026-02-30" .'
    """
    words = str(value)
    return f"{literal(words)}^^<{XSD}{kind}> ." if (kind := date_type(words)) else text(words)


def date_type(words: str) -> str | None:
    """Return ``gYear``, ``gYearMonth`` or ``date`` for words of that form, ``None`` for others.

    Examples
    --------
    >>> date_type("2026"), date_type("2026-02-28"), date_type("2026-02-30"), date_type("1960s")
    ('gYear', 'date', None, None)
    """
    kind = next((kind for form, kind in _DATES if form.fullmatch(words)), None)
    if kind == "date":
        try:
            datetime.date.fromisoformat(words)
        except ValueError:
            return None
    return kind if not words.startswith("0000") else None


def term(value: object) -> str:
    """Return a term of the vocabulary as its IRI."""
    words = str(value)
    return f"<{TERM}{words}> ." if is_slug(words) else text(words)


def is_slug(words: str) -> bool:
    """Say whether words have the form of a term's slug."""
    return _SLUG.fullmatch(words) is not None


def uri(value: object) -> str:
    """Return an IRI; words that are none stay text."""
    words = str(value)
    return f"<{words}> ." if is_iri(words) else text(words)


def is_iri(words: str) -> bool:
    """Say whether words have the form of an absolute IRI."""
    return _IRI.fullmatch(words) is not None


def many(values: Any) -> Sequence[Any]:
    """Return the values of a list that hold something; nothing for a list that is not there.

    Raises
    ------
    TypeError
        It is no list.
    """
    if values is None:
        return ()
    if not isinstance(values, list | tuple):
        raise TypeError(f"a list was expected, not {type(values).__name__}")
    return [one for one in values if one is not None] if None in values else values


@lru_cache(maxsize=8192)
def name(value: str) -> str:
    """Return an identifier as one segment of an IRI.

    Examples
    --------
    >>> name("a/b c")
    'a%2Fb%20c'
    """
    return quote(str(value), safe="")


def keyed(nodes: Iterable[Mapping[str, Any]], key: str) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Yield each inner node with the last segment of its IRI: its key; a key that was there gets a number.

    Examples
    --------
    >>> [last for last, node in keyed([{"what": "topology"}, {"what": "topology"}, {}], "what")]
    ['topology', 'topology~2', '~1']
    """
    met: dict[str, int] = {}
    for node in nodes:
        last = name(str(node.get(key) or ""))
        met[last] = count = met.get(last, 0) + 1
        yield (last if last and count == 1 else f"{last}~{count}"), node


def _escape(match: re.Match[str]) -> str:
    character = match.group()
    return _SHORT.get(character) or f"\\u{ord(character):04X}"
