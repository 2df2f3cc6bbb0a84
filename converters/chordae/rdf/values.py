"""From the object of a statement to the value of a slot; the inverse of :mod:`chordae.rdf.terms`."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from functools import cache
from typing import TYPE_CHECKING, Any

from chordae.model import Slot, tables
from chordae.rdf.names import Names, last_segment
from chordae.rdf.terms import TERM, XSD, date_type

if TYPE_CHECKING:
    from chordae.rdf.parse import Term

__all__ = ["ValueFault", "read_value"]

_LANGUAGE = "http://www.w3.org/1999/02/22-rdf-syntax-ns#langString"
_WHOLE = frozenset(
    ("integer", "long", "int", "short", "byte", "nonNegativeInteger", "positiveInteger", "nonPositiveInteger",
     "negativeInteger", "unsignedLong", "unsignedInt", "unsignedShort", "unsignedByte")
)  # fmt: skip
_NUMBERS = _WHOLE | {"decimal", "double", "float"}
_DAYS = frozenset(("date", "gYear", "gYearMonth"))
_WORDS = _DAYS | _NUMBERS | {"anyURI", "token", "normalizedString", "language", "dateTime", "boolean"}
"""Datatypes of XML Schema whose words are kept as words."""
_INTEGER = re.compile(r"[-+]?[0-9]+")


class ValueFault(ValueError):
    """A value that a slot cannot hold; ``text`` are its words, ``problem`` says why."""

    def __init__(self, text: str, problem: str) -> None:
        super().__init__(f"{text}: {problem}")
        self.text = text
        self.problem = problem


def read_value(value: Term, slot: Slot, names: Names) -> Any:
    """Return a value.

    Parameters
    ----------
    value
        The object of a statement.
    slot
        Says what is expected.
    names
        The ids of the nodes of the record, for references.

    Raises
    ------
    ValueFault
        The value cannot be kept as it stands. Words that are not in the list of a slot are returned as they are:
        the check of structure names them.
    """
    kind = type(value).__name__
    text = str(getattr(value, "value", value))
    if kind == "Triple":
        raise ValueFault(text, "a statement about a statement stands here")
    if (datatype := getattr(value, "datatype", None)) is not None:
        _refuse_type(text, str(datatype.value), slot)
    if slot.kind == "enum":
        return _words_of(slot.range or "").get(text, text) if kind == "NamedNode" else text
    if slot.kind == "reference":
        return names.of(value)
    if slot.kind == "term":
        return text.removeprefix(TERM) if kind == "NamedNode" else text
    if slot.kind in {"integer", "decimal"}:
        return _number(text)
    if kind == "BlankNode":
        raise ValueFault(last_segment(value), "a node without a name stands where words should")
    return text


def _refuse_type(text: str, datatype: str, slot: Slot) -> None:
    """Refuse a literal whose datatype says that it is something else, or that its words do not fit."""
    name = datatype.removeprefix(XSD)
    if datatype == _LANGUAGE or name == "string":
        return
    number = slot.kind in {"integer", "decimal"}
    if name == datatype or name not in (_NUMBERS if number else _WORDS):
        raise ValueFault(text, f"its datatype {last_segment(datatype)} is none that stands here")
    if name in _WHOLE and _INTEGER.fullmatch(text.strip()) is None:
        raise ValueFault(text, "it is no whole number, as its datatype says")
    if name in _DAYS and date_type(text) != name:
        raise ValueFault(text, "there is no such date")


def _number(text: str) -> int | float:
    try:
        exact = Decimal(text.strip())
    except InvalidOperation:
        raise ValueFault(text, "a number was expected") from None
    if not exact.is_finite() or abs(exact.adjusted()) > 300:
        raise ValueFault(text, "a finite number was expected")
    if exact == exact.to_integral_value() and "." not in text and abs(exact) < 2**53:
        return int(exact)
    number = float(exact)
    if Decimal(repr(number)) != exact:
        raise ValueFault(text, "the number has more digits than can be kept")
    return number


@cache
def _words_of(enum: str) -> dict[str, str]:
    return {one["iri"]: word for word, one in tables().enums.get(enum, {}).items()}
