"""The rows of a crosswalk that can be used, and the words that may stand in it.

How the two tables look is shown in :mod:`chordae.intake.crosswalk`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from chordae.intake.targets import Target
from chordae.issues import Location

__all__ = [
    "ANY",
    "COLUMN_HEADINGS",
    "DATE_STYLES",
    "EXTRAS",
    "FITS",
    "KINDS",
    "LIST_STYLES",
    "MATCHES",
    "NOT_RECORDED",
    "UNITS",
    "VALUE_HEADINGS",
    "ColumnRule",
    "Crosswalk",
    "ValueRule",
    "normalised",
]

ANY = "*"
"""In values.tsv: whatever the column."""
COLUMN_HEADINGS = ("column", "part", "property", "kind", "style", "unit", "note")
VALUE_HEADINGS = ("column", "local", "part", "property", "value", "state", "match", "reviewer", "note")
MATCHES = ("exact", "close", "broad", "narrow", "ambiguous")
NOT_RECORDED = "not_recorded"
"""A state for values.tsv: the word says nothing about the heart."""

LIST_STYLES = {"list_comma": ",", "list_semicolon": ";", "list_slash": "/", "list_plus": "+"}
DATE_STYLES = ("d.m.y", "d/m/y", "m/d/y", "y-m-d", "m.y", "y")
KINDS: Mapping[str, tuple[str, ...]] = {
    "identifier": (),
    "value": tuple(LIST_STYLES),
    "number": ("decimal_comma",),
    "percent": ("decimal_comma",),
    "measurement": ("decimal_comma",),
    "date": DATE_STYLES,
    "text": (),
    "remark": (),
    "notation": (),
    "ignore": (),
    "constant": (),
}
"""Kinds of column, each with its styles."""
UNITS = ("mm", "cm", "g", "kg", "mm2", "cm2", "mL", "%", "d", "wk", "mo", "a", "1")
"""Units of measurements as UCUM codes; 1 is for a z-score."""

FITS: Mapping[str, tuple[str, ...]] = {
    "identifier": ("identifier", "text"),
    "value": ("enum", "term", "reference", "integer", "decimal", "text", "date"),
    "number": ("integer", "decimal"),
    "percent": ("decimal",),
    "date": ("date", "text"),
    "text": ("text", "uri", "date"),
    "constant": ("enum", "term", "reference", "integer", "decimal", "text", "date", "uri"),
}
EXTRAS = ("site", "method", "material_state", "reference_set", "body_measure", "modality")


@dataclass(frozen=True, slots=True)
class ColumnRule:
    """One row of columns.tsv that can be used; ``quantity`` is set for a measurement."""

    column: str
    kind: str
    target: Target | None
    place: Location
    style: str = ""
    unit: str = ""
    quantity: str = ""
    part: str = ""
    extras: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ValueRule:
    """One row of values.tsv that can be used; ``target`` is ``None`` where the column's own is meant."""

    column: str
    local: str
    target: Target | None
    value: str
    state: str
    match: str
    reviewer: str
    note: str
    certainty: str
    place: Location


@dataclass(frozen=True, slots=True)
class Crosswalk:
    """The usable rows; ``faulty`` are columns of which a row was left out, with an issue."""

    columns: Mapping[str, tuple[ColumnRule, ...]]
    values: Mapping[tuple[str, str], tuple[ValueRule, ...]]
    constants: tuple[ColumnRule, ...] = ()
    faulty: frozenset[str] = frozenset()

    def decisions(self, column: str, word: str) -> tuple[ValueRule, ...]:
        """Return the rows for a word in a column, else those for the word in any column."""
        key = normalised(word)
        return self.values.get((column, key)) or self.values.get((ANY, key), ())


@lru_cache(maxsize=8192)
def normalised(word: str) -> str:
    """Return a word with single spaces and without capitals: all that look-ups overlook.

    Examples
    --------
    >>> normalised("  Not   Seen ")
    'not seen'
    """
    return " ".join(word.split()).casefold()
