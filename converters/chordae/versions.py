"""What a record written with an older vocabulary should know: its version and its terms in, issues out.

::

    {"vocabulary_version": "0.1.0", ..., "side": "left"}      the vocabulary is now 0.3.0
        I-VOC-01   a term that the record uses was given another label or definition
        I-VOC-02   a term that the record uses was given up; its successor is named
        I-VOC-03   the version is none, or newer than this vocabulary

Only changes of terms that the record uses are told. Nothing in the record is altered.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from chordae.errors import VocabularyError
from chordae.issues import Issue, issue
from chordae.model import tables
from chordae.record import Reading
from chordae.terms import Change, Vocabulary, vocabulary

__all__ = ["check_version", "terms_of"]

_KEY = "vocabulary_version"
_PATH = "/vocabulary_version"


def check_version(reading: Reading, table: Vocabulary | None = None) -> list[Issue]:
    """Tell what has changed since the record was written, for the terms it uses.

    Parameters
    ----------
    reading
        A full record; one without ``vocabulary_version`` has nothing to be told.
    table
        The vocabulary to compare with; that of this package if not given.
    """
    known = table or vocabulary()
    version = reading.record.get(_KEY)
    if version is None:
        return []
    try:
        changes = known.changes_since(str(version), terms_of(reading.record))
    except VocabularyError as error:
        return [_issue("I-VOC-03", reading, value=version, problem=error.message, remedy=error.hint)]
    return [_tell(change, known, reading) for change in changes]


def terms_of(record: Mapping[str, Any]) -> frozenset[str]:
    """Slugs of the terms that the words of a record stand for, and of those it names itself.

    Examples
    --------
    >>> sorted(terms_of({"stated": {"diagnoses": ["common_atrium"]}, "parts": [{"side": "left_sided"}]}))
    ['common_atrium', 'left_sided']
    """
    return frozenset(_walk(record))


def _walk(value: Any, slot: str = "") -> Iterator[str]:
    if isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _walk(inner, str(key))
    elif isinstance(value, list):
        for inner in value:
            yield from _walk(inner, slot)
    elif isinstance(value, str) and (known := tables().slots.get(slot)) is not None:
        if value in known.values:
            yield known.values[value].rpartition("/")[2]
        elif known.kind == "term":
            yield value


def _tell(change: Change, table: Vocabulary, reading: Reading) -> Issue:
    label = table[change.slug].european
    if change.change == "deprecated":
        successor = table.successor(change.slug)
        instead = f'use "{successor.european}"' if successor else "no other term took its place"
        return _issue("I-VOC-02", reading, label=label, version=change.version, instead=instead, note=change.note)
    return _issue(
        "I-VOC-01", reading, label=label, version=change.version, change=change.change, note=change.note or "no note"
    )


def _issue(rule: str, reading: Reading, **fields: Any) -> Issue:
    record = reading.record.get("id")
    place = reading.places.get(_PATH) or reading.places.get("")
    return issue(rule, location=place, record=None if record is None else str(record), path=_PATH, **fields)
